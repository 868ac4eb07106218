"""The examination 24 to 72 hours after an injury: every question starts unanswered."""

from collections.abc import Sequence
from typing import Any, TypeVar

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPlainTextEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.athlete.earlier_part import EarlierPart
from teamrehab.desktop.athlete.examination_words import (
    activity_answers,
    character_answers,
    gait_answers,
    onset_answers,
    resisted_answers,
)
from teamrehab.desktop.athlete.other_leg_part import MeasuredPart
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.length_field import LengthField
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading, TypedError
from teamrehab.desktop.forms import ChoiceField, form_layout
from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.injuries import Case
from teamrehab.domain.intake import other_leg_hurt
from teamrehab.language import _

V = TypeVar("V")

_LINES = 3


class ExaminationForm(Form):
    """Makes an Examination, with a first test of the other leg and earlier injuries beside it.

    With ``correcting`` it rewrites an examination alone: what was noted along with it is
    corrected where it stands. ``cases`` and ``earlier`` are the athlete's known past.
    """

    columns = 2

    def __init__(
        self,
        occasion: Occasion,
        areas: Sequence[str],
        case: Case,
        *,
        cases: Sequence[Case] = (),
        earlier: Sequence[EarlierInjury] = (),
        correcting: Examination | None = None,
    ) -> None:
        super().__init__()
        self._occasion, self._correcting = occasion, correcting
        self._case, self._cases, self._earlier = case, cases, earlier
        self._examination_id = correcting.examination_id if correcting else occasion.new_id()
        left, right = self._two_columns()
        self.rows = left
        self._add_beginning()
        self._add_week()
        self.measured: MeasuredPart | None = None
        self.past: EarlierPart | None = None
        if correcting is None:
            self._add_past(areas)
        self._add_text()
        self.rows = right
        self._add_examined()
        if correcting is None:
            self.measured = MeasuredPart(self, occasion)
        self.setFocusProxy(self.onset)
        if correcting is not None:
            self._fill(correcting)
        self.edited.connect(self._warn)
        self._warn()

    @property
    @override
    def title(self) -> str:
        return _("Correct an examination") if self._correcting else _("Examination")

    @property
    @override
    def save_words(self) -> str:
        name = self._occasion.athlete.name
        if self._correcting:
            return _("Save the corrected examination of {name}").format(name=name)
        return _("Save the examination of {name}").format(name=name)

    @override
    def values(self) -> tuple[Any, ...]:
        if not self.touched and self._correcting is None:
            return ()
        reading = Reading()
        tests = self.measured.read(reading) if self.measured else ()
        injuries, unread = self.past.read() if self.past else ((), [])
        found = (self.examination(), *tests, *injuries)
        if unread:
            raise TypedError([], unread, found)
        reading.finish(found)
        return found

    def examination(self) -> Examination:
        """Return the findings as they stand in the form now."""
        return Examination(
            examination_id=self._examination_id,
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.day.day,
            onset=self.onset.value(),
            activity=self.activity.value,
            character=self.character.value,
            site=self.site.text().strip(),
            resisted_straight=self.resisted_straight.value,
            resisted_bent=self.resisted_bent.value,
            stretch_straight=self.stretch_straight.value(),
            stretch_bent=self.stretch_bent.value(),
            tender_where=self.tender_where.text().strip(),
            tender_mm=self.tender.value,
            walking=self.walking.value,
            stairs=self.stairs.value,
            more_load=self.more_load.value(),
            little_rest=self.little_rest.value(),
            new_surface_or_shoe=self.new_surface.value(),
            text=self.text.toPlainText().strip(),
        )

    def _two_columns(self) -> tuple[Any, Any]:
        """Return two columns of rows side by side, the left one first by keyboard."""
        line = QHBoxLayout()
        line.setSpacing(Space.WIDE)
        columns = []
        for _side in range(2):
            column = QWidget()
            columns.append(form_layout(column))
            line.addWidget(column, 1, Qt.AlignmentFlag.AlignTop)
        self.rows.addRow(line)
        return columns[0], columns[1]

    def _add_beginning(self) -> None:
        self.day = DayField(self._correcting.on if self._correcting else self._occasion.today)
        self.onset = Choice([*onset_answers(), (None, _("not asked"))], at_first=2)
        self.activity = _Listed(activity_answers())
        self.character = _Listed(character_answers())
        self.site = QLineEdit()
        self.add(_("&Day"), self.day)
        self.add_heading(_("How it began"))
        self.add(_("&Onset"), self.onset, names=(_("What was examined"),))
        self.add(_("&Activity"), self.activity)
        self.add(_("&Felt like"), self.character)
        self.add(_("&Site"), self.site, _("where it hurts, in the athlete's words"))

    def _add_week(self) -> None:
        self.more_load, self.little_rest, self.new_surface = (_yes_or_no() for _n in range(3))
        self.add_heading(_("The week before"))
        self.add(_("&More load than usual"), self.more_load)
        self.add(_("&Little rest"), self.little_rest)
        self.add(_("New s&urface or shoe"), self.new_surface)

    def _add_past(self, areas: Sequence[str]) -> None:
        self.past = EarlierPart(self._occasion, areas)
        self.past.edited.connect(self.note_edit)
        self.add_heading(_("Earlier injuries, from before this club too"))
        self.rows.addRow(self.past)

    def _add_examined(self) -> None:
        looked = _("not looked at")
        self.resisted_straight = _Listed(resisted_answers())
        self.resisted_bent = _Listed(resisted_answers())
        self.stretch_straight, self.stretch_bent = (_yes_or_no(looked) for _knee in range(2))
        self.tender_where, self.tender = QLineEdit(), LengthField()
        self.walking, self.stairs = (_Listed(gait_answers()) for _way in range(2))
        self.add_heading(_("Examined: plantarflexion against the hand, stretch, touch"))
        self.add(_("&Resisted, knee straight"), self.resisted_straight)
        self.add(_("Resisted, knee &bent"), self.resisted_bent)
        self.add(_("Stre&tch hurts, knee straight"), self.stretch_straight)
        self.add(_("Stretch hurts, knee bent"), self.stretch_bent)
        self.add(_("T&ender where"), self.tender_where)
        self.add(_("Length that is tender"), self.tender)
        self.add(_("&Walking"), self.walking)
        self.add(_("Stairs"), self.stairs)

    def _add_text(self) -> None:
        self.text = QPlainTextEdit()
        self.text.setTabChangesFocus(True)
        self.text.setFixedHeight(_LINES * self.text.fontMetrics().lineSpacing())
        self.add(_("&Note"), self.text, _("clinical; never on the coach's sheet"))

    def _warn(self) -> None:
        """Say whether the other leg was hurt within a year, by all that is known and typed."""
        if self.measured is None or self.past is None:
            return
        typed, _unread = self.past.read()
        known = (*self._earlier, *typed)
        today = self._occasion.today
        self.measured.warn(other_leg_hurt(self._case, self._cases, known, today))

    def _fill(self, found: Examination) -> None:
        choices: tuple[tuple[Choice[Any], Any], ...] = (
            (self.onset, found.onset),
            (self.stretch_straight, found.stretch_straight),
            (self.stretch_bent, found.stretch_bent),
            (self.more_load, found.more_load),
            (self.little_rest, found.little_rest),
            (self.new_surface, found.new_surface_or_shoe),
        )
        for choice, answer in choices:
            choice.choose(answer)
        listed: tuple[tuple[ChoiceField[Any], Any], ...] = (
            (self.activity, found.activity),
            (self.character, found.character),
            (self.resisted_straight, found.resisted_straight),
            (self.resisted_bent, found.resisted_bent),
            (self.walking, found.walking),
            (self.stairs, found.stairs),
        )
        for field, answer in listed:
            field.show_value(answer)
        self.site.setText(found.site)
        self.tender_where.setText(found.tender_where)
        self.tender.show_value(found.tender_mm)
        self.text.setPlainText(found.text)


def _yes_or_no(open_words: str = "") -> Choice[bool | None]:
    words = open_words or _("not asked")
    return Choice([(True, _("yes")), (False, _("no")), (None, words)], at_first=2)


class _Listed(ChoiceField[V | None]):
    """Answers in a list that begins, and can end, unanswered."""

    def __init__(self, answers: Sequence[tuple[V, str]]) -> None:
        super().__init__([(None, _("unanswered")), *answers])

    @override
    def show_value(self, value: V | None) -> None:
        self.setCurrentIndex(self._values.index(value))
