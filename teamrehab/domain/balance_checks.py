"""Checks that compare one leg with the other in the same test."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Generic

from teamrehab.domain.decision import CriterionResult, Evidence
from teamrehab.domain.formulas import percent_difference
from teamrehab.domain.injuries import Side
from teamrehab.domain.judging import (
    Judged,
    SymptomLimit,
    inside_error,
    joined,
    judge_newest,
    whole,
)
from teamrehab.domain.leg_evidence import (
    hops_evidence,
    jump_evidence,
    knee_to_wall_evidence,
    reactive_strength,
)
from teamrehab.domain.measures import HopTest, JumpTest, KneeToWallTest
from teamrehab.domain.own_value import (
    OWN_JUMP,
    OWN_KNEE_TO_WALL,
    Own,
    own_value_remarks,
)
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation, T
from teamrehab.language import _


def reactive_within(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how far the legs differ in reactive strength (flight over ground contact)."""
    timed = [t for t in situation.tests(HopTest) if _reactive_apart(t) is not None]
    reactive = _TwoLegs(timed, _reactive_apart, _reactive_evidence, situation.hop_days)
    return _both_legs(criterion, situation, reactive)


def jump_within(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how far the legs differ in the height of a single-leg jump.

    10 % is asked for before matches in Sports Med Open 2022;8:10. Heights from flight time
    flatter a bent landing (Appl Sci 2020;10:776), and no published error was found.
    """
    days = situation.settings.retest_days
    both = [t for t in situation.tests(JumpTest) if _both_measured(t)]
    jump = _TwoLegs(both, _length_apart, jump_evidence, days)
    return _both_legs(criterion, situation, jump, OWN_JUMP)


def knee_to_wall_within(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how far the legs differ in the distance from toe to wall.

    10 % is asked for before matches in Sports Med Open 2022;8:10, which lies inside the
    published error (see ``published_errors``) for most legs: it is said so each time.
    """
    days = situation.settings.retest_days
    both = [t for t in situation.tests(KneeToWallTest) if _both_measured(t)]
    distance = _TwoLegs(both, _length_apart, knee_to_wall_evidence, days)
    return _both_legs(criterion, situation, distance, OWN_KNEE_TO_WALL)


@dataclass(frozen=True, slots=True)
class _TwoLegs(Generic[T]):
    """How a measure compares the legs: tests of both, percent apart (None for 0 and 0)."""

    tests: list[T]
    apart: Callable[[T], float | None]
    evidence: Callable[[T, Side], Evidence]
    days: int


def _both_legs(
    criterion: Criterion, situation: Situation, measure: _TwoLegs[T], own: Own[T] | None = None
) -> CriterionResult:
    percent = whole(criterion, "percent")
    judged = judge_newest(
        measure.tests,
        lambda test: _close(measure.apart(test), percent),
        SymptomLimit.of(criterion),
        situation,
        measure.days,
    )
    test = judged.test
    if test is None:
        return _compared(criterion, judged, percent, ())
    legs: tuple[Evidence, ...] = tuple(measure.evidence(test, leg) for leg in situation.legs)
    apart = replace(legs[0], value=measure.apart(test), unit="%", side=None)
    apart = replace(apart, error=_error_in_percent(legs))
    said = () if own is None else own_value_remarks(test, situation, 100 - percent, own)
    return _compared(criterion, judged, percent, (apart, *legs), said)


def _compared(
    criterion: Criterion,
    judged: Judged[T],
    percent: int,
    seen: tuple[Evidence, ...],
    said: tuple[str, ...] = (),
) -> CriterionResult:
    """Return the result; the difference in percent is the first of the evidence."""
    nothing = bool(seen) and seen[0].value is None
    empty = _("0 on both legs: there is no symmetry to compare.") if nothing else ""
    return CriterionResult(
        criterion=criterion,
        verdict=judged.verdict,
        needed=percent,
        unit="%",
        evidence=seen,
        inside_error=bool(seen) and inside_error(seen[0], percent),
        remark=joined([*judged.remarks, empty, *said]),
    )


def _close(apart: float | None, percent: int) -> bool:
    return apart is not None and apart <= percent


def _both_measured(test: JumpTest | KneeToWallTest) -> bool:
    return test.left_mm is not None and test.right_mm is not None


def _length_apart(test: JumpTest | KneeToWallTest) -> float | None:
    return percent_difference(test.left_mm or 0, test.right_mm or 0)


def _error_in_percent(legs: tuple[Evidence, ...]) -> float | None:
    """Return the error of the measure in percent of the better leg."""
    best = max(leg.value or 0 for leg in legs)
    error = legs[0].error
    return 100 * error / best if error is not None and best else None


def _reactive_apart(test: HopTest) -> float | None:
    left, right = reactive_strength(test.left), reactive_strength(test.right)
    return None if left is None or right is None else percent_difference(left, right)


def _reactive_evidence(test: HopTest, leg: Side) -> Evidence:
    return replace(
        hops_evidence(test, leg),
        measure=_("Reactive strength of hops (flight over contact)"),
        value=reactive_strength(test.of(leg)),
        unit="",
    )
