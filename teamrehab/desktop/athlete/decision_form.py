"""A person's decision about the return: not before a day, expected back, ruled out."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtWidgets import QCheckBox, QWidget
from typing_extensions import override

from teamrehab.desktop.athlete.reason_field import ReasonField
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.maybe import Maybe
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import ReturnDecision
from teamrehab.domain.plausibility import Implausible
from teamrehab.language import _
from teamrehab.reports.wording import fixture_words


class DecisionForm(Form):
    """Beats the estimate; unticking everything takes an earlier decision back."""

    def __init__(
        self,
        occasion: Occasion,
        fixtures: Sequence[Fixture],
        before: ReturnDecision | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._before = occasion, before
        first = before.not_before if before else None
        self.not_before = Maybe(DayField(first or occasion.today), ticked=first is not None)
        self.add(_("&Not before"), self.not_before)
        opinion = before.expected if before else None
        self.expected = Maybe(DayField(opinion or occasion.today), ticked=opinion is not None)
        hint = _("the clinician's opinion; the coach is told the day as one")
        self.add(_("E&xpected back"), self.expected, hint)
        self.ruled_out: dict[str, QCheckBox] = {}
        for fixture in fixtures:
            box = QCheckBox(fixture_words(fixture).replace("&", "&&"))
            box.setChecked(before is not None and fixture.fixture_id in before.ruled_out)
            self.ruled_out[fixture.fixture_id] = box
            self.add(_("Ruled out for"), box)
            box.setAccessibleName(
                _("Ruled out for {match}").format(match=fixture_words(fixture))
            )
        self.why = ReasonField(self, _("for the medical staff"))

    @property
    @override
    def title(self) -> str:
        return _("Decide about the return")

    @property
    @override
    def save_words(self) -> str:
        return _("Save the decision for {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        if not self.touched:
            return ()
        if not self._decides_something():
            raise TypedError([], [_nothing_decided()])
        decision = ReturnDecision(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self._occasion.today,
            not_before=self.not_before.field.day if self.not_before.ticked else None,
            ruled_out=self._ruled_out(),
            why=self.why.words,
            expected=self.expected.field.day if self.expected.ticked else None,
        )
        return (decision,)

    def _decides_something(self) -> bool:
        """Return whether a day or a match is named, or an earlier decision is taken back."""
        before = self._before
        stood = before is not None and (
            before.not_before or before.ruled_out or before.expected
        )
        named = self.not_before.ticked or self.expected.ticked
        return named or bool(self._ruled_out()) or bool(stood)

    def _ruled_out(self) -> tuple[str, ...]:
        """Return the matches ticked, after those decided before that have no box here."""
        before = self._before.ruled_out if self._before else ()
        unseen = [key for key in before if key not in self.ruled_out]
        return (*unseen, *(key for key, box in self.ruled_out.items() if box.isChecked()))


def _nothing_decided() -> Implausible:
    return Implausible(
        field=_("Not before"),
        value=_("nothing decided"),
        allowed=_("a day or a match is needed"),
        remedy=_("Set a day, or tick a match the athlete is ruled out for."),
    )
