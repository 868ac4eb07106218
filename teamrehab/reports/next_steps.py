"""What comes next for one case: the answer and why, the next session, what is still missing."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from teamrehab.domain.availability import Availability, Training
from teamrehab.domain.cautions import match_day_caution, version_cautions
from teamrehab.domain.days import Fixture
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.decision import CriterionResult, Decision, Proposal
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Nature, RedFlag, StageMoved
from teamrehab.domain.measures import SessionEntry, SessionMissed
from teamrehab.domain.mornings import mornings_of, turned_out_badly, worst_by_day
from teamrehab.domain.outlooks import LadderOutlook, ladder_outlooks
from teamrehab.domain.plans import Plan, plan_for
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.safety import too_much
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.signs import signs_due
from teamrehab.domain.situation import RUNNING_PHASE, Situation, felt
from teamrehab.domain.stops import stop_reasons
from teamrehab.reports.open_gates import OpenGate, left_open, open_gates
from teamrehab.reports.overriding import Overridden, overrides
from teamrehab.reports.returning import watch_words
from teamrehab.reports.wording_limits import limits_stand


class Answer(StrEnum):
    """What is proposed, in one word; a person decides."""

    MOVE_UP = "move up"
    STAY = "stay"
    STEP_BACK = "step back"
    STOP = "stop and review"
    SIGN_OFF = "ready for sign-off"
    UNGUIDED = "no protocol"


class Lift(StrEnum):
    """What is to be done before anything is loaded again."""

    DOCTOR = "a doctor closes the red flag"
    OTHER_CASE = "the other case is settled"
    EXAMINE = "the leg is examined, or calm on a later day"


@dataclass(frozen=True, slots=True, kw_only=True)
class NextSteps:
    """The three answers of the first screen.

    ``stops`` stand first and take the place of ``plan``, which is None then and without a
    protocol; ``lifts`` says what lifts them. ``prompts`` ask for something today, ``notes``
    are to be borne in mind. ``session_on`` is the first day on which the next session can be.
    ``left_open`` are criteria that were passed over. ``gates`` lead to running or, once that
    is open, to the next stage; ``ladders`` say how each goes on. ``rests``: ill, no training
    is stated. ``answered_badly`` says in sentences how the leg answered the stage that is open.
    """

    answer: Answer
    history: History
    protocol: Protocol | None
    decision: Decision | None
    session_on: date
    stops: tuple[str, ...] = ()
    lifts: tuple[Lift, ...] = ()
    prompts: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    overrides: tuple[Overridden, ...] = ()
    left_open: tuple[CriterionResult, ...] = ()
    plan: Plan | None = None
    gates: tuple[OpenGate, ...] = ()
    ladders: tuple[LadderOutlook, ...] = ()
    running: bool = False
    rests: bool = False
    answered_badly: tuple[str, ...] = ()

    @property
    def earliest(self) -> date | None:
        """Return the first day on which all gates could be passed."""
        return self.gates[-1].earliest if self.gates else None

    @property
    def back(self) -> bool:
        """Return whether the only move that makes sense is back to an earlier stage."""
        later = self.decision is not None and self.decision.stage > 1
        return later and self.answer in (Answer.STOP, Answer.STEP_BACK)

    @property
    def missing(self) -> int:
        """Return how many criteria are open."""
        return sum(len(gate.open) for gate in self.gates)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A case on a day, and the protocol and the decision by it where there is one."""

    situation: Situation
    protocol: Protocol | None
    decision: Decision | None

    @property
    def known(self) -> History:
        """Return the case as it is known today."""
        return self.situation.history

    @property
    def today(self) -> date:
        """Return the day."""
        return self.situation.today


def next_steps(
    history: History,
    protocol: Protocol | None,
    availability: Availability,
    decision: Decision | None,
    today: date,
    *,
    settings: ClubSettings | None = None,
) -> NextSteps:
    """Return what comes next for a case; ``decision`` is what ``decide`` says of it today."""
    known = history.as_of(today)
    asked = _Asked(situation_of(known, protocol, today, settings), protocol, decision)
    stops, on = stop_reasons(asked.situation), _session_on(known, today)
    planned = protocol is not None and not stops
    left, gates = _course(asked)
    notes, asks = _notes(asked, stops, left), _asks_for_signs(asked)
    return NextSteps(
        answer=_answer(asked, stops),
        history=known,
        protocol=protocol,
        decision=decision,
        session_on=on,
        stops=stops,
        lifts=tuple(_lifts(asked)) if stops else (),
        prompts=(
            *_version(asked),
            *(notes[:1] if asks else ()),
            *_watch(asked),
            *_limits_left(asked, availability),
        ),
        notes=notes[1:] if asks else notes,
        overrides=tuple(overrides(known)),
        left_open=left,
        plan=plan_for(known, protocol, availability, on) if planned else None,
        gates=gates,
        ladders=tuple(_ladders(asked)) if planned else (),
        running=asked.situation.phase >= RUNNING_PHASE,
        rests=_rests(known, availability),
        answered_badly=tuple(_answered_badly(asked)),
    )


def _limits_left(asked: _Asked, availability: Availability) -> Iterator[str]:
    """Yield the limits that stand in the last stage."""
    decision, limits = asked.decision, availability.limits
    if limits and decision is not None and decision.stage == decision.stages:
        yield limits_stand(limits)


def near_a_match(steps: NextSteps, fixtures: Sequence[Fixture], today: date) -> NextSteps:
    """Return the same with the prompt, around a match, to test nothing to the limit."""
    caution = match_day_caution(fixtures, today) if steps.gates else ""
    return replace(steps, prompts=(*steps.prompts, caution)) if caution else steps


def _course(asked: _Asked) -> tuple[tuple[CriterionResult, ...], tuple[OpenGate, ...]]:
    """Return what was passed over, and the gates ahead; nothing without a protocol."""
    situation, protocol, decision = asked.situation, asked.protocol, asked.decision
    if protocol is None or decision is None:
        return (), ()
    left = left_open(situation, protocol, decision)
    return tuple(left), tuple(open_gates(situation, protocol, decision))


def _ladders(asked: _Asked) -> Iterator[LadderOutlook]:
    if asked.protocol is not None:
        yield from ladder_outlooks(
            asked.known, asked.protocol, asked.today, asked.situation.settings
        )


def _session_on(known: History, today: date) -> date:
    """Return today, or tomorrow once today's session was noted, done or missed."""
    facts = (fact.value for fact in known.facts)
    noted = any(isinstance(v, SessionEntry | SessionMissed) and v.on == today for v in facts)
    return today + timedelta(days=noted)


def _rests(known: History, availability: Availability) -> bool:
    ill = known.case.nature is Nature.ILLNESS
    return ill and availability.training is Training.NONE


def _answer(asked: _Asked, stops: tuple[str, ...]) -> Answer:
    if stops:
        return Answer.STOP
    if asked.decision is None:
        return Answer.UNGUIDED
    if asked.decision.proposal is Proposal.STAY and any(_answered_badly(asked)):
        return Answer.STEP_BACK
    return Answer(asked.decision.proposal.value)


def _answered_badly(asked: _Asked) -> Iterator[str]:
    """Yield what speaks against the present stage: the first bad answer after it was opened."""
    known, high = asked.known, asked.situation.alarm
    bad = turned_out_badly(known, asked.today, high)
    opened = max((move.on for move in bad if isinstance(move, StageMoved)), default=None)
    if opened is None:
        return
    mornings, trained = mornings_of(known, high), worst_by_day(felt(known))
    for day in sorted(one for one in {*mornings, *trained} if one > opened):
        woke = mornings[day].troubles if day in mornings else ()
        troubles = (*woke, *too_much(trained.get(day), high))
        if troubles:
            yield from dict.fromkeys(troubles)
            return


def _lifts(asked: _Asked) -> Iterator[Lift]:
    """Yield what lifts the stops: a doctor, the other case, an examination or a calm day."""
    known = asked.known
    if known.red_flags_open_on(asked.today):
        yield Lift.DOCTOR
    alone = replace(known, beside=())
    if _stopped(known, asked) != _stopped(alone, asked):
        yield Lift.OTHER_CASE
    facts = (fact for fact in alone.facts if not isinstance(fact.value, RedFlag))
    if _stopped(replace(alone, facts=tuple(facts)), asked):
        yield Lift.EXAMINE


def _stopped(history: History, asked: _Asked) -> tuple[str, ...]:
    return stop_reasons(replace(asked.situation, history=history))


def _notes(
    asked: _Asked, stops: tuple[str, ...], left: tuple[CriterionResult, ...]
) -> tuple[str, ...]:
    """Return the cautions of this case: no stops, and not what the protocol always says.

    The one that lists what was left open is left out: ``left`` says the same in few words.
    """
    if asked.decision is None or asked.protocol is None:
        return ()
    decision, protocol = asked.decision, asked.protocol
    always = (
        *(*stops, *decision.held, *protocol.cautions, *_version(asked)),
        _stage_caution(protocol, decision),
    )
    return tuple(
        said
        for said in decision.cautions
        if said not in always
        and not (left and all(result.criterion.sentence in said for result in left))
    )


def _version(asked: _Asked) -> tuple[str, ...]:
    """Return that the case is judged by another version than the one it follows."""
    return () if asked.protocol is None else version_cautions(asked.known, asked.protocol)


def _watch(asked: _Asked) -> tuple[str, ...]:
    """Return that an athlete who is back is still watched."""
    words = watch_words(asked.known, asked.protocol, asked.today)
    return (words,) if words else ()


def _asks_for_signs(asked: _Asked) -> bool:
    """Return whether the first caution asks for the red flags of the protocol."""
    return asked.protocol is not None and bool(signs_due(asked.situation, asked.protocol))


def _stage_caution(protocol: Protocol, decision: Decision) -> str:
    return protocol.stages[decision.stage - 1].caution
