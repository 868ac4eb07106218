"""What the program proposes for a case on one day, from what stands and the protocol."""

from collections.abc import Iterator, Sequence
from datetime import date

from teamrehab.domain.cautions import cautions
from teamrehab.domain.checks import judge
from teamrehab.domain.decision import CriterionResult, Decision, Proposal
from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.measures import Feeling, MorningResponse, SafetyCheck
from teamrehab.domain.mornings import morning_troubles
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.safety import HIGH, RISE, answered
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Felt, Situation, felt
from teamrehab.language import _

_LATER_PHASE = 2
"""Without a protocol nobody says that a limp is expected still."""


def decide(
    history: History, protocol: Protocol, today: date, settings: ClubSettings | None = None
) -> Decision:
    """Return where the case stands, how each criterion of the next gate stands, a proposal.

    Only what was known by ``today`` counts, and the order of the facts does not matter. An
    open red flag and a sharp, high or rising symptom of today come before any criterion.
    Nothing beyond the next stage is ever proposed, and nothing beyond ready for sign-off: a
    person moves the athlete, a person signs.
    """
    situation = situation_of(history, protocol, today, settings)
    stages = len(protocol.stages)
    stage = _stage(situation.history, protocol)
    results = tuple(judge(criterion, situation) for criterion in protocol.gate(stage))
    stops = stop_reasons(situation)
    proposal = _proposal(results, last=stage == stages, stops=stops)
    return Decision(
        stage=stage,
        stage_name=protocol.stages[stage - 1].name,
        stages=stages,
        proposal=proposal,
        criteria=results,
        proposed_stage=stage + (proposal is Proposal.MOVE_UP),
        next_name="" if stage == stages else protocol.stages[stage].name,
        cautions=(*stops, *cautions(situation, protocol, stage)),
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
        phase=_LATER_PHASE if at is None else at.phase,
    )


def _stage(known: History, protocol: Protocol) -> int:
    return min(max(known.stage or 1, 1), len(protocol.stages))


def _proposal(
    results: Sequence[CriterionResult], *, last: bool, stops: Sequence[str]
) -> Proposal:
    if stops:
        return Proposal.STOP_AND_REVIEW
    if not results or not all(result.met for result in results):
        return Proposal.STAY
    return Proposal.READY_FOR_SIGN_OFF if last else Proposal.MOVE_UP


def stop_reasons(situation: Situation) -> tuple[str, ...]:
    """Return why rehab stops today until somebody has looked, in sentences; empty if not.

    Red flags, today's symptoms, limp and morning, and the four answers until the leg was felt
    again. From a history: ``stop_reasons(situation_of(history, protocol, today))``. A limp is
    expected in the first phase and stops from the second on. A session that was missed says
    nothing.
    """
    known, today = situation.history, situation.today
    reasons = [_flag_sentence(flag) for flag in known.red_flags_open_on(today)]
    if not reasons:
        reasons.extend(_check_sentences(known, today))
    reasons.extend(_symptom_sentences(situation))
    reasons.extend(_morning_sentences(known, today))
    return tuple(dict.fromkeys(reasons))


def _flag_sentence(flag: RedFlag) -> str:
    if flag.urgency is Urgency.EMERGENCY:
        return _("Open red flag: seek emergency medical care now.")
    return _("Open red flag: seek medical review today, before any further rehab.")


def _check_sentences(known: History, today: date) -> Iterator[str]:
    """Yield what four answers still ask for: those of today, and those nothing came after.

    A symptom noted or an examination on a later day comes after. Answers that raise a red
    flag are spoken for by that flag, once it was noted.
    """
    days = [entry.on for entry in felt(known)]
    days += [value.on for kind in (MorningResponse, Examination) for value in known.of(kind)]
    after = max(days, default=date.min)
    flagged = max((flag.on for flag in known.of(RedFlag)), default=date.min)
    for check in known.of(SafetyCheck):
        if check.on == today or check.on >= after:
            urgent = answered(check).urgency is not None and flagged < check.on
            yield answered(check).sentence if urgent else _review_sentence(known, check)


def _review_sentence(known: History, check: SafetyCheck) -> str:
    said = _("Stopped on day {day} after four questions: review before the next load.")
    return said.format(day=(check.on - known.case.on).days)


def _symptom_sentences(situation: Situation) -> Iterator[str]:
    known, today = situation.history, situation.today
    entries = felt(known)
    symptoms = [entry.symptom for entry in entries if entry.symptom and entry.on == today]
    if any(symptom.feeling is Feeling.SHARP for symptom in symptoms):
        yield _("Sharp symptom today: stop, and examine again before going on.")
    worst = max((symptom.score for symptom in symptoms), default=0)
    if worst >= HIGH:
        said = _(
            "Symptom {score} today, {limit} or more: stop, and examine again before going on."
        )
        yield said.format(score=worst, limit=HIGH)
    limped = any(session.limp for session in known.sessions if session.on == today)
    if limped and situation.phase > 1:
        yield _("Limp today: stop, and examine again before going on.")
    rise = _rise(entries, today)
    if rise is not None and rise[1] - rise[0] >= RISE:
        said = _(
            "Symptom rose from {before} to {now}: stop, and examine again before going on."
        )
        yield said.format(before=rise[0], now=rise[1])


def _morning_sentences(known: History, today: date) -> Iterator[str]:
    """Yield why this morning stops the day, with its numbers."""
    troubles = morning_troubles(known, today)
    if troubles:
        said = _("This morning: {why} Stop, and examine again before going on.")
        yield said.format(why=" ".join(troubles))


def _rise(entries: Sequence[Felt], today: date) -> tuple[int, int] | None:
    """Return the worst symptom of the last day before today and of today, if both exist."""
    before = max((entry.on for entry in entries if entry.on < today), default=None)
    worst = [
        max((e.symptom.score for e in entries if e.symptom and e.on == on), default=None)
        for on in (before, today)
    ]
    last, now = worst
    return None if last is None or now is None else (last, now)
