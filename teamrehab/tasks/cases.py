"""What staff decide about a case; each function writes its facts in one transaction."""

from dataclasses import replace
from datetime import date

from uuid_utils import uuid7

from teamrehab.domain.availability import Absence, AvailabilityStated, Match, Training
from teamrehab.domain.deciding import decide
from teamrehab.domain.history import History
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    LevelMoved,
    Outcome,
    ProtocolChosen,
    RedFlag,
    ReturnDecision,
    Scope,
    StageMoved,
    Urgency,
)
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt
from teamrehab.reports.disclosure import check_free_words
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.going_up import insist_may_end, insist_may_go_up, insist_ready
from teamrehab.tasks.protocol_versions import from_the_start
from teamrehab.tasks.refusals import RefusedError, insist
from teamrehab.tasks.standing_decisions import insist_undecided
from teamrehab.tasks.what_follows import what_follows


def new_id() -> str:
    """Return a fresh id (UUIDv7, RFC 9562)."""
    return str(uuid7())


def open_case(
    casebook: Casebook,
    case: Case,
    stated: AvailabilityStated,
    *more: RedFlag | ReturnDecision,
) -> Receipt:
    """Note an injury or illness and what it allows, in one go.

    ``more`` is what was asked along with it: a red flag, the return a clinician expects. With
    a red flag nothing is allowed, whatever was typed; a head injury raises one by itself, for
    today's doctor.
    """
    insist(casebook.clock.today(), None, case, stated, *more)
    _insist_on_coach_words(stated)
    noted = (*more, head_flag(case)) if case.head_injury else more
    if any(isinstance(value, RedFlag) for value in noted):
        stated = replace(stated, training=Training.NONE, match=Match.NOT_AVAILABLE, limits=())
    return casebook.note(case, stated, *noted)


def diagnose(
    casebook: Casebook, history: History, diagnosis: Diagnosis, protocol: Protocol | None
) -> Receipt:
    """Note what the problem is held to be, and the protocol the case follows from now on.

    Another protocol begins at its first stage: what the stages of the one before had opened
    says nothing about its own. A person opens a later one.
    """
    insist(casebook.clock.today(), history, diagnosis)
    values: list[Diagnosis | ProtocolChosen | StageMoved | LevelMoved] = [diagnosis]
    followed = history.protocol
    if protocol is not None and (followed is None or followed.protocol != protocol.key):
        values.append(
            ProtocolChosen(
                case_id=diagnosis.case_id,
                athlete_id=diagnosis.athlete_id,
                on=diagnosis.on,
                protocol=protocol.key,
                version=protocol.version,
            )
        )
        known = casebook.case(history.case.case_id)
        values.extend(from_the_start(known, protocol, diagnosis.on))
    return casebook.note(*values)


def move_stage(casebook: Casebook, history: History, moved: StageMoved) -> Receipt:
    """Open a stage (or go back to an earlier one) because a person decided so.

    A step back is the safe direction: neither a red flag nor a stop hinders it. What is
    proposed is worked out here, whatever ``moved`` says of it.

    Raises:
        RefusedError: a higher stage was to be opened while a red flag is open, or rehab was
            stopped on that day or is today; or the protocol has no such stage.
        ImplausibleError: the move goes against the proposal and no reason is given.
    """
    known = casebook.case(history.case.case_id)
    if moved.stage > (known.stage or 1):
        insist_may_go_up(casebook, known, moved.on)
        moved = _as_proposed(known, moved)
    insist(casebook.clock.today(), known, moved)
    return casebook.note(moved, why=moved.why)


def _insist_on_none_beside_a_flag(casebook: Casebook, stated: AvailabilityStated) -> None:
    none = stated.training is Training.NONE and stated.match is Match.NOT_AVAILABLE
    if not none and casebook.case(stated.case_id).open_red_flags:
        raise RefusedError(
            _(
                "A red flag is open: training none and match not available is all that can be"
                " stated until a named doctor has closed it."
            )
        )


def _as_proposed(known: History, moved: StageMoved) -> StageMoved:
    """Return a move up with the stage that the program proposes of the case as it stands."""
    protocol = protocol_of(known)
    if protocol is None:
        return moved
    if moved.stage > len(protocol.stages):
        sentence = _("{name} has {count} stages: there is no stage {stage} to open.")
        words = {"count": len(protocol.stages), "stage": moved.stage}
        raise RefusedError(sentence.format(name=protocol.name, **words))
    return replace(moved, proposed=decide(known, protocol, moved.on).proposed_stage)


def state_availability(
    casebook: Casebook, history: History, stated: AvailabilityStated, *, holds: bool = False
) -> Receipt:
    """Note what the case allows from a day on.

    ``holds``: until somebody says otherwise, so that what had been stated in advance for later
    days gives way to it.

    Raises:
        RefusedError: more than nothing was stated while a red flag of the case is open: it
            would begin to count, unseen, as soon as the flag is closed.
    """
    insist(casebook.clock.today(), history, stated)
    _insist_on_coach_words(stated)
    _insist_on_none_beside_a_flag(casebook, stated)
    ahead = {one.on for one in history.of(AvailabilityStated) if holds and one.on > stated.on}
    return casebook.note(stated, *(replace(stated, on=day) for day in sorted(ahead)))


def decide_return(casebook: Casebook, history: History, decision: ReturnDecision) -> Receipt:
    """Note a person's decision about the return; it beats the estimate."""
    insist(casebook.clock.today(), history, decision)
    return casebook.note(decision, why=decision.why)


def raise_red_flag(casebook: Casebook, history: History, flag: RedFlag) -> Receipt:
    """Note a red flag; the athlete is not available and loads nothing until it is closed."""
    insist(casebook.clock.today(), history, flag)
    return casebook.note(flag)


def close_red_flag(casebook: Casebook, flag: RedFlag, doctor: str) -> Receipt:
    """Close a red flag in the name of the doctor who saw the athlete."""
    if not doctor.strip():
        raise RefusedError(_("A red flag is closed by a named doctor: type the doctor's name."))
    closed = replace(flag, closed_on=casebook.clock.today(), closed_by=doctor.strip())
    return casebook.note(closed)


def clear(
    casebook: Casebook, history: History, clearance: Clearance, *, why: str = ""
) -> Receipt:
    """Sign a clearance: it states the availability that follows, and for matches ends the case.

    Raises:
        RefusedError: a red flag of the athlete is open, or rehab is stopped; criteria of the
            protocol are open and no reason is given; the protocol names others who may sign;
            a head injury was to be cleared for a part of a match; or a decision about a coming
            match stands against it.
    """
    known = casebook.case(history.case.case_id)
    insist_may_end(casebook, known, clearance.on)
    if history.case.head_injury and clearance.scope is Scope.MATCH_WITH_LIMIT:
        raise RefusedError(
            _(
                "A head injury is cleared for whole matches or for none: choose team training"
                " or match."
            )
        )
    insist(casebook.clock.today(), history, clearance)
    _insist_on_signer(casebook, history)
    insist_ready(known, clearance, why)
    if clearance.scope is not Scope.TEAM_TRAINING:
        insist_undecided(casebook, history, clearance)
    stated = what_follows(history, clearance)
    insist(casebook.clock.today(), history, stated)
    _insist_on_coach_words(stated)
    values: list[Clearance | AvailabilityStated | CaseClosed] = [clearance, stated]
    if clearance.scope is Scope.MATCH:
        values.append(_closing(history, clearance.on, Outcome.CLEARED))
    return casebook.note(*values, why=why)


def close_case(
    casebook: Casebook, history: History, on: date, outcome: Outcome, *, why: str = ""
) -> Receipt:
    """End a case without a clearance for matches (left the club, or for a reason given).

    Raises:
        RefusedError: a red flag is open, rehab is stopped and no reason is given, or it is to
            end as cleared, which takes a signature.
    """
    insist_may_end(casebook, casebook.case(history.case.case_id), on, why)
    if outcome is Outcome.CLEARED:
        raise RefusedError(
            _("A case ends as cleared by a signature only: sign a clearance for matches.")
        )
    if outcome is not Outcome.LEFT_CLUB:
        _insist_on_head_cleared(history)
    closing = _closing(history, on, outcome)
    insist(casebook.clock.today(), history, closing)
    return casebook.note(closing, why=why)


def note_absence(casebook: Casebook, absence: Absence) -> Receipt:
    """Note time away for a reason that is not medical, or change what was noted of it."""
    insist(casebook.clock.today(), None, absence)
    return casebook.note(absence)


def head_flag(case: Case) -> RedFlag:
    """Return the red flag that a head injury raises by itself."""
    return RedFlag(
        flag_id=new_id(),
        case_id=case.case_id,
        athlete_id=case.athlete_id,
        on=case.on,
        what=_("Head injury: the head was hit or shaken."),
        urgency=Urgency.SAME_DAY,
    )


def _insist_on_head_cleared(history: History) -> None:
    """Raise RefusedError for a head injury nobody has cleared for matches."""
    signed = {clearance.scope for clearance in history.clearances}
    if history.case.head_injury and Scope.MATCH not in signed:
        raise RefusedError(
            _("A head injury ends by a signature only: sign a clearance for matches.")
        )


def _closing(history: History, on: date, outcome: Outcome) -> CaseClosed:
    case = history.case
    return CaseClosed(case_id=case.case_id, athlete_id=case.athlete_id, on=on, outcome=outcome)


def _insist_on_signer(casebook: Casebook, history: History) -> None:
    """Raise RefusedError unless the protocol lets the role of the person signed in sign."""
    protocol = protocol_of(history)
    may_sign = protocol.may_sign if protocol else ()
    if may_sign and casebook.me.role not in may_sign:
        raise RefusedError(
            _("This protocol is signed by: {roles}. You are signed in as {role}.").format(
                roles=", ".join(_(role) for role in may_sign), role=_(casebook.me.role)
            )
        )


def _insist_on_coach_words(stated: AvailabilityStated) -> None:
    found = check_free_words(stated.match_role)
    if found:
        raise RefusedError(
            _(
                "Match limit: the coach reads these words, and {words} tells something "
                "medical. Say only minutes or role."
            ).format(words=", ".join(found))
        )
