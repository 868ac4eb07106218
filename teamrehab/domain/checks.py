"""The closed list of checks a protocol may name, each with the parameters it takes.

There is no language of expressions: a protocol that needs a new check needs a new function
here, with a test.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from teamrehab.domain.balance_checks import (
    jump_within,
    knee_to_wall_within,
    raises_within,
    reactive_within,
)
from teamrehab.domain.course_checks import (
    OBSERVATIONS,
    days_in_stage,
    observed,
    sessions_at_least,
    speed_over,
    symptom_at_most,
)
from teamrehab.domain.decision import CriterionResult
from teamrehab.domain.leg_checks import hops_at_least, raises_at_least
from teamrehab.domain.measures import Knee, SessionKind
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation
from teamrehab.language import _


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """A parameter that is a whole number within limits."""

    low: int
    high: int
    required: bool = True

    def takes(self, value: object) -> bool:
        """Return whether ``value`` may stand here."""
        return type(value) is int and self.low <= value <= self.high

    def allowed(self) -> str:
        """Return what may stand here, in words."""
        return _("a whole number from {low} to {high}").format(low=self.low, high=self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A parameter that is one of a few words."""

    options: tuple[str, ...]
    required: bool = True

    def takes(self, value: object) -> bool:
        """Return whether ``value`` may stand here."""
        return value in self.options

    def allowed(self) -> str:
        """Return what may stand here, in words."""
        return _("one of: {options}").format(options=", ".join(self.options))


@dataclass(frozen=True, slots=True)
class Check:
    """A named check: how it is judged, and which parameters a protocol file may give it."""

    judge: Callable[[Criterion, Situation], CriterionResult]
    parameters: Mapping[str, Whole | Choice] = field(default_factory=dict)


_SYMPTOM = Whole(low=0, high=10, required=False)
_KNEE = Choice(options=tuple(Knee), required=False)
_LEGS = Choice(options=("each", "injured"), required=False)
_PERCENT = Whole(low=0, high=100)

CHECKS: Mapping[str, Check] = {
    "observed": Check(observed, {"what": Choice(options=OBSERVATIONS), "symptom": _SYMPTOM}),
    "raises_at_least": Check(
        raises_at_least,
        {
            "repetitions": Whole(low=1, high=200),
            "knee": _KNEE,
            "legs": _LEGS,
            "symptom": _SYMPTOM,
        },
    ),
    "raises_within": Check(
        raises_within, {"percent": _PERCENT, "knee": _KNEE, "symptom": _SYMPTOM}
    ),
    "hops_at_least": Check(
        hops_at_least,
        {"hops": Whole(low=1, high=500), "legs": _LEGS, "symptom": _SYMPTOM},
    ),
    "reactive_within": Check(reactive_within, {"percent": _PERCENT, "symptom": _SYMPTOM}),
    "jump_within": Check(jump_within, {"percent": _PERCENT, "symptom": _SYMPTOM}),
    "knee_to_wall_within": Check(
        knee_to_wall_within, {"percent": _PERCENT, "symptom": _SYMPTOM}
    ),
    "symptom_at_most": Check(
        symptom_at_most,
        {"score": Whole(low=0, high=10), "days": Whole(low=1, high=14, required=False)},
    ),
    "speed_over": Check(speed_over, {"percent": Whole(low=1, high=109), "symptom": _SYMPTOM}),
    "sessions_at_least": Check(
        sessions_at_least,
        {
            "sessions": Whole(low=1, high=50),
            "kind": Choice(options=tuple(SessionKind)),
            "symptom": _SYMPTOM,
        },
    ),
    "days_in_stage": Check(days_in_stage, {"days": Whole(low=1, high=365)}),
}


def judge(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Return how a criterion of a protocol stands."""
    return CHECKS[criterion.check].judge(criterion, situation)
