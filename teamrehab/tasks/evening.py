"""What is noted of an evening or a morning: a row in one transaction, or none of it."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from teamrehab.domain.combining import availability_on
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import RedFlag
from teamrehab.domain.measures import Done, SafetyCheck, SessionEntry
from teamrehab.domain.plans import Plan, as_done, plan_for
from teamrehab.domain.safety import flag_of
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt, ReplacedMeanwhileError, new_fact_id
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.refusals import RefusedError, insist
from teamrehab.tasks.row_checks import (
    SavedTwiceError,
    Values,
    insist_on_case,
    insist_on_movable,
    insist_on_questions,
    insist_on_row,
    insist_once,
)

__all__ = [
    "SavedTwiceError",
    "move_row",
    "save_morning",
    "save_row",
    "sign_evening",
    "stays_words",
]

_IDS = ("session_id", "test_id", "check_id", "response_id", "remark_id", "flag_id")


def save_row(
    casebook: Casebook,
    history: History,
    values: Values,
    *,
    replaces: Sequence[str] | None = None,
    again: bool = False,
    drops_draft: str = "",
) -> Receipt:
    """Note everything typed in one row, all or none of it; durable before it returns.

    What the person saw of the same session, test or note is replaced, and nothing that came
    since: a retry of the same values is no second entry. Answers to the four questions that
    raise a red flag raise it in the same transaction.

    Args:
        casebook: where it is noted.
        history: the case of the row as the person saw it.
        values: sessions done or missed, tests, four answers, red flags, notes of that case.
        replaces: facts that a correction replaces besides.
        again: a second session of the same evening is meant.
        drops_draft: the place of the draft of this row: it goes with the same transaction.

    Raises:
        SavedTwiceError: the case has another session of that evening.
        ImplausibleError: a value cannot stand; ``found`` names every field.
        RefusedError: a symptom is not accepted without the four questions.
        ReplacedMeanwhileError: what is corrected was corrected or taken back since.
        ValueError: a value of another case, which is our mistake.
    """
    known = casebook.case(history.case.case_id)
    insist_on_case(known, values)
    replaced = _replaced(known, history, values, replaces or ())
    insist_on_row(casebook, known, values)
    insist_on_questions(known, values)
    if not again:
        insist_once(known, values, replaces or ())
    flags = _flags_missing(known, values)
    return casebook.note(*values, *flags, replaces=replaced, drops_draft=drops_draft)


def save_morning(casebook: Casebook, history: History, *values: Any) -> Receipt:
    """Note a morning, with the four answers where they were asked, in one transaction.

    Raises as ``save_row`` does, and asks the same questions.
    """
    return save_row(casebook, history, values)


def move_row(
    casebook: Casebook, fact_ids: Sequence[str], to: History, *, again: bool = False
) -> Receipt:
    """Move what was saved in a wrong row to the case of another athlete, in one step.

    A red flag stays where it was raised: nobody but a named doctor closes it (see
    ``stays_words``). Four answers that raised one raise one for the other athlete too.

    Raises:
        RefusedError: nothing of it may move, it was changed meanwhile, or the other case had
            not begun or had ended (as ImplausibleError), or has a session of that evening
            (as SavedTwiceError).
    """
    there, here = casebook.case(to.case.case_id), _standing_in(casebook, fact_ids)
    moving = insist_on_movable(here, fact_ids)
    values = [_given_to(there, here, fact.value) for fact in moving]
    insist_on_row(casebook, there, values)
    if not again:
        insist_once(there, values, ())
    flags = [replace(flag, flag_id=new_fact_id(casebook.clock)) for flag in _flags(values)]
    return casebook.note(
        *values,
        *flags,
        replaces=[fact.fact_id for fact in moving],
        why=_("Entered for the wrong athlete."),
    )


def _standing_in(casebook: Casebook, fact_ids: Sequence[str]) -> History:
    """Return the open case in which all these facts stand."""
    wanted = set(fact_ids)
    for history in casebook.squad(casebook.clock.today()).open_cases:
        if wanted <= {fact.fact_id for fact in history.facts}:
            return history
    raise RefusedError(
        _("This entry was changed meanwhile: nothing was moved. Look at it again.")
    )


def stays_words(facts: Sequence[Standing[Any]], source: History) -> str:
    """Return what a move leaves behind, to be told beside it; "" where nothing stays."""
    answers = [fact.value for fact in facts if isinstance(fact.value, SafetyCheck)]
    if not any(isinstance(fact.value, RedFlag) for fact in facts) and not _flags(answers):
        return ""
    sentence = _(
        "The red flag of {name} stays open: a named doctor closes it on the athlete's page."
    )
    return sentence.format(name=source.athlete.name)


def sign_evening(casebook: Casebook, signed: EveningSigned) -> Receipt:
    """Note who answers for an evening's entries; signed again, the newer one stands.

    Raises:
        ImplausibleError: nobody's name, or an evening to come.
    """
    insist(casebook.clock.today(), None, signed)
    return casebook.note(signed)


def _flags_missing(known: History, values: Values) -> list[RedFlag]:
    """Return the red flags that four answers raise and that nobody noted yet.

    They carry the id of the answers, so that a second try at saving raises none twice.
    """
    if any(isinstance(value, RedFlag) for value in values):
        return []
    noted = {flag.flag_id for flag in known.of(RedFlag)}
    return [flag for flag in _flags(values) if flag.flag_id not in noted]


def _flags(values: Values) -> list[RedFlag]:
    checks = (value for value in values if isinstance(value, SafetyCheck))
    found = (flag_of(check, check.check_id) for check in checks)
    return [flag for flag in found if flag is not None]


def _replaced(
    known: History, seen: History, values: Values, named: Sequence[str]
) -> tuple[str, ...] | None:
    """Return the facts replaced: those named, and those seen about the same thing as a value.

    None: none is named, and whatever stands about the same thing was seen.
    """
    own = {_own(value) for value in values} - {None}
    same = [fact for fact in known.facts if _own(fact.value) in own]
    seen_ids = {fact.fact_id for fact in seen.facts} | set(named)
    unseen = [f for f in same if f.fact_id not in seen_ids and f.value not in values]
    if unseen or not set(named) <= {fact.fact_id for fact in known.facts}:
        raise ReplacedMeanwhileError
    return (*dict.fromkeys((*named, *(fact.fact_id for fact in same))),) if named else None


def _own(value: Any) -> tuple[str, str] | None:
    """Return what an entry is about: the name of its id and the id, None without one."""
    return next(((name, getattr(value, name)) for name in _IDS if hasattr(value, name)), None)


def _given_to(there: History, here: History, value: Any) -> Any:
    """Return a value as one of another case; what was done as planned follows its plan."""
    case = there.case
    if isinstance(value, SessionEntry) and value.done is Done.AS_PLANNED:
        value = _as_planned_there(value, _plan(here, value), _plan(there, value))
    return replace(value, case_id=case.case_id, athlete_id=case.athlete_id)


def _plan(history: History, session: SessionEntry) -> Plan:
    there = availability_on(session.on, (history,))
    return plan_for(history, protocol_of(history), there, session.on)


def _as_planned_there(session: SessionEntry, here: Plan, there: Plan) -> SessionEntry:
    """Return a session with the other plan in place of what was filled in from this one."""
    filled_in = session.exercises == as_done(here)
    return replace(
        session,
        kind=there.kind if session.kind is here.kind else session.kind,
        minutes=there.minutes if session.minutes == here.minutes else session.minutes,
        exercises=as_done(there) if filled_in else session.exercises,
    )
