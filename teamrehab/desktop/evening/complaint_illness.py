"""Somebody is ill: who, can train tomorrow, and when a clinician expects them back."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

from teamrehab.desktop.athlete.onset_forms import allowed_at_onset
from teamrehab.desktop.athlete.onset_parts import caution_line
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.evening.complaint_anyone import AnyoneForm, go_to
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.injuries import Case, Nature
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
        self.add_flags(of_injury=False)
        self.add_training()
        self.what = QLineEdit()
        hint = _("may be left out; clinical, never on the coach's sheet")
        self.add(_("What"), self.what, hint, names=(_("What happened"),))
        self.rows.addRow(caution_line())

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
        signs = self.flags.read(reading)
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
        return (case, stated, *self.flags.flags(case, signs), *self.expected.decisions(case))

    @override
    def after_who(self) -> None:
        go_to(self.flags.chest)

    @override
    def after_all(self) -> None:
        go_to(self.expected)
