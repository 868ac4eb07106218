"""Parts of the forms of a new case: the red flags asked at once, and who expects what."""

from datetime import date

from PySide6.QtWidgets import QWidget

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.athlete.flag_words import meanwhile_words, what_to_do
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.maybe import Maybe
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.injuries import Case, RedFlag, ReturnDecision
from teamrehab.domain.onset import OnsetSigns, flag_at_onset, urgency_at_onset
from teamrehab.language import _


class OnsetFlags:
    """Questions that raise a red flag when the case is saved; both start unanswered.

    ``of_injury``: the second question, ``pop``, is asked too.
    """

    def __init__(self, form: Form, flag_id: str, *, of_injury: bool) -> None:
        self._flag_id = flag_id
        self._chest_words = _("&Chest pain, short of breath")
        self._pop_words = _("A pop, or no p&ush-off")
        self.chest = _no_or_yes()
        self.pop = _no_or_yes() if of_injury else None
        form.add(self._chest_words, self.chest)
        if self.pop is not None:
            form.add(self._pop_words, self.pop)
            self.pop.chosen.connect(self._say)
        self.urgent = text("", Type.COMPLAINT)
        self.urgent.setWordWrap(True)
        self.urgent.hide()
        form.rows.addRow(self.urgent)
        self.chest.chosen.connect(self._say)

    def read(self, reading: Reading) -> OnsetSigns:
        """Return what was answered; a question left open is trouble."""
        chest = reading.answer(self.chest, self._chest_words)
        pop = None if self.pop is None else reading.answer(self.pop, self._pop_words)
        return OnsetSigns(chest_or_breath=chest, pop_or_no_push_off=pop)

    def flags(self, case: Case, signs: OnsetSigns) -> tuple[RedFlag, ...]:
        """Return the red flag of the answers, if they raise one."""
        flag = flag_at_onset(case, signs, self._flag_id)
        return () if flag is None else (flag,)

    def _say(self) -> None:
        pop = None if self.pop is None else self.pop.value()
        answers = OnsetSigns(chest_or_breath=self.chest.value(), pop_or_no_push_off=pop)
        urgency = urgency_at_onset(answers)
        if urgency is not None:
            said = _("{what} Saving raises a red flag: {meanwhile}")
            self.urgent.setText(
                said.format(what=what_to_do(urgency), meanwhile=meanwhile_words())
            )
        self.urgent.setVisible(urgency is not None)


class ExpectedField(Maybe[DayField]):
    """The day on which a clinician expects the athlete back, where one says so.

    A ``detail`` is among the fields that are shown when they are asked for.
    """

    def __init__(self, form: Form, today: date, *, detail: bool = False) -> None:
        super().__init__(DayField(today))
        self._today = today
        hint = _("the clinician's opinion; the coach is told the day as one")
        form.add(_("E&xpected back"), self, hint, detail=detail)

    def decisions(self, case: Case) -> tuple[ReturnDecision, ...]:
        """Return the opinion as a decision about the return, () where none was given."""
        if not self.ticked:
            return ()
        opinion = ReturnDecision(
            case_id=case.case_id,
            athlete_id=case.athlete_id,
            on=self._today,
            expected=self.field.day,
        )
        return (opinion,)


def caution_line() -> QWidget:
    """Return the caution that stands below the forms of a new case."""
    line = text(
        _(
            "This page tells no treatment: the clinician decides. For red flags seek medical "
            "review."
        ),
        Type.SMALL,
    )
    line.setWordWrap(True)
    return line


def _no_or_yes() -> Choice[bool]:
    return Choice([(False, _("no")), (True, _("yes"))])
