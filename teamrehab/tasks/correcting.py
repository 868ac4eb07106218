"""What was wrong about a case is put right: rewritten, or taken back as entered in error."""

from dataclasses import dataclass, replace
from typing import Any

from teamrehab.domain.availability import Absence, AvailabilityStated, Match, Training
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import Case, CaseClosed, Clearance, Outcome, RedFlag, Scope
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.cases import head_flag
from teamrehab.tasks.going_up import insist_goes_no_higher
from teamrehab.tasks.refusals import RefusedError, insist

Facts = tuple[Standing[Any], ...]


@dataclass(frozen=True, slots=True)
class Together:
    """Facts of one case that fall together."""

    history: History
    facts: Facts


def correct_case(casebook: Casebook, history: History, case: Case) -> Receipt:
    """Rewrite what is known of the start of a case.

    One found to be a head injury allows nothing from today on and raises a red flag.
    """
    today = casebook.clock.today()
    insist(today, None, case)
    if not case.head_injury or history.case.head_injury:
        return casebook.note(case)
    out = AvailabilityStated(
        case_id=case.case_id,
        athlete_id=case.athlete_id,
        on=max(today, case.on),
        training=Training.NONE,
        match=Match.NOT_AVAILABLE,
    )
    return casebook.note(case, out, replace(head_flag(case), on=max(today, case.on)))


def fall_together(history: History, fact: Standing[Any]) -> Together:
    """Return what goes with ``fact``: with a signature what it opened and what it ended."""
    if isinstance(fact.value, Clearance):
        signed: Standing[Any] | None = fact
    elif isinstance(fact.value, CaseClosed) and fact.value.outcome is Outcome.CLEARED:
        signed = next((f for f in history.standing(Clearance) if _ends(f, fact)), None)
    else:
        signed = None
    if signed is None:
        return Together(history, (fact,))
    opened = [f for f in history.standing(AvailabilityStated) if _follows(f, signed)]
    ended = [f for f in history.standing(CaseClosed) if _ends(signed, f)]
    return Together(history, (*opened, signed, *ended))


def take_back(casebook: Casebook, what: Together, why: str) -> Receipt:
    """Mark facts as entered in error, all in one transaction.

    Raises:
        RefusedError: one of them is a red flag, or would take one away with the case; or the
            case would stand higher again while rehab is stopped.
    """
    values = [fact.value for fact in what.facts]
    if any(isinstance(v, RedFlag) and v.closed is not None for v in values):
        raise RefusedError(
            _(
                "That a doctor closed a red flag is not taken back: raise the red flag again if"
                " it was closed in error."
            )
        )
    flags = what.history.open_red_flags
    if any(isinstance(v, RedFlag) for v in values) or (
        flags and any(isinstance(v, Case) for v in values)
    ):
        raise RefusedError(
            _("A red flag is never taken back: a named doctor closes it. Close it first.")
        )
    ids = tuple(fact.fact_id for fact in what.facts)
    insist_goes_no_higher(casebook, ids, values)
    return casebook.withdraw(*ids, why=why)


def take_back_absence(casebook: Casebook, absence: Absence, why: str) -> Receipt:
    """Mark an absence as entered in error, every version of it: the athlete was never away.

    Who comes back sooner than noted was away: then the absence is changed instead.

    Raises:
        RefusedError: it was taken back already.
    """
    versions = [
        fact.fact_id
        for fact in casebook.all_of(Absence)
        if fact.value.absence_id == absence.absence_id
    ]
    if not versions:
        raise RefusedError(_("This absence was taken back already: nothing was changed."))
    return casebook.withdraw(*versions, why=why)


def _follows(stated: Standing[AvailabilityStated], signed: Standing[Any]) -> bool:
    """Return whether a statement is what a signature meant: full training from that day on."""
    same = (stated.value.on, stated.author) == (signed.value.on, signed.author)
    return same and stated.value.training is Training.FULL


def _ends(signed: Standing[Any], closed: Standing[Any]) -> bool:
    """Return whether a signature for matches ended the case."""
    cleared = closed.value.outcome is Outcome.CLEARED
    return cleared and signed.value.scope is Scope.MATCH and signed.value.on == closed.value.on
