"""Checks that hold each leg against a target of the athlete's own, where one is known."""

from dataclasses import dataclass

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
from teamrehab.domain.leg_checks import raises_at_least
from teamrehab.domain.leg_evidence import (
    EQUAL_WITHIN,
    raises_evidence,
    raises_remark,
    repetitions,
)
from teamrehab.domain.measures import HeelRaiseTest, Knee
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation
from teamrehab.domain.targets import Basis, Target, adults_remark, basis_words, target_of
from teamrehab.language import _

_OF_OWN = 100 - EQUAL_WITHIN


def raises_to_target(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge single-leg heel raises through full range against the target of each leg.

    ``percent`` of the athlete's own healthy value, else of the uninjured leg at its first
    test, else the number of the protocol, which is one of adults. Each leg counts by its
    newest test. Own values first: J Orthop Sports Phys Ther 2017;47:334.
    """
    only_injured = word(criterion, "legs", "each") == "injured"
    legs = situation.injured if only_injured else situation.legs
    return _each_leg(criterion, situation, legs)


def adult_raises(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge single-leg heel raises against a number that was found in adults.

    Under 18 it is not applied: the athlete's own value, or the other leg, takes its place.
    """
    adults = word(criterion, "norm", "") == "adults"
    if adults and situation.minor:
        return raises_to_target(criterion, situation)
    return raises_at_least(criterion, situation)


@dataclass(frozen=True, slots=True)
class _Leg:
    """How one leg stands against its target, None where nobody can say one."""

    leg: Side
    target: Target | None
    judged: Judged[HeelRaiseTest]

    def seen(self, percent: int) -> list[Evidence]:
        """Return what it did last, then its target."""
        test = self.judged.test
        done = [] if test is None else [raises_evidence(test, self.leg)]
        return done if self.target is None else [*done, _target_evidence(self.target, percent)]

    @property
    def near(self) -> bool:
        """Return whether it lies too near the target to be told from it."""
        test, target = self.judged.test, self.target
        if test is None or target is None:
            return False
        return inside_error(raises_evidence(test, self.leg), target.value)


def _each_leg(
    criterion: Criterion, situation: Situation, legs: tuple[Side, ...]
) -> CriterionResult:
    percent = int(criterion.parameters.get("percent", _OF_OWN))
    found = [_judge_leg(criterion, situation, leg, percent) for leg in legs]
    tests = [one.judged.test for one in found]
    said = [remark for one in found for remark in one.judged.remarks]
    said += [raises_remark(test) for test in tests if test is not None]
    said += _target_remarks([one.target for one in found], criterion, situation)
    tested = any(test is not None for test in tests)
    return CriterionResult(
        criterion=criterion,
        verdict=worst(one.judged.verdict for one in found),
        unit=_("repetitions"),
        evidence=tuple(e for one in found for e in one.seen(percent)) if tested else (),
        inside_error=any(one.near for one in found),
        remark=joined(said),
    )


def _judge_leg(criterion: Criterion, situation: Situation, leg: Side, percent: int) -> _Leg:
    knee = Knee(word(criterion, "knee", Knee.STRAIGHT))
    number = None if situation.minor else whole(criterion, "repetitions")
    target = target_of(leg, knee, situation, percent, number)
    tests = [t for t in situation.tests(HeelRaiseTest) if t.knee is knee]

    def reaches(test: HeelRaiseTest) -> bool:
        done = repetitions(test, leg) or 0
        return target is not None and test.full_range and done >= target.value

    judged = judge_newest(
        [t for t in tests if repetitions(t, leg) is not None],
        reaches,
        SymptomLimit.of(criterion),
        situation,
        situation.settings.retest_days,
    )
    return _Leg(leg, target, judged)


def _target_evidence(target: Target, percent: int) -> Evidence:
    return Evidence(
        measure=basis_words(target, percent),
        on=target.on,
        value=target.value,
        side=target.leg,
    )


def _target_remarks(
    targets: list[Target | None], criterion: Criterion, situation: Situation
) -> list[str]:
    """Return what must be said of targets: numbers of adults, and a low one of a leg."""
    number = whole(criterion, "repetitions")
    said = [adults_remark(number)] if situation.minor else []
    if None in targets:
        said.append(_("No healthy value of this athlete is known: a person decides."))
    low = [t for t in targets if t and t.basis is Basis.OTHER_LEG and t.reference < number]
    if low and not situation.minor:
        words = _(
            "The other leg did {reference} at its first test, fewer than the {number} that are"
            " common: was it tested to the end?"
        )
        said.append(words.format(reference=low[0].reference, number=number))
    return said
