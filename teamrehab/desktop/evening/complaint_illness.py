"""Somebody is ill: who, can train tomorrow, and when a clinician expects them back."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

from teamrehab.desktop.athlete.onset_forms import REASSESS_AFTER, allowed_at_onset
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.maybe import Maybe
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.evening.complaint_anyone import AnyoneForm, go_to
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.injuries import Case, Nature, ReturnDecision
from teamrehab.language import _


class AnyoneIllForm(AnyoneForm):
    """Makes the start of an illness, what it allows, and the return expected, if one is."""

    def __init__(
        self,
        athletes: Sequence[Athlete],
        known: Mapping[str, str],
        today: date,
        new_id: Callable[[], str],
    ) -> None:
        super().__init__(athletes, known, today, new_id)
        self.add_training()
        self.expected = Maybe(DayField(today + REASSESS_AFTER), ticked=False)
        self.add(_("&Expected back"), self.expected, _("the clinician's own opinion"))
        self.what = QLineEdit()
        hint = _("may be left out; clinical, never on the coach's sheet")
        self.add(_("What"), self.what, hint, names=(_("What happened"),))

    @property
    @override
    def title(self) -> str:
        return _("Anyone ill?")

    @property
    @override
    def save_words(self) -> str:
        return _("Note the illness")

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        athlete = reading.picked(self.who, self._who_words)
        training = reading.answer(self.training, self._training_words)
        reading.finish()
        case = Case(
            case_id=self.case_id,
            athlete_id=athlete.athlete_id if athlete else "",
            on=self.today,
            nature=Nature.ILLNESS,
            what=self.what.text().strip(),
            reassess_on=self.reassess_on,
        )
        stated = allowed_at_onset(case, training, self.limits.limits())
        return (case, stated, *self._opinion(case))

    @override
    def after_who(self) -> None:
        go_to(self.training)

    @override
    def after_all(self) -> None:
        go_to(self.expected)

    def _opinion(self, case: Case) -> tuple[ReturnDecision, ...]:
        if not self.expected.ticked:
            return ()
        expected = ReturnDecision(
            case_id=case.case_id,
            athlete_id=case.athlete_id,
            on=case.on,
            expected=self.expected.field.day,
        )
        return (expected,)
