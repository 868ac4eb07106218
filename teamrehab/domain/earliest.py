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
from teamrehab.domain.ladders import present_stage
from teamrehab.domain.protocol import Criterion, Protocol
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
    day, opened, found = _next_move(situation), situation.opened_on, []
    for stage in range(first, last + 1):
        asked = _Asked(situation, opened, ahead=stage > first)
        opened = max([day, *(asked.earliest(one) for one in protocol.gate(stage))])
        found.append(opened)
        day = opened + _DAY
    return tuple(found)


def _next_move(situation: Situation) -> date:
    """Return the first day on which a stage may be opened: one a day, not before a repeat."""
    moved = situation.history.last(StageMoved)
    waits = (moved is not None and moved.on == situation.today) or repeats_first(situation)
    return situation.today + _DAY if waits else situation.today


@dataclass(frozen=True, slots=True)
class _Asked:
    """A stage, opened on a day; ``ahead``: nothing of it was opened yet."""

    situation: Situation
    opened: date
    ahead: bool

    def earliest(self, criterion: Criterion) -> date:
        """Return the first day from today on, on which a criterion can hold."""
        today = self.situation.today
        result = judge(criterion, self.situation)
        counted = _COUNTED.get(criterion.check)
        if counted is not None and (self.ahead or not result.met):
            return max(today, counted(self, result))
        failed = result.verdict is Verdict.NOT_MET
        again = failed and any(seen.on == today for seen in result.evidence)
        return today + _DAY if again else today


def _days(asked: _Asked, result: CriterionResult) -> date:
    return asked.opened + timedelta(days=whole(result.criterion, "days"))


def _sessions(asked: _Asked, result: CriterionResult) -> date:
    """Return the day of the last session still needed, one a day."""
    today, done = asked.situation.today, asked.situation.sessions()
    clean = 0 if asked.ahead or not result.evidence else int(result.evidence[0].value or 0)
    free = today + _DAY if any(session.on == today for session in done) else today
    first = asked.opened if asked.ahead else max(free, asked.opened)
    return first + timedelta(days=max(whole(result.criterion, "sessions") - clean - 1, 0))


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
    "symptom_at_most": _calm,
}
"""The checks that count days; every other one can hold on the day it is looked at."""
