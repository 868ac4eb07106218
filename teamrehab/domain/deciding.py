"""What the program proposes for a case on one day, from what stands and the protocol."""

from collections.abc import Sequence
from datetime import date

from teamrehab.domain.checks import judge
from teamrehab.domain.decision import CriterionResult, Decision, Proposal, Verdict
from teamrehab.domain.history import History
from teamrehab.domain.injuries import RedFlag, StageMoved, Urgency
from teamrehab.domain.measures import Feeling
from teamrehab.domain.protocol import Protocol, followed
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Felt, Situation, felt
from teamrehab.language import _

RISE = 2
"""Points of symptom that matter (Pain 2001;94:149, from chronic pain: common practice here)."""


def decide(
    history: History, protocol: Protocol, today: date, settings: ClubSettings | None = None
) -> Decision:
    """Return where the case stands, how each criterion of the next gate stands, a proposal.

    Only what was known by ``today`` counts, and the order of the facts does not matter. An
    open red flag and a sharp or rising symptom of today come before any criterion. Nothing
    beyond the next stage is ever proposed, and nothing beyond ready for sign-off: a person
    moves the athlete, a person signs.
    """
    known = history.as_of(today)
    stages = len(protocol.stages)
    stage = min(max(known.stage or 1, 1), stages)
    situation = Situation(
        history=known,
        today=today,
        settings=settings or ClubSettings(),
        phase=protocol.stages[stage - 1].phase,
    )
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
        cautions=(
            *stops,
            *_override_cautions(situation, protocol, stage),
            *_cautions(known, protocol, stage, today),
        ),
    )


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

    A limp is expected in the first phase and stops from the second on.
    """
    known, today = situation.history, situation.today
    reasons = [_flag_sentence(flag) for flag in known.red_flags_open_on(today)]
    entries = felt(known)
    symptoms = [entry.symptom for entry in entries if entry.symptom and entry.on == today]
    if any(symptom.feeling is Feeling.SHARP for symptom in symptoms):
        reasons.append(_("Sharp symptom today: stop, and examine again before going on."))
    limped = any(session.limp for session in known.sessions if session.on == today)
    if limped and situation.phase > 1:
        reasons.append(_("Limp today: stop, and examine again before going on."))
    rise = _rise(entries, today)
    if rise is not None and rise[1] - rise[0] >= RISE:
        said = _(
            "Symptom rose from {before} to {now}: stop, and examine again before going on."
        )
        reasons.append(said.format(before=rise[0], now=rise[1]))
    return tuple(dict.fromkeys(reasons))


def _flag_sentence(flag: RedFlag) -> str:
    if flag.urgency is Urgency.EMERGENCY:
        return _("Open red flag: seek emergency medical care now.")
    return _("Open red flag: seek medical review today, before any further rehab.")


def _rise(entries: Sequence[Felt], today: date) -> tuple[int, int] | None:
    """Return the worst symptom of the last day before today and of today, if both exist."""
    before = max((entry.on for entry in entries if entry.on < today), default=None)
    worst = [
        max((e.symptom.score for e in entries if e.symptom and e.on == on), default=None)
        for on in (before, today)
    ]
    last, now = worst
    return None if last is None or now is None else (last, now)


def _cautions(known: History, protocol: Protocol, stage: int, today: date) -> tuple[str, ...]:
    """Return what the reader must bear in mind whatever is proposed."""
    young = known.athlete.is_minor_on(today)
    caution = protocol.stages[stage - 1].caution
    said = [
        *_version_cautions(known, protocol),
        *protocol.cautions,
        *([caution] if caution else []),
        *([_("Starter protocol: review before use.")] if protocol.starter else []),
        *([_("Under 18: the numbers come from adults.")] if young else []),
        _("The program proposes; the clinician decides."),
    ]
    return tuple(said)


def _override_cautions(situation: Situation, protocol: Protocol, stage: int) -> tuple[str, ...]:
    """Return that the stage was opened against the proposal, why, and what is still open."""
    moved = situation.history.last(StageMoved)
    if moved is None or moved.stage <= moved.proposed or moved.stage != stage:
        return ()
    said = _(
        "{stage} was opened against the proposal on day {day}: {why}. The likely return counts"
        " it as reached."
    ).format(
        stage=protocol.stages[stage - 1].name,
        day=(moved.on - situation.history.case.on).days,
        why=moved.why.strip().rstrip("."),
    )
    passed = range(max(moved.proposed, 1), stage)
    open_still = [
        criterion.sentence
        for criterion in (c for number in passed for c in protocol.gate(number))
        if judge(criterion, situation).verdict in (Verdict.NOT_MET, Verdict.NEVER_TESTED)
    ]
    if not open_still:
        return (said,)
    return (
        said,
        _("Still open from before: {criteria}.").format(criteria="; ".join(open_still)),
    )


def _version_cautions(known: History, protocol: Protocol) -> tuple[str, ...]:
    """Return that the criteria may not be those the case was started with."""
    chosen = known.protocol
    if chosen is None or not followed(known, {protocol.key: protocol}).changed:
        return ()
    said = _(
        "The case was started with version {chosen} of this protocol, the criteria below are"
        " those of version {shipped}: check what was agreed."
    )
    return (said.format(chosen=chosen.version, shipped=protocol.version),)
