"""Checks on days in a row: clean runs, and calm mornings."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import takewhile

from teamrehab.domain.day_names import day_words
from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
from teamrehab.domain.judging import SymptomLimit, joined, painkiller_remark, whole
from teamrehab.domain.measures import MorningResponse, RunTest
from teamrehab.domain.mornings import mornings_of
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation
from teamrehab.language import _


def clean_runs(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge on how many days in a row a run was clean, and say where one was fast too early.

    ``before`` is the share of the own speed that waits for them. A run under a painkiller is
    passed over, and one of the day after a run counts for nothing: a day lies between (common
    practice).
    """
    limit, needed = SymptomLimit.of(criterion), whole(criterion, "runs")
    runs = situation.tests(RunTest)
    row = list(takewhile(lambda run: not limit.trouble(run.symptom), runs))
    days = {run.on for run in row if not run.painkiller}
    spaced = _with_a_day_between(days)
    said = [_fast_too_early(criterion, limit, runs)]
    said += [_no_day_between()] if len(spaced) < len(days) else []
    said += [painkiller_remark()] if any(run.painkiller for run in row) else []
    return _days(
        criterion, _("Days in a row with a clean run"), runs, len(spaced), needed, said
    )


def _with_a_day_between(days: Iterable[date]) -> list[date]:
    """Return the days that have none of the others the day before."""
    counted: list[date] = []
    for day in sorted(days):
        if not counted or day - counted[-1] > timedelta(days=1):
            counted.append(day)
    return counted


def _no_day_between() -> str:
    return _("A run of the day after a run does not count: a day lies between.")


def _fast_too_early(criterion: Criterion, limit: SymptomLimit, runs: Sequence[RunTest]) -> str:
    """Return that a run was faster than ``before`` allows on fewer clean days than asked."""
    before, needed = int(criterion.parameters.get("before", 100)), whole(criterion, "runs")
    clean = [r for r in runs if not r.painkiller and not limit.trouble(r.symptom)]
    for run in reversed(runs):
        earlier = {r.on for r in clean if r.on < run.on}
        if run.percent_of_own > before and len(earlier) < needed:
            said = _(
                "The run at {percent} % on {day} came after {count} clean runs of {needed}."
            )
            return said.format(
                percent=run.percent_of_own,
                day=day_words(run.on),
                count=len(earlier),
                needed=needed,
            )
    return ""


def clean_mornings(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge on how many mornings in a row the leg was calm: within the symptom, without a rise.

    A calm morning under a painkiller is passed over.
    """
    history, limit = situation.history, SymptomLimit.of(criterion)
    told = sorted(history.of(MorningResponse), key=lambda m: m.on, reverse=True)

    mornings = mornings_of(history)

    def calm(morning: MorningResponse) -> bool:
        held = mornings.get(morning.on)
        bad = held is not None and bool(held.troubles)
        return not bad and not limit.trouble(morning.symptom)

    row = list(takewhile(calm, told))
    days = {morning.on for morning in row if not morning.painkiller}
    days -= {morning.on for morning in told if not calm(morning)}
    said = [painkiller_remark()] if any(m.painkiller for m in row) else []
    needed = whole(criterion, "mornings")
    result = _days(criterion, _("Calm mornings in a row"), told, len(days), needed, said)
    old = bool(told) and situation.too_old(told[0].on, situation.settings.retest_days)
    return replace(result, verdict=Verdict.DUE_AGAIN) if result.met and old else result


def _days(
    criterion: Criterion,
    measure: str,
    entries: Sequence[RunTest] | Sequence[MorningResponse],
    count: int,
    needed: int,
    said: Sequence[str],
) -> CriterionResult:
    """Return how many days in a row were clean, of those asked for; newest entry first."""
    short = Verdict.NOT_MET if entries else Verdict.NEVER_TESTED
    seen = [Evidence(measure=measure, on=entry.on, value=count) for entry in entries[:1]]
    return CriterionResult(
        criterion=criterion,
        verdict=Verdict.MET if count >= needed else short,
        needed=needed,
        unit=_("days"),
        evidence=tuple(seen),
        remark=joined(said),
    )
