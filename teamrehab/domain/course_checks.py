"""Checks on what was observed, felt, run and done since the stage was opened."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from itertools import takewhile

from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.judging import (
    SymptomLimit,
    joined,
    judge_newest,
    painkiller_remark,
    whole,
    word,
)
from teamrehab.domain.measures import FunctionCheck, RunTest
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Felt, Situation
from teamrehab.language import _


def observation_name(what: str) -> str:
    """Return how an observation reads."""
    names = {
        "walks_clean": _("Walks without symptom or limp"),
        "stairs_clean": _("Takes stairs without symptom or limp"),
        "double_leg_raise": _("Double-leg raise"),
        "swelling_settled": _("Swelling settled"),
        "no_signs": _("No signs or symptoms"),
        "brisk_walk": _("Walks briskly for 30 min"),
        "change_of_direction": _("Changes direction at full effort"),
    }
    return names[what]


def observed(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge what was seen last; where it was not looked at, a test says nothing.

    How an examination found walking and stairs counts as a check of its day.
    """
    what = word(criterion, "what", "")
    judged = judge_newest(
        [t for t in _looked(situation) if getattr(t, what) is not None],
        lambda test: bool(getattr(test, what)),
        SymptomLimit.of(criterion, unasked_counts=True),
        situation,
        situation.settings.retest_days,
    )
    test = judged.test
    seen: tuple[Evidence, ...] = ()
    if test is not None:
        yes = float(getattr(test, what))
        name = observation_name(what)
        seen = (Evidence(measure=name, on=test.on, value=yes, test_id=test.test_id),)
    return CriterionResult(
        criterion=criterion,
        verdict=judged.verdict,
        evidence=seen,
        remark=joined(judged.remarks),
    )


def _looked(situation: Situation) -> list[FunctionCheck]:
    """Return the case's own checks, those an examination made among them, newest first."""
    case_id = situation.history.case.case_id
    values = [fact.value for fact in reversed(situation.history.facts)]
    seen = [v for v in values if isinstance(v, FunctionCheck | Examination)]
    checks = [v if isinstance(v, FunctionCheck) else _as_check(v, situation) for v in seen]
    return [check for check in checks if check.case_id == case_id]


def _as_check(found: Examination, situation: Situation) -> FunctionCheck:
    """Return what an examination saw of walking and stairs; a limp or "not possible" is a no.

    A painkiller is noted with the tests of the examination: one on its day counts for it.
    """
    same_day = (entry for entry in situation.felt() if entry.on == found.on)
    return FunctionCheck(
        test_id=found.examination_id,
        case_id=found.case_id,
        athlete_id=found.athlete_id,
        on=found.on,
        painkiller=any(entry.painkiller for entry in same_day),
        walks_clean=_clean(found.walking),
        stairs_clean=_clean(found.stairs),
    )


def _clean(gait: Gait | None) -> bool | None:
    return None if gait is None else gait is Gait.CLEAN


def speed_over(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge whether a run was faster than a share of the athlete's own speed.

    An easy run says nothing, unless it was run with more symptom than is allowed. ``days``
    asks for such runs on several days in a row of those that say something.
    """
    percent = whole(criterion, "percent")
    limit = SymptomLimit.of(criterion)
    runs = situation.tests(RunTest)

    def fast(run: RunTest) -> bool:
        return run.percent_of_own > percent

    telling = [r for r in runs if fast(r) or (r.symptom and limit.trouble(r.symptom))]
    days = situation.settings.retest_days
    judged = judge_newest(telling or runs, fast, limit, situation, days)
    shown = judged.test if telling else max(runs, key=lambda r: r.percent_of_own, default=None)
    result = CriterionResult(
        criterion=criterion,
        verdict=judged.verdict,
        needed=percent,
        unit="%",
        evidence=() if shown is None else (_speed(shown),),
        remark=joined(judged.remarks),
    )
    asked = int(criterion.parameters.get("days", 1))
    row = takewhile(lambda r: fast(r) and not limit.trouble(r.symptom), telling)
    return _on_days(result, len({run.on for run in row if not run.painkiller}), asked)


def _on_days(result: CriterionResult, count: int, asked: int) -> CriterionResult:
    """Return a result that is met only where it was on as many days as are asked for."""
    if asked == 1 or not result.evidence:
        return result
    counted = Evidence(measure=_("Days in a row"), on=result.evidence[0].on, value=count)
    result = replace(result, evidence=(*result.evidence, counted))
    if not result.met or count >= asked:
        return result
    said = _("On {count} of {asked} days: run so fast again on another day.")
    remark = joined([result.remark, said.format(count=count, asked=asked)])
    return replace(result, verdict=Verdict.DUE_AGAIN, remark=remark)


def _speed(run: RunTest) -> Evidence:
    return Evidence(
        measure=_("Fastest run, share of own speed"),
        on=run.on,
        value=run.percent_of_own,
        unit="%",
        test_id=run.test_id,
    )


def symptom_at_most(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge the worst symptom of the newest days with an entry, tests and sessions together.

    An entry under a painkiller counts only where its symptom is too high all the same.
    """
    limit = SymptomLimit(whole(criterion, "score"))
    entries = [
        e for e in situation.felt() if not (e.painkiller and not limit.trouble(e.symptom))
    ]
    days = int(criterion.parameters.get("days", 1))
    newest = max((entry.on for entry in entries), default=None)
    if newest is None:
        masked = any(situation.felt())
        return CriterionResult(
            criterion=criterion,
            verdict=Verdict.NOT_MET if masked else Verdict.NEVER_TESTED,
            needed=limit.at_most,
            remark=painkiller_remark() if masked else "",
        )
    recent = [e for e in entries if e.on > newest - timedelta(days=days)]
    bad = [trouble for e in recent if (trouble := limit.trouble(e.symptom))]
    old = situation.too_old(newest, situation.settings.retest_days)
    fine = Verdict.DUE_AGAIN if old else Verdict.MET
    return CriterionResult(
        criterion=criterion,
        verdict=Verdict.NOT_MET if bad else fine,
        needed=limit.at_most,
        evidence=(_worst_felt(recent),),
        remark=joined(bad[:1]),
    )


def _worst_felt(entries: Sequence[Felt]) -> Evidence:
    worst = max(
        entries,
        key=lambda e: (e.symptom.score if e.symptom else 0, e.on, getattr(e, "test_id", "")),
    )
    score = worst.symptom.score if worst.symptom else 0
    test_id = getattr(worst, "test_id", "")
    return Evidence(measure=_("Symptom, 0 to 10"), on=worst.on, value=score, test_id=test_id)


def days_in_stage(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how many days ago the present stage was opened."""
    passed = (situation.today - situation.opened_on).days
    needed = whole(criterion, "days")
    return CriterionResult(
        criterion=criterion,
        verdict=Verdict.MET if passed >= needed else Verdict.NOT_MET,
        needed=needed,
        unit=_("days"),
        evidence=(
            Evidence(measure=_("Days in this stage"), on=situation.opened_on, value=passed),
        ),
    )
