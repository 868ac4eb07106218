"""The first day on which a stage could be left, if all that is asked for passes from now on.

It is a bound, never a forecast: only days that no passing shortens count. Those are sessions
still to come, days in the stage, days of symptom that must be over first, a test failed today
and one stage a day (all common practice, as the criteria say them).
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from teamrehab.domain.checks import judge
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.decision import CriterionResult, Verdict
from teamrehab.domain.history import History
from teamrehab.domain.injuries import StageMoved
from teamrehab.domain.judging import SymptomLimit, whole
from teamrehab.domain.ladder_days import REST_BETWEEN, walk
from teamrehab.domain.ladders import level_of, present_stage
from teamrehab.domain.measures import RunTest
from teamrehab.domain.protocol import Criterion, Ladder, Passed, Protocol
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Situation
from teamrehab.domain.stops import repeats_first, stop_reasons

_DAY = timedelta(days=1)


def earliest_leaving(
    history: History,
    protocol: Protocol,
    today: date,
    *,
    last: int,
    settings: ClubSettings | None = None,
) -> tuple[date, ...]:
    """Return, for the present stage and each one up to ``last``, when it could be left.

    To leave is to open the next stage or, from the last one, to sign. Empty while rehab is
    stopped: nobody can say when that is lifted.
    """
    situation = situation_of(history, protocol, today, settings)
    if stop_reasons(situation):
        return ()
    first = present_stage(situation.history, protocol)
    opened = dict.fromkeys(range(1, first + 1), situation.opened_on)
    day = _next_move(situation)
    for stage in range(first, last + 1):
        asked = _Asked(situation, protocol, stage, opened)
        leaving = max([day, *(asked.earliest(one) for one in protocol.gate(stage))])
        opened[stage + 1] = leaving
        day = leaving + _DAY
    return tuple(opened[stage + 1] for stage in range(first, last + 1))


def _next_move(situation: Situation) -> date:
    """Return the first day on which a stage may be opened: one a day, not before a repeat."""
    moved = situation.history.last(StageMoved)
    waits = (moved is not None and moved.on == situation.today) or repeats_first(situation)
    return situation.today + _DAY if waits else situation.today


@dataclass(frozen=True, slots=True)
class _Asked:
    """A stage whose gate is asked for; ``opened`` says when each stage was or will be."""

    situation: Situation
    protocol: Protocol
    stage: int
    opened: Mapping[int, date]

    @property
    def ahead(self) -> bool:
        """Return whether the stage is not open yet: nothing of it was counted."""
        return self.stage > present_stage(self.situation.history, self.protocol)

    def earliest(self, criterion: Criterion) -> date:
        """Return the first day from today on, on which a criterion can hold."""
        today = self.situation.today
        result = judge(criterion, self.situation)
        counted = _COUNTED.get(criterion.check)
        again = criterion.check in SINCE_OPENED and self.ahead
        if counted is not None and (again or not result.met):
            return max(today, counted(self, result))
        if result.waits:
            return max(_passing(self, one) for one in result.waits)
        failed = result.verdict is Verdict.NOT_MET
        return today + _DAY if failed and _tested_on(today, result) else today

    def after(self, start: date, more: int, *, today_done: bool, apart: int = 1) -> date:
        """Return the day of the last of ``more`` days with one thing each, from ``start``.

        ``apart`` 2: a day lies between two of them.
        """
        today = self.situation.today
        first = max(start, today + apart * _DAY if today_done else today)
        return first + timedelta(days=apart * max(more - 1, 0))

    def first_run(self) -> date:
        """Return the first day on which a run counts: a day lies between two."""
        runs = [run.on for run in self.situation.tests(RunTest)]
        today = self.situation.today
        return max([today, *(on + 2 * _DAY for on in runs)])


def _tested_on(day: date, result: CriterionResult) -> bool:
    return any(seen.on == day for seen in result.evidence)


def _days(asked: _Asked, result: CriterionResult) -> date:
    return asked.opened[asked.stage] + timedelta(days=whole(result.criterion, "days"))


def _sessions(asked: _Asked, result: CriterionResult) -> date:
    """Return the day of the last session still needed, one a day.

    A session of the day on which a stage is opened counts for that stage.
    """
    only_days_out = result.criterion.check == "full_sessions" and len(result.evidence) < 2
    clean = 0 if asked.ahead or only_days_out else _count(result, 0)
    more = int(result.needed or 1) - clean
    done = _tested_on(asked.situation.today, result) and not asked.ahead
    return asked.after(asked.opened[asked.stage], more, today_done=done)


def _count(result: CriterionResult, place: int) -> int:
    return int(result.evidence[place].value or 0) if result.evidence else 0


def _in_a_row(asked: _Asked, result: CriterionResult) -> date:
    """Return the last of the days in a row still needed: mornings, or runs."""
    more = int(result.needed or 1) - _count(result, 0)
    done = _tested_on(asked.situation.today, result)
    return asked.after(asked.situation.today, more, today_done=done)


def _clean_runs(asked: _Asked, result: CriterionResult) -> date:
    """Return the last of the days of runs still needed, with a day between."""
    more = int(result.needed or 1) - _count(result, 0)
    return asked.after(asked.first_run(), more, today_done=False, apart=2)


def _runs_over(asked: _Asked, result: CriterionResult) -> date:
    """Return the last of the days still needed on which a run is fast enough."""
    days = int(result.criterion.parameters.get("days", 1))
    count = _count(result, -1) if len(result.evidence) > 1 else 0
    done = _tested_on(asked.situation.today, result)
    return asked.after(asked.situation.today, days - count, today_done=done)


def _level(asked: _Asked, result: CriterionResult) -> date:
    """Return the last of the sessions that pass the levels still below, one level a session.

    Work that is not done on consecutive days takes two days a level.
    """
    given = result.criterion.parameters
    return _passing(asked, Passed(ladder=str(given["ladder"]), level=int(given["level"])))


def _passing(asked: _Asked, wanted: Passed) -> date:
    """Return the day on which a level of a ladder can be passed."""
    protocol, known = asked.protocol, asked.situation.history
    ladder = next((one for one in protocol.ladders if one.key == wanted.ladder), None)
    if ladder is None:
        return asked.situation.today
    passed = walk(known, protocol).passed.get(ladder.key, 0)
    more = wanted.level - max(min(passed, wanted.level - 1), level_of(known, ladder) - 1)
    apart = 2 if ladder.work in REST_BETWEEN else 1
    return _first_work(asked, ladder, apart) + timedelta(days=apart * max(more - 1, 0))


def _first_work(asked: _Asked, ladder: Ladder, apart: int) -> date:
    """Return the first day on which a ladder can be worked at again, rest days kept."""
    situation = asked.situation
    start = max(asked.opened.get(ladder.stage, situation.today), situation.today)
    last = walk(situation.history, asked.protocol).last.get(ladder.work)
    return start if last is None else max(start, last + timedelta(days=apart))


def _calm(asked: _Asked, result: CriterionResult) -> date:
    """Return the first day whose newest days hold none of the symptoms that were too high."""
    limit = SymptomLimit(whole(result.criterion, "score"))
    felt = asked.situation.felt()
    bad = [entry.on for entry in felt if limit.trouble(entry.symptom)]
    days = int(result.criterion.parameters.get("days", 1))
    return max(bad, default=date.min) + timedelta(days=days)


_COUNTED: Mapping[str, Callable[[_Asked, CriterionResult], date]] = {
    "days_in_stage": _days,
    "sessions_at_least": _sessions,
    "full_sessions": _sessions,
    "clean_mornings": _in_a_row,
    "clean_runs": _clean_runs,
    "speed_over": _runs_over,
    "level_passed": _level,
    "symptom_at_most": _calm,
}
"""The checks that count days; every other one can hold on the day it is looked at."""

SINCE_OPENED = ("days_in_stage", "sessions_at_least", "full_sessions")
"""The checks that begin anew with each stage."""
