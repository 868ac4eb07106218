"""A new injury or illness in half a minute; the full examination comes later."""

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from PySide6.QtWidgets import QCheckBox, QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.athlete.availability_form import training_answers, training_hint
from teamrehab.desktop.athlete.limits_part import LimitsPart
from teamrehab.desktop.athlete.onset_parts import ExpectedField, OnsetFlags, caution_line
from teamrehab.desktop.entry.areas import AreaField
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField, MomentField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.forms import ChoiceField
from teamrehab.domain.availability import AvailabilityStated, Limit, Match, Training
from teamrehab.domain.injuries import Case, Nature, Side
from teamrehab.domain.onset import OnsetSigns
from teamrehab.language import _

REASSESS_AFTER = timedelta(days=2)
"""When an injury is examined again (common practice: 24 to 72 hours)."""


class _OnsetForm(Form):
    """What injury and illness share: red flags, training tomorrow, when to look again.

    Its values are the case, what it allows, and where there are some a red flag and the day on
    which a clinician expects the athlete back.
    """

    def __init__(self, occasion: Occasion, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.occasion = occasion
        self.case_id = occasion.new_id()
        self._training_words = _("Can &train tomorrow")
        self.day = DayField(occasion.today)
        self.training = Choice(training_answers())

    def add_flags(self, *, of_injury: bool) -> None:
        """Add the questions about red flags."""
        self.flags = OnsetFlags(self, self.occasion.new_id(), of_injury=of_injury)

    def add_training(self, review_words: str, *, expected_later: bool = False) -> None:
        """Add the questions that stand last.

        ``expected_later``: the day expected is seldom known yet, and shown when asked for.
        """
        self.add(self._training_words, self.training, training_hint())
        self.limits = LimitsPart(self)
        self.training.chosen.connect(self._show_limits)
        self.reassess = MomentField(self.occasion.today + REASSESS_AFTER, 12)
        hint = _("the coach is told this as the next update")
        self.add(review_words, self.reassess, hint, names=(_("Reassess on"),))
        self.expected = ExpectedField(self, self.occasion.today, detail=expected_later)

    def opening(
        self, case: Case, training: Training | None, signs: OnsetSigns
    ) -> tuple[Any, ...]:
        """Return all that is noted with a new case."""
        stated = allowed_at_onset(case, training, self.limits.limits())
        return (
            case,
            stated,
            *self.flags.flags(case, signs),
            *self.expected.decisions(case),
        )

    def _show_limits(self) -> None:
        self.limits.show_for(self.training.value())


class InjuryForm(_OnsetForm):
    """Who is already known: side, where, what happened, training tomorrow, reassess on.

    ``earlier`` are closed cases of the athlete (id and words) it may be a recurrence of.
    """

    def __init__(
        self,
        occasion: Occasion,
        areas: Sequence[str],
        earlier: Sequence[tuple[str, str]] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(occasion, parent)
        self._side_words, self._area_words = _("&Side"), _("W&here")
        self.side = Choice(side_answers())
        self.area = AreaField(areas)
        self.what = QLineEdit()
        self.head = QCheckBox(_("the head was hit or shaken"))
        self.add(self._side_words, self.side)
        self.add(self._area_words, self.area, names=(_("Part of the body"),))
        self.add(_("What happened"), self.what, _("clinical; never on the coach's sheet"))
        self.add_flags(of_injury=True)
        self.add_training(_("Reassess &on"), expected_later=True)
        self.add(_("&Day of onset"), self.day)
        self.add(_("Head &injury"), self.head)
        self.recurrence: ChoiceField[str] = ChoiceField([("", _("none")), *earlier], chosen="")
        row = self.add(_("&Recurrence of"), self.recurrence, _("same site and same type"))
        self.rows.setRowVisible(row, bool(earlier))
        self.operation = QCheckBox(_("operated on"))
        self.sensitive = QCheckBox(_("show it only on the case"))
        self.add(_("O&peration"), self.operation, detail=True)
        self.add(_("S&ensitive"), self.sensitive, detail=True)
        self.add_details_button()
        self.rows.addRow(caution_line())

    @property
    @override
    def title(self) -> str:
        return _("New injury")

    @property
    @override
    def save_words(self) -> str:
        return _("Note the injury of {name}").format(name=self.occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        side = reading.answer(self.side, self._side_words)
        area = reading.chosen(self.area, self._area_words)
        signs = self.flags.read(reading)
        training = reading.answer(self.training, self._training_words)
        reading.finish()
        case = Case(
            case_id=self.case_id,
            athlete_id=self.occasion.athlete.athlete_id,
            on=self.day.day,
            side=side or Side.NOT_APPLICABLE,
            area=area or "",
            what=self.what.text().strip(),
            reassess_on=self.reassess.moment,
            head_injury=self.head.isChecked(),
            operation=self.operation.isChecked(),
            sensitive=self.sensitive.isChecked(),
            recurrence_of=self.recurrence.value or "",
        )
        return self.opening(case, training, signs)


class IllnessForm(_OnsetForm):
    """An illness: a word for the medical staff, training tomorrow, review on, expected back."""

    def __init__(self, occasion: Occasion, parent: QWidget | None = None) -> None:
        super().__init__(occasion, parent)
        self.what = QLineEdit()
        self.sensitive = QCheckBox(_("show it only on the case"))
        hint = _("clinical; never on the coach's sheet")
        self.add(_("&What"), self.what, hint, names=(_("What happened"),))
        self.add_flags(of_injury=False)
        self.add_training(_("&Review on"))
        self.add(_("&Day of onset"), self.day)
        self.add(_("&Sensitive"), self.sensitive)
        self.rows.addRow(caution_line())

    @property
    @override
    def title(self) -> str:
        return _("New illness")

    @property
    @override
    def save_words(self) -> str:
        return _("Note the illness of {name}").format(name=self.occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        signs = self.flags.read(reading)
        training = reading.answer(self.training, self._training_words)
        reading.finish()
        case = Case(
            case_id=self.case_id,
            athlete_id=self.occasion.athlete.athlete_id,
            on=self.day.day,
            nature=Nature.ILLNESS,
            what=self.what.text().strip(),
            reassess_on=self.reassess.moment,
            sensitive=self.sensitive.isChecked(),
        )
        return self.opening(case, training, signs)


def allowed_at_onset(
    case: Case, training: Training | None, limits: tuple[Limit, ...]
) -> AvailabilityStated:
    """Return what a new case allows; matches are to be decided when it is looked at again."""
    return AvailabilityStated(
        case_id=case.case_id,
        athlete_id=case.athlete_id,
        on=case.on,
        training=training or Training.NONE,
        match=Match.AVAILABLE if training is Training.FULL else Match.UNDECIDED,
        limits=limits if training is Training.WITH_LIMITS else (),
        next_update=case.reassess_on,
    )


def side_answers() -> list[tuple[Side, str]]:
    """Return the sides as they are asked."""
    return [
        (Side.LEFT, _("left")),
        (Side.RIGHT, _("right")),
        (Side.BOTH, _("both")),
        (Side.NOT_APPLICABLE, _("not applicable")),
    ]
