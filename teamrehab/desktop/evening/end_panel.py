"""The end of the evening: what was entered, what the coach would read anew, who signed."""

from collections.abc import Sequence
from datetime import date, datetime
from zoneinfo import ZoneInfo

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, prose, text
from teamrehab.desktop.buttons import main_button, plain_button
from teamrehab.desktop.evening.closing_words import open_words, typed_words
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import Squad, Standing
from teamrehab.domain.measures import SessionMissed
from teamrehab.language import _, counted
from teamrehab.reports.closing import EveningCount
from teamrehab.reports.wording import day_words, hour_words
from teamrehab.reports.wording_closing import misled_words
from teamrehab.reports.wording_evening import missed_words

_WIDTH = 340
"""Room for a sentence of the coach's sheet in three lines at most."""


class EndPanel(QWidget):
    """Counts, changes and the signature; ``sheet_asked`` and ``signing`` follow its buttons."""

    sheet_asked = Signal()
    signing = Signal()

    def __init__(self, me: str, zone: str) -> None:
        super().__init__()
        self._zone = ZoneInfo(zone)
        self.entered, self.missed, self.open = text("", Type.LEAD), text(""), text("")
        self.changes, self.signed = text(""), text("")
        self.stale, self.warnings = text("", Type.COMPLAINT), text("", Type.COMPLAINT)
        wrapped = (self.missed, self.open, self.changes, self.signed, self.stale, self.warnings)
        for label in wrapped:
            label.setWordWrap(True)
        self.sheet = plain_button(_("Coach's sheet (S)"), self.sheet_asked.emit)
        words = _("Sign the evening as\n{name} (Ctrl+Enter)").format(name=me)
        self.sign = main_button(words.replace("&", "&&"), self.signing.emit)
        self.sign.setDefault(False)  # Enter alone signs nothing
        for button in (self.sheet, self.sign):
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self._lay_out()
        self.setFixedWidth(max(_WIDTH, self.sizeHint().width()))

    def show_count(self, count: EveningCount, why_missed: Sequence[str]) -> None:
        """Show how the evening stands; ``why_missed`` has a line a row, with its reason."""
        self.entered.setText(
            counted("{count} row entered", "{count} rows entered", count.entered)
        )
        missed = counted(
            "{count} not done or not seen", "{count} not done or not seen", count.missed
        )
        self.missed.setText("\n".join((missed, *why_missed)))
        self.missed.setVisible(bool(count.missed))
        self.open.setText(open_words(count))
        self.changes.setText("\n".join(count.changes))
        told = (misled_words(count.misled), typed_words(count))
        self.warnings.setText("\n".join(words for words in told if words))
        self.warnings.setVisible(bool(self.warnings.text()))

    def show_signed(
        self, signed: Sequence[Standing[EveningSigned]], newest: datetime | None
    ) -> None:
        """Show who signed when; ``newest`` is when the last entry of the evening was noted."""
        self.signed.setText("\n".join(map(self._signed_words, signed)) or _("Not signed yet."))
        last = max((fact.noted_at for fact in signed), default=None)
        stale = last is not None and newest is not None and newest > last
        self.stale.setText(_("Entries changed after it was signed: sign again."))
        self.stale.setVisible(stale)

    def _signed_words(self, fact: Standing[EveningSigned]) -> str:
        when = fact.noted_at.astimezone(self._zone)
        return _(
            "Signed by {name}, {day}, {hour}: {entered} entered, {missed} missed, {open} not"
            " entered."
        ).format(
            name=fact.value.signed_by,
            day=day_words(when.date()),
            hour=hour_words(when),
            entered=fact.value.entered,
            missed=fact.value.missed,
            open=fact.value.open,
        )

    def _lay_out(self) -> None:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(0, 0, Space.NEAR, 0)
        column.setSpacing(Space.TIGHT)
        column.addWidget(text(_("The evening"), Type.TITLE))
        for label in (self.entered, self.missed, self.open, self.warnings):
            column.addWidget(label)
        column.addSpacing(Space.NEAR)
        column.addWidget(_heading(_("New for the coach since the last sheet")))
        column.addWidget(self.changes)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(page)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(Space.NEAR)
        whole.addWidget(scroll, 1)
        for part in (self.sheet, self.signed, self.stale, self.sign, _caution()):
            whole.addWidget(part)


def why_missed(squad: Squad, day: date) -> tuple[str, ...]:
    """Return for each row without a session of ``day`` whose it is and why."""
    return tuple(
        _("{name}: {reason}").format(name=history.athlete.name, reason=missed_words(missed))
        for history in squad.open_cases
        for missed in history.of(SessionMissed)
        if missed.on == day
    )


def newest_entry(squad: Squad, day: date) -> datetime | None:
    """Return when the last entry of an evening was noted, None where there is none."""
    facts = (fact for history in squad.open_cases for fact in history.facts)
    return max((fact.noted_at for fact in facts if fact.value.on == day), default=None)


def _heading(words: str) -> QLabel:
    label = text(words, Type.SMALL)
    label.setWordWrap(True)
    return label


def _caution() -> QWidget:
    return prose(
        _(
            "Decision support for licensed staff: the clinician decides. "
            "For red flags seek medical review."
        ),
        Type.SMALL,
    )
