"""Anyone else? A new complaint by keyboard in 15 seconds: who, where, side, tomorrow."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

from teamrehab.desktop.appearance import Type, prose
from teamrehab.desktop.athlete.onset_forms import allowed_at_onset, side_answers
from teamrehab.desktop.athlete.onset_parts import caution_line
from teamrehab.desktop.entry.areas import area_candidates
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.pick import Pick
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.evening.complaint_anyone import AnyoneForm, go_to
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Training
from teamrehab.domain.injuries import Case, Side
from teamrehab.language import _


class ComplaintForm(AnyoneForm):
    """Makes the start of a case and what it allows; a head that was hit allows nothing."""

    def __init__(
        self,
        athletes: Sequence[Athlete],
        known: Mapping[str, str],
        areas: Sequence[str],
        today: date,
        new_id: Callable[[], str],
    ) -> None:
        super().__init__(athletes, known, today, new_id)
        self._where_words, self._side_words = _("W&here"), _("&Side")
        self._head_words = _("Head hit or sha&ken")
        self.where = Pick(area_candidates(areas), _("part of the body, or a muscle"))
        self.side = Choice(side_answers())
        self.head = Choice([(False, _("no")), (True, _("yes"))])
        self.what = QLineEdit()
        self.add(self._where_words, self.where, names=(_("Part of the body"),))
        self.add(self._side_words, self.side)
        self.add(self._head_words, self.head)
        self.head_means = prose(
            _(
                "No training and no match. A red flag is raised: a doctor the same day, and"
                " only a named doctor closes it."
            ),
            Type.LEAD,
        )
        self.rows.addRow(self.head_means)
        self.rows.setRowVisible(self.head_means, False)  # noqa: FBT003
        self.add_flags(of_injury=True)
        self.add_training()
        hint = _("may be left out; clinical, never on the coach's sheet")
        self.add(_("What happened"), self.what, hint)
        self.rows.addRow(caution_line())
        self._lead_on()

    @property
    @override
    def title(self) -> str:
        return _("Anyone else? A new complaint")

    @property
    @override
    def save_words(self) -> str:
        return _("Note the complaint")

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        athlete = reading.picked(self.who, self._who_words)
        area = reading.picked(self.where, self._where_words)
        side = reading.answer(self.side, self._side_words)
        head = reading.answer(self.head, self._head_words)
        signs = self.flags.read(reading)
        training: Training | None = Training.NONE
        if not head:
            training = reading.answer(self.training, self._training_words)
        reading.finish()
        case = Case(
            case_id=self.case_id,
            athlete_id=athlete.athlete_id if athlete else "",
            on=self.today,
            side=side or Side.NOT_APPLICABLE,
            area=area or "",
            what=self.what.text().strip(),
            reassess_on=self.reassess_on,
            head_injury=bool(head),
        )
        stated = allowed_at_onset(case, training, self.limits.limits())
        flags, opinion = self.flags.flags(case, signs), self.expected.decisions(case)
        return (case, stated, *flags, *opinion)

    @override
    def after_who(self) -> None:
        go_to(self.where)

    @override
    def after_all(self) -> None:
        go_to(self.what)

    def _lead_on(self) -> None:
        self.where.picked.connect(self._after_where)
        self.side.lettered.connect(self._after_side)
        self.head.chosen.connect(self._weigh_head)
        self.head.lettered.connect(self._after_head)

    def _after_where(self) -> None:
        go_to(self.side)

    def _after_side(self) -> None:
        go_to(self.head)

    def _weigh_head(self) -> None:
        hit = bool(self.head.value())
        self.rows.setRowVisible(self.head_means, hit)
        self.show_training(not hit)

    def _after_head(self) -> None:
        go_to(self.flags.chest)

    @override
    def after_flags(self) -> None:
        go_to(self.what if self.head.value() else self.training)
