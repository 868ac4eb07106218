"""A row entered for the wrong athlete goes to another: what of it goes, and what is told."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import Any

from teamrehab.domain.combining import availability_on
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import RedFlag
from teamrehab.domain.measures import Done, MorningResponse, SafetyCheck, SessionEntry
from teamrehab.domain.measures import SessionKind as Kind
from teamrehab.domain.plans import Plan, plan_for
from teamrehab.domain.stops import stop_reasons
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt, new_fact_id
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.refusals import RefusedError
from teamrehab.tasks.row_checks import (
    MOVABLE,
    Evening,
    flags_raised,
    insist_on_case,
    insist_on_movable,
    insist_on_questions,
    insist_on_row,
    insist_once,
)

_Saving = tuple[datetime, str]
"""What the facts of one save have in common: when, and by whom."""


def move_row(
    casebook: Casebook,
    fact_ids: Sequence[str],
    to: History,
    *,
    again: bool = False,
    answered: Sequence[SafetyCheck] = (),
) -> Receipt:
    """Move what was saved in a wrong row to the case of another athlete, in one step.

    What hangs on the plan of the wrong athlete stays out of it: how much was done of it, its
    exercises, and the minutes and the kind that it filled in. A red flag stays where it was
    raised: nobody but a named doctor closes it (see ``stays_words``). Four answers that
    raised one raise one for the other athlete too.

    Args:
        casebook: where it stands.
        fact_ids: what moves (see ``together``).
        to: the case it belongs to.
        again: a second session of the same evening is meant.
        answered: four answers about the other athlete, where none move along.

    Raises:
        RefusedError: nothing of it may move, it was changed meanwhile, a symptom is not
            accepted there without the four questions, or the other case had not begun or had
            ended (as ImplausibleError), or has a session of that evening (as SavedTwiceError).
    """
    there, here = casebook.case(to.case.case_id), _standing_in(casebook, fact_ids)
    moving = insist_on_movable(here, fact_ids)
    insist_on_case(there, answered)
    values = [*(_given_to(there, here, fact.value) for fact in moving), *answered]
    insist_on_row(casebook, there, values)
    if not again:
        insist_once(there, values, ())
    insist_on_questions(there, values)
    flags = [replace(f, flag_id=new_fact_id(casebook.clock)) for f in flags_raised(values)]
    return casebook.note(
        *values,
        *flags,
        replaces=[fact.fact_id for fact in moving],
        why=_("Entered for the wrong athlete."),
    )


def together(history: History, session: Standing[Any]) -> tuple[Standing[Any], ...]:
    """Return what was observed with a session, corrected since or not: it moves as one.

    The four answers of its day that were saved with no other session and no morning, and what
    was saved in one step with any of these.
    """
    on, own = session.value.on, _saving(session)
    others = {
        _saving(fact)
        for fact in history.facts
        if isinstance(fact.value, Evening | MorningResponse) and fact.value.on == on
    } - {own}
    steps = {_saving(f) for f in history.standing(SafetyCheck) if f.value.on == on} - others
    moving = (f for f in history.facts if isinstance(f.value, MOVABLE))
    found = (fact for fact in moving if _saving(fact) in {own, *steps})
    return tuple(
        fact
        for fact in found
        if fact.fact_id == session.fact_id or not isinstance(fact.value, Evening)
    )


def stays_words(facts: Sequence[Standing[Any]], source: History) -> str:
    """Return what a move leaves behind, to be told beside it; "" where nothing stays."""
    answers = [fact.value for fact in facts if isinstance(fact.value, SafetyCheck)]
    if not any(isinstance(fact.value, RedFlag) for fact in facts) and not flags_raised(answers):
        return ""
    sentence = _(
        "The red flag of {name} stays open: a named doctor closes it on the athlete's page."
    )
    return sentence.format(name=source.athlete.name)


def arrives_words(facts: Sequence[Standing[Any]], to: History) -> str:
    """Return what is to be known of the athlete a row goes to, "" where nothing is.

    That rehab is stopped there, and that nobody has said yet what was done.
    """
    sessions = [fact.value for fact in facts if isinstance(fact.value, SessionEntry)]
    said = [_stopped_words(to, on) for on in sorted({fact.value.on for fact in facts})]
    if any(session.done is not None or session.exercises for session in sessions):
        words = _("What {name} did of the plan did not move: correct the entry to say it.")
        said.append(words.format(name=to.athlete.name))
    return " ".join(dict.fromkeys(sentence for sentence in said if sentence))


def _stopped_words(to: History, on: date) -> str:
    why = stop_reasons(situation_of(to, protocol_of(to), on))
    if not why:
        return ""
    return _("{name} is stopped: {why}").format(name=to.athlete.name, why=" ".join(why))


def _saving(fact: Standing[Any]) -> _Saving:
    return fact.noted_at, fact.author


def _standing_in(casebook: Casebook, fact_ids: Sequence[str]) -> History:
    """Return the open case in which all these facts stand."""
    wanted = set(fact_ids)
    for history in casebook.squad(casebook.clock.today()).open_cases:
        if wanted <= {fact.fact_id for fact in history.facts}:
            return history
    raise RefusedError(
        _("This entry was changed meanwhile: nothing was moved. Look at it again.")
    )


def _given_to(there: History, here: History, value: Any) -> Any:
    """Return a value as one of another case; what was filled in from a plan does not go."""
    case = there.case
    if isinstance(value, SessionEntry) and value.done is not None:
        value = _as_seen(value, _plan(here, value))
    elif isinstance(value, SessionEntry):
        value = replace(value, exercises=())
    return replace(value, case_id=case.case_id, athlete_id=case.athlete_id)


def _plan(history: History, session: SessionEntry) -> Plan:
    there = availability_on(session.on, (history,))
    return plan_for(history, protocol_of(history), there, session.on)


def _as_seen(session: SessionEntry, plan: Plan) -> SessionEntry:
    """Return what of a row is no word about a plan; as the plan has it, it was filled in."""
    planned = session.done is Done.AS_PLANNED and session.minutes == plan.minutes
    return replace(
        session,
        done=None,
        exercises=(),
        minutes=None if planned else session.minutes,
        kind=Kind.REHAB if session.kind is plan.kind else session.kind,
    )
