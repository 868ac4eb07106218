"""The gates between a case and running, or the next stage: what is open in each, and when."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.checks import judge
from teamrehab.domain.decision import CriterionResult, Decision, Verdict
from teamrehab.domain.earliest import earliest_leaving
from teamrehab.domain.injuries import StageMoved
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.situation import RUNNING_PHASE, Situation


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenGate:
    """What still stands before leaving ``stage`` (from 1).

    ``opens`` is the stage it opens, "" for sign-off. ``open`` are the criteria not met today
    out of ``asked``; ``earliest`` the first day it could be passed, None where nobody can say.
    """

    stage: int
    opens: str
    asked: int
    open: tuple[CriterionResult, ...]
    earliest: date | None = None


def open_gates(
    situation: Situation, protocol: Protocol, decision: Decision
) -> Iterator[OpenGate]:
    """Yield every gate from the present stage to running, or the next one once that is open."""
    last = _last_gate(protocol, decision.stage)
    days = earliest_leaving(
        situation.history, protocol, situation.today, last=last, settings=situation.settings
    )
    for place, stage in enumerate(range(decision.stage, last + 1)):
        gate = protocol.gate(stage)
        results = (judge(criterion, situation) for criterion in gate)
        yield OpenGate(
            stage=stage,
            opens=protocol.stages[stage].name if stage < len(protocol.stages) else "",
            asked=len(gate),
            open=tuple(result for result in results if not result.met),
            earliest=days[place] if days else None,
        )


def _last_gate(protocol: Protocol, stage: int) -> int:
    """Return the stage whose gate opens running, or the present one once that is open."""
    opening = (n for n, each in enumerate(protocol.stages) if each.phase >= RUNNING_PHASE)
    return max(next(opening, len(protocol.stages)), stage)


def left_open(
    situation: Situation, protocol: Protocol, decision: Decision
) -> Iterator[CriterionResult]:
    """Yield what is still open of the gates that the present stage was opened over."""
    moved = situation.history.last(StageMoved)
    if moved is None or moved.stage != decision.stage:
        return
    for stage in range(max(moved.proposed, 1), decision.stage):
        for criterion in protocol.gate(stage):
            result = judge(criterion, situation)
            if result.verdict in (Verdict.NOT_MET, Verdict.NEVER_TESTED):
                yield result
