"""What the program proposes for a case on one day, from what stands and the protocol."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from teamrehab.domain.cautions import cautions, passed_over
from teamrehab.domain.checks import judge
from teamrehab.domain.decision import CriterionResult, Decision, Proposal
from teamrehab.domain.history import History
from teamrehab.domain.holds import held_reasons
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.safety import HIGH
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.signs import signs_due
from teamrehab.domain.situation import LATER_PHASE, Situation
from teamrehab.domain.stops import stop_reasons
from teamrehab.domain.symptom_rules import most_allowed
from teamrehab.language import _

_LATE = 7
"""Days within which an evening that is closed late is asked about day by day."""


def decide(
    history: History, protocol: Protocol, today: date, settings: ClubSettings | None = None
) -> Decision:
    """Return where the case stands, how each criterion of the next gate stands, a proposal.

    Only what was known by ``today`` counts, and the order of the facts does not matter. An
    open red flag and a sharp or high symptom of today come before any criterion, and a rise
    holds what would go up.
    Nothing beyond the next stage is ever proposed, and nothing beyond ready for sign-off: a
    person moves the athlete, a person signs.
    """
    situation = situation_of(history, protocol, today, settings)
    stages = len(protocol.stages)
    stage = _stage(situation.history, protocol)
    results = tuple(judge(criterion, situation) for criterion in protocol.gate(stage))
    stops = stop_reasons(situation)
    held = () if stops else held_reasons(situation, signs=stage == stages)
    if stage == stages and not stops:
        held = (*held, *passed_over(situation, protocol))
    proposal = _proposal(results, last=stage == stages, stops=stops, held=held)
    return Decision(
        stage=stage,
        stage_name=protocol.stages[stage - 1].name,
        stages=stages,
        proposal=proposal,
        criteria=results,
        proposed_stage=stage + (proposal is Proposal.MOVE_UP),
        next_name="" if stage == stages else protocol.stages[stage].name,
        cautions=tuple(
            dict.fromkeys(
                (
                    *stops,
                    *held,
                    *_ask_for_signs(situation, protocol),
                    *cautions(situation, protocol, stage),
                )
            )
        ),
        held=held,
    )


def situation_of(
    history: History,
    protocol: Protocol | None,
    today: date,
    settings: ClubSettings | None = None,
) -> Situation:
    """Return the case as it was known on ``today``, in the phase of its stage.

    Without a protocol it counts as past the first phase: a limp is not taken as expected.
    """
    known = history.as_of(today)
    at = None if protocol is None else protocol.stages[_stage(known, protocol) - 1]
    return Situation(
        history=known,
        today=today,
        settings=settings or ClubSettings(),
        phase=LATER_PHASE if at is None else at.phase,
        phases=() if protocol is None else protocol.phases,
        alarm=HIGH if protocol is None else _alarm(protocol, _stage(known, protocol)),
        protocol=protocol,
    )


def _alarm(protocol: Protocol, stage: int) -> int:
    """Return the symptom from which on training is stopped: what the stage allows never is."""
    return max(HIGH, most_allowed(protocol, stage) + 1)


def stops_since(
    history: History,
    protocol: Protocol | None,
    on: date,
    today: date,
    settings: ClubSettings | None = None,
) -> tuple[str, ...]:
    """Return why nothing goes up for the evening of ``on``, as known today; empty if not.

    What stopped that evening counts, what stops today, and what stopped a day between: a bad
    morning since, for one. Of a long time only its last days are asked for.
    """
    last = max(on, today)
    between = [last - timedelta(days=n) for n in range(min((last - on).days, _LATE) + 1)]
    found = (
        reason
        for day in dict.fromkeys((on, *reversed(between)))
        for reason in stop_reasons(situation_of(history, protocol, day, settings))
    )
    return tuple(dict.fromkeys(found))


def _stage(known: History, protocol: Protocol) -> int:
    return min(max(known.stage or 1, 1), len(protocol.stages))


def _ask_for_signs(situation: Situation, protocol: Protocol) -> Iterator[str]:
    """Yield that the red flags of the protocol are to be asked for, and why."""
    why = signs_due(situation, protocol)
    if why:
        said = _("Ask for the red flags today: {why}.")
        yield said.format(why="; ".join(why))


def _proposal(
    results: Sequence[CriterionResult],
    *,
    last: bool,
    stops: Sequence[str],
    held: Sequence[str],
) -> Proposal:
    if stops:
        return Proposal.STOP_AND_REVIEW
    if held or not results or not all(result.met for result in results):
        return Proposal.STAY
    return Proposal.READY_FOR_SIGN_OFF if last else Proposal.MOVE_UP
