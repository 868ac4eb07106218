"""The check on heel raises with weight: against the own healthy weight, or the other leg."""

from teamrehab.domain.decision import CriterionResult, Evidence
from teamrehab.domain.injuries import Side
from teamrehab.domain.judging import (
    SymptomLimit,
    joined,
    judge_newest,
    whole,
    word,
)
from teamrehab.domain.measures import Knee, Loaded, LoadedRaiseTest
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation
from teamrehab.language import _

_FEW = range(6, 9)
"""Repetitions at which the weight tells the strength, where a file names none."""


def loaded_raises_within(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge whether an injured leg lifts nearly as much as it should, a few times.

    It is held against its own weight from before the injury, else against the other leg in
    the same test; both within the number of repetitions asked for. No published error was
    found for it, and none is claimed.
    """
    knee = Knee(word(criterion, "knee", Knee.BENT))
    percent, few = whole(criterion, "percent"), _few(criterion)
    lifted = [t for t in situation.tests(LoadedRaiseTest) if t.knee is knee]
    tests = [t for t in lifted if all(t.of(leg) for leg in situation.injured)]
    judged = judge_newest(
        tests,
        lambda test: _below(test, situation, few) <= percent,
        SymptomLimit.of(criterion),
        situation,
        situation.settings.retest_days,
    )
    test = judged.test
    seen = () if test is None else _evidence(test, situation, few)
    said = "" if test is None else _counts_remark(test, situation, few)
    return CriterionResult(
        criterion=criterion,
        verdict=judged.verdict,
        needed=percent,
        unit="%",
        evidence=seen,
        remark=joined([*judged.remarks, said]),
    )


def _few(criterion: Criterion) -> range:
    least = int(criterion.parameters.get("least", _FEW[0]))
    return range(least, int(criterion.parameters.get("most", _FEW[-1])) + 1)


def _below(test: LoadedRaiseTest, situation: Situation, few: range) -> float:
    """Return how far the worst injured leg lies under what it is held against, in percent."""
    return max(_leg_below(test, leg, situation, few) for leg in situation.injured)


def _leg_below(test: LoadedRaiseTest, leg: Side, situation: Situation, few: range) -> float:
    """Return it for one leg; all of it (100) where the two cannot be compared."""
    now, held = test.of(leg), _held_against(test, leg, situation, few)
    if now is None or held is None or now.repetitions not in few or not held.weight_g:
        return 100
    return max(0.0, 100 - 100 * now.weight_g / held.weight_g)


def _held_against(
    test: LoadedRaiseTest, leg: Side, situation: Situation, few: range
) -> Loaded | None:
    known = (t.of(leg) for t in situation.healthy(LoadedRaiseTest) if t.knee is test.knee)
    own = next((one for one in known if one and one.repetitions in few), None)
    other = test.of(leg.other)
    same = other if other and other.repetitions in few else None
    return own or same


def _evidence(test: LoadedRaiseTest, situation: Situation, few: range) -> tuple[Evidence, ...]:
    """Return how far the injured leg lies under, then every weight behind it."""
    bent = test.knee is Knee.BENT
    name = _("Weight of raises, knee bent") if bent else _("Weight of raises, knee straight")
    below = Evidence(
        measure=_("Weight under what it is held against"),
        on=test.on,
        value=_below(test, situation, few),
        unit="%",
        test_id=test.test_id,
    )
    legs = [(leg, test.of(leg)) for leg in situation.legs]
    held = [(leg, _held_against(test, leg, situation, few)) for leg in situation.injured]
    weights = [(name, leg, one) for leg, one in legs]
    weights += [(_("Held against"), leg, one) for leg, one in held]
    return (
        below,
        *(
            Evidence(
                measure=measure, on=test.on, value=one.weight_g / 1000, unit="kg", side=leg
            )
            for measure, leg, one in weights
            if one is not None
        ),
    )


def _counts_remark(test: LoadedRaiseTest, situation: Situation, few: range) -> str:
    """Return why a test cannot be compared: too many or too few, or nothing beside it."""
    for leg in situation.injured:
        now = test.of(leg)
        if now is not None and now.repetitions not in few:
            said = _("{done} repetitions: the weight tells the strength at {least} to {most}.")
            return said.format(done=now.repetitions, least=few[0], most=few[-1])
        if _held_against(test, leg, situation, few) is None:
            said = _("Nothing to hold it against: test the other leg at {least} to {most} too.")
            return said.format(least=few[0], most=few[-1])
    return ""
