"""Checks on how far the legs differ in heel raises, with and without weight."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
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
from teamrehab.domain.leg_evidence import raises_evidence, raises_remark, repetitions
from teamrehab.domain.measures import HeelRaiseTest, Knee
from teamrehab.domain.own_value import OWN_RAISES, own_value_remarks
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation
from teamrehab.domain.targets import adults_remark
from teamrehab.language import _


@dataclass(frozen=True, slots=True)
class _Gate:
    """What a symmetry gate asks for: ``days`` 1 takes a single pass, whatever the height.

    With more days an unequal work of the legs does not pass, an equal one passes at once.
    ``floor`` is what each leg must reach, 0 where there is none.
    """

    percent: int
    days: int
    floor: int
    limit: SymptomLimit

    @classmethod
    def of(cls, criterion: Criterion, situation: Situation) -> "_Gate":
        """Return the gate a criterion names; the floor is a number of adults."""
        days = int(criterion.parameters.get("days", 1))
        floor = 0 if situation.minor else int(criterion.parameters.get("floor", 0))
        return cls(whole(criterion, "percent"), days, floor, SymptomLimit.of(criterion))

    def holds(self, test: HeelRaiseTest) -> bool:
        """Return whether one test passes by its numbers."""
        work = work_apart(test) if self.days > 1 else None
        equal = _close(raises_apart(test), self.percent)
        even = work is None or work <= self.percent
        return test.full_range and equal and even and _least(test) >= self.floor

    def settles(self, test: HeelRaiseTest) -> bool:
        """Return whether a test that passes needs no second one: the work was measured."""
        return self.days == 1 or work_apart(test) is not None

    def passes(self, tests: Sequence[HeelRaiseTest]) -> int:
        """Return on how many days in a row, the newest first, it was passed."""

        def good(test: HeelRaiseTest) -> bool:
            return self.holds(test) and not self.limit.trouble(test.symptom)

        return len({test.on for test in takewhile(good, tests) if not test.painkiller})


def raises_within(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how far the legs differ in a heel-raise test that has both.

    10 % of 30 raises is 3, inside the published error of the test (see ``published_errors``).
    So a protocol may ask for passes on several ``days``, or the height as well, from which the
    work follows (Knee Surg Sports Traumatol Arthrosc 2010;18:258), and for a ``floor``.
    """
    knee = Knee(word(criterion, "knee", Knee.STRAIGHT))
    gate = _Gate.of(criterion, situation)
    tests = [t for t in situation.tests(HeelRaiseTest) if t.knee is knee and t.left and t.right]
    days = situation.settings.retest_days
    judged = judge_newest(tests, gate.holds, gate.limit, situation, days)
    test = judged.test
    if test is None:
        return _within(criterion, judged, ())
    passes = gate.passes(tests[tests.index(test) :])
    if judged.verdict is Verdict.MET and not gate.settles(test) and passes < gate.days:
        said = (*judged.remarks, _once_more(gate, passes))
        judged = replace(judged, verdict=Verdict.DUE_AGAIN, remarks=said)
    return _within(criterion, judged, _evidence(test, gate, passes, situation), situation)


def _evidence(
    test: HeelRaiseTest, gate: _Gate, passes: int, situation: Situation
) -> tuple[Evidence, ...]:
    """Return the numbers a symmetry hangs on, how far the legs are apart the first."""
    legs = tuple(raises_evidence(test, leg) for leg in situation.legs)
    apart = replace(legs[0], value=raises_apart(test), unit="%", side=None, error=None)
    apart = replace(apart, error=_error_in_percent(legs))
    if gate.days == 1:
        return (apart, *legs)
    work = work_apart(test)
    worked = replace(
        apart, measure=_("Work of the legs, repetitions x height"), value=work, error=None
    )
    counted = Evidence(
        measure=_("Days in a row within the difference"), on=test.on, value=passes
    )
    return (apart, *legs, *((worked,) if work is not None else ()), counted)


def _within(
    criterion: Criterion,
    judged: Judged[HeelRaiseTest],
    seen: tuple[Evidence, ...],
    situation: Situation | None = None,
) -> CriterionResult:
    percent = whole(criterion, "percent")
    nothing = bool(seen) and seen[0].value is None
    said = [_("0 on both legs: there is no symmetry to compare.") if nothing else ""]
    if judged.test is not None and situation is not None:
        said += _remarks(criterion, judged.test, situation)
    return CriterionResult(
        criterion=criterion,
        verdict=judged.verdict,
        needed=percent,
        unit="%",
        evidence=seen,
        inside_error=bool(seen) and inside_error(seen[0], percent),
        remark=joined([*judged.remarks, *said]),
    )


def _remarks(criterion: Criterion, test: HeelRaiseTest, situation: Situation) -> list[str]:
    """Return what must be said of the range, the floor, the work and the own value."""
    percent = whole(criterion, "percent")
    floor = int(criterion.parameters.get("floor", 0))
    below = ""
    if floor and situation.minor:
        below = adults_remark(floor)
    elif _least(test) < floor:
        below = _("At least {floor} on each leg are asked for, however equal the legs are.")
    return [
        below.format(floor=floor),
        raises_remark(test),
        *own_value_remarks(test, situation, 100 - percent, OWN_RAISES),
    ]


def _once_more(gate: _Gate, passes: int) -> str:
    """Return why a single pass does not open the gate."""
    said = _(
        "Passed on {passes} of {days} days: so small a difference lies inside the error of the"
        " test. Test again on another day, or measure the height as well."
    )
    return said.format(passes=passes, days=gate.days)


def _close(apart: float | None, percent: int) -> bool:
    return apart is not None and apart <= percent


def _least(test: HeelRaiseTest) -> int:
    return min(repetitions(test, side) or 0 for side in (Side.LEFT, Side.RIGHT))


def raises_apart(test: HeelRaiseTest) -> float | None:
    """Return how far the legs differ in repetitions, in percent; None for 0 and 0."""
    left, right = repetitions(test, Side.LEFT), repetitions(test, Side.RIGHT)
    return percent_difference(left or 0, right or 0)


def work_apart(test: HeelRaiseTest) -> float | None:
    """Return how far the legs differ in repetitions x height; None without both heights."""
    left, right = test.left, test.right
    if left is None or right is None or left.height_mm is None or right.height_mm is None:
        return None
    return percent_difference(
        left.repetitions * left.height_mm, right.repetitions * right.height_mm
    )


def _error_in_percent(legs: tuple[Evidence, ...]) -> float | None:
    """Return the error of the measure in percent of the better leg."""
    best = max(leg.value or 0 for leg in legs)
    error = legs[0].error
    return 100 * error / best if error is not None and best else None
