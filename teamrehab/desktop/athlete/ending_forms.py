"""How a case ends without a clearance, and how an entry is taken back."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtWidgets import QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.athlete.reason_field import ReasonField
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.injuries import CaseClosed, Outcome
from teamrehab.language import _


class CloseForm(Form):
    """Closes a case that was not cleared for matches; the reason is kept with it."""

    def __init__(self, occasion: Occasion, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._occasion = occasion
        self._how_words = _("&How it ends")
        self.day = DayField(occasion.today)
        self.outcome = Choice(
            [(Outcome.LEFT_CLUB, _("left the club")), (Outcome.OTHER, _("other"))]
        )
        self.add(_("&Day"), self.day)
        self.add(self._how_words, self.outcome)
        self.reason = ReasonField(self)

    @property
    @override
    def title(self) -> str:
        return _("Close the case")

    @property
    @override
    def save_words(self) -> str:
        return _("Close the case of {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        outcome = reading.answer(self.outcome, self._how_words)
        self.reason.insist(reading)
        reading.finish()
        closed = CaseClosed(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.day.day,
            outcome=outcome or Outcome.OTHER,
        )
        return (closed,)


class WithdrawForm(Form):
    """Takes entries back as entered in error, for whom is said; its value is the reason."""

    def __init__(
        self, entries: Sequence[str], name: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._name = name
        for entry in entries:
            self.add_heading(entry)
        self._why_words = _("&Why it was entered in error")
        self.reason = QLineEdit()
        hint = _("Nothing comes in its place: what stood before counts again.")
        self.add(self._why_words, self.reason, hint)
        self.setFocusProxy(self.reason)

    @property
    @override
    def title(self) -> str:
        return _("Entered in error")

    @property
    @override
    def save_words(self) -> str:
        return _("Mark as entered in error for {name}").format(name=self._name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        why = reading.words(self.reason, self._why_words)
        reading.finish()
        return (why,)
