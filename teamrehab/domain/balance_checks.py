"""Checks that compare one leg with the other in the same test."""

from dataclasses import replace

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
    word,
)
from teamrehab.domain.leg_evidence import (
    hops_evidence,
    raises_evidence,
    raises_remark,
    reactive_strength,
    repetitions,
)
from teamrehab.domain.measures import HeelRaiseTest, HopTest, Knee
from teamrehab.domain.own_value import own_value_remarks
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation, T
from teamrehab.language import _


def raises_within(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how far the legs differ in a heel-raise test that has both."""
    knee = Knee(word(criterion, "knee", Knee.STRAIGHT))
    percent = whole(criterion, "percent")
    judged = judge_newest(
        [t for t in situation.tests(HeelRaiseTest) if t.knee is knee and t.left and t.right],
        lambda test: test.full_range and _close(_raises_apart(test), percent),
        SymptomLimit.of(criterion),
        situation,
        situation.settings.retest_days,
    )
    test = judged.test
    if test is None:
        return _compared(criterion, judged, percent, ())
    legs = tuple(raises_evidence(test, leg) for leg in situation.legs)
    apart = replace(legs[0], value=_raises_apart(test), unit="%", side=None, error=None)
    apart = replace(apart, error=_error_in_percent(legs))
    said = (raises_remark(test), *own_value_remarks(test, situation, 100 - percent))
    return _compared(criterion, judged, percent, (apart, *legs), said)


def reactive_within(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how far the legs differ in reactive strength (flight over ground contact)."""
    percent = whole(criterion, "percent")
    judged = judge_newest(
        [t for t in situation.tests(HopTest) if _reactive_apart(t) is not None],
        lambda test: _close(_reactive_apart(test), percent),
        SymptomLimit.of(criterion),
        situation,
        situation.hop_days,
    )
    test = judged.test
    if test is None:
        return _compared(criterion, judged, percent, ())
    legs = tuple(_reactive_evidence(test, leg) for leg in situation.legs)
    apart = replace(legs[0], value=_reactive_apart(test), unit="%", side=None)
    return _compared(criterion, judged, percent, (apart, *legs))


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


def _raises_apart(test: HeelRaiseTest) -> float | None:
    left, right = repetitions(test, Side.LEFT), repetitions(test, Side.RIGHT)
    return percent_difference(left or 0, right or 0)


def _error_in_percent(legs: tuple[Evidence, ...]) -> float | None:
    """Return the error of the repetitions in percent of the better leg."""
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
