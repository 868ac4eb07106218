"""The closed list of checks a protocol may name, each with the parameters it takes.

There is no language of expressions: a protocol that needs a new check needs a new function
here, with a test.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from teamrehab.domain.balance_checks import (
    jump_within,
    knee_to_wall_within,
    reactive_within,
)
from teamrehab.domain.course_checks import (
    days_in_stage,
    observed,
    speed_over,
    symptom_at_most,
)
from teamrehab.domain.day_checks import clean_mornings, clean_runs
from teamrehab.domain.decision import CriterionResult, Verdict
from teamrehab.domain.judging import joined
from teamrehab.domain.ladder_days import walk
from teamrehab.domain.leg_checks import hops_at_least
from teamrehab.domain.level_checks import level_passed
from teamrehab.domain.loaded_checks import loaded_raises_within
from teamrehab.domain.measures import OBSERVATIONS, Knee, SessionKind
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.raises_checks import raises_within
from teamrehab.domain.session_checks import full_sessions, sessions_at_least
from teamrehab.domain.situation import Situation
from teamrehab.domain.target_checks import adult_raises, raises_to_target
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """A parameter that is the key of a part of the protocol: of ``what``."""

    what: str
    required: bool = True

    def takes(self, value: object) -> bool:
        """Return whether ``value`` may stand here; whether there is such a part shows later."""
        return isinstance(value, str) and bool(value.strip())

    def allowed(self) -> str:
        """Return what may stand here, in words."""
        return _("the key of a {what}").format(what=self.what)


Allowed = Whole | Choice | Key


@dataclass(frozen=True, slots=True)
class Check:
    """A named check: how it is judged, and which parameters a protocol file may give it."""

    judge: Callable[[Criterion, Situation], CriterionResult]
    parameters: Mapping[str, Allowed] = field(default_factory=dict)


_SYMPTOM = Whole(low=0, high=10, required=False)
_KNEE = Choice(options=tuple(Knee), required=False)
_LEGS = Choice(options=("each", "injured"), required=False)
_PERCENT = Whole(low=0, high=100)
_DAYS = Whole(low=1, high=10, required=False)

_LADDER = "ladder"

CHECKS: Mapping[str, Check] = {
    "observed": Check(observed, {"what": Choice(options=OBSERVATIONS), "symptom": _SYMPTOM}),
    "raises_at_least": Check(
        adult_raises,
        {
            "repetitions": Whole(low=1, high=200),
            "knee": _KNEE,
            "legs": _LEGS,
            "symptom": _SYMPTOM,
            "norm": Choice(options=("adults",), required=False),
        },
    ),
    "raises_to_target": Check(
        raises_to_target,
        {
            "repetitions": Whole(low=1, high=200),
            "percent": Whole(low=1, high=100, required=False),
            "knee": _KNEE,
            "legs": _LEGS,
            "symptom": _SYMPTOM,
        },
    ),
    "raises_within": Check(
        raises_within,
        {
            "percent": _PERCENT,
            "knee": _KNEE,
            "symptom": _SYMPTOM,
            "days": _DAYS,
            "floor": Whole(low=1, high=200, required=False),
        },
    ),
    "loaded_raises_within": Check(
        loaded_raises_within,
        {
            "percent": _PERCENT,
            "knee": _KNEE,
            "least": Whole(low=1, high=30, required=False),
            "most": Whole(low=1, high=30, required=False),
            "symptom": _SYMPTOM,
        },
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
    "clean_mornings": Check(
        clean_mornings, {"mornings": Whole(low=1, high=14), "symptom": _SYMPTOM}
    ),
    "clean_runs": Check(
        clean_runs,
        {
            "runs": Whole(low=1, high=30),
            "before": Whole(low=1, high=109, required=False),
            "symptom": _SYMPTOM,
        },
    ),
    "speed_over": Check(
        speed_over,
        {"percent": Whole(low=1, high=109), "days": _DAYS, "symptom": _SYMPTOM},
    ),
    "level_passed": Check(
        level_passed, {"ladder": Key(what=_LADDER), "level": Whole(low=1, high=50)}
    ),
    "sessions_at_least": Check(
        sessions_at_least,
        {
            "sessions": Whole(low=1, high=50),
            "kind": Choice(options=tuple(SessionKind)),
            "symptom": _SYMPTOM,
        },
    ),
    "full_sessions": Check(full_sessions, {"symptom": _SYMPTOM}),
    "days_in_stage": Check(days_in_stage, {"days": Whole(low=1, high=365)}),
}


def judge(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Return how a criterion of a protocol stands; one that waits for a level is not met."""
    result = CHECKS[criterion.check].judge(criterion, situation)
    protocol = situation.protocol
    if not criterion.after or protocol is None:
        return result
    place = walk(situation.history, protocol)
    waits = tuple(asked for asked in criterion.after if not place.has_passed(asked))
    if not waits:
        return result
    never = result.verdict is Verdict.NEVER_TESTED
    said = (_after(place.name(one.ladder), one.level) for one in waits)
    return replace(
        result,
        verdict=Verdict.NEVER_TESTED if never else Verdict.NOT_MET,
        waits=waits,
        remark=joined((*said, result.remark)),
    )


def _after(ladder: str, level: int) -> str:
    return _("Counts after {ladder}, level {level}, was passed.").format(
        ladder=ladder, level=level
    )
