"""Checks that count repetitions and hops, leg by leg against a number."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic

from teamrehab.domain.decision import CriterionResult, Evidence
from teamrehab.domain.injuries import Side
from teamrehab.domain.judging import (
    Judged,
    SymptomLimit,
    inside_error,
    joined,
    judge_newest,
    whole,
    word,
    worst,
)
from teamrehab.domain.leg_evidence import (
    hops,
    hops_evidence,
    raises_evidence,
    raises_remark,
    repetitions,
)
from teamrehab.domain.measures import HeelRaiseTest, HopTest, Knee
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation, T
from teamrehab.language import _


@dataclass(frozen=True, slots=True, kw_only=True)
class _Counted(Generic[T]):
    """How one measure is counted: its tests, newest first, and what they show for a leg."""

    tests: list[T]
    days: int
    value: Callable[[T, Side], int | None]
    valid: Callable[[T], bool]
    evidence: Callable[[T, Side], Evidence]
    remark: Callable[[T], str]


def raises_at_least(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge single-leg heel raises through full range, each leg by its newest test."""
    knee = Knee(word(criterion, "knee", Knee.STRAIGHT))
    raises = _Counted(
        tests=[test for test in situation.tests(HeelRaiseTest) if test.knee is knee],
        days=situation.settings.retest_days,
        value=repetitions,
        valid=lambda test: test.full_range,
        evidence=raises_evidence,
        remark=raises_remark,
    )
    needed = whole(criterion, "repetitions")
    return _each_leg(criterion, situation, raises, needed, _("repetitions"))


def hops_at_least(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge single-leg hops in place, each leg by its newest test."""
    counted = _Counted(
        tests=situation.tests(HopTest),
        days=situation.hop_days,
        value=hops,
        valid=lambda _test: True,
        evidence=hops_evidence,
        remark=lambda _test: "",
    )
    return _each_leg(criterion, situation, counted, whole(criterion, "hops"), _("hops"))


def _each_leg(
    criterion: Criterion,
    situation: Situation,
    measure: _Counted[T],
    needed: int,
    unit: str,
) -> CriterionResult:
    """Return the verdict over the legs asked for: the worst of them."""
    only_injured = word(criterion, "legs", "each") == "injured"
    legs = situation.injured if only_injured else situation.legs
    judged = [(leg, _judge_leg(criterion, situation, measure, needed, leg)) for leg in legs]
    seen = [measure.evidence(j.test, leg) for leg, j in judged if j.test is not None]
    said = [measure.remark(j.test) for _leg, j in judged if j.test is not None]
    return CriterionResult(
        criterion=criterion,
        verdict=worst(j.verdict for _leg, j in judged),
        needed=needed,
        unit=unit,
        evidence=tuple(seen),
        inside_error=any(inside_error(e, needed) for e in _decisive(seen)),
        remark=joined([remark for _leg, j in judged for remark in j.remarks] + said),
    )


def _judge_leg(
    criterion: Criterion, situation: Situation, measure: _Counted[T], needed: int, leg: Side
) -> Judged[T]:
    return judge_newest(
        [test for test in measure.tests if measure.value(test, leg) is not None],
        lambda test: measure.valid(test) and (measure.value(test, leg) or 0) >= needed,
        SymptomLimit.of(criterion),
        situation,
        measure.days,
    )


def _decisive(seen: list[Evidence]) -> list[Evidence]:
    """Return the lowest value: the one the verdict hangs on."""
    return sorted(seen, key=lambda evidence: evidence.value or 0)[:1]
