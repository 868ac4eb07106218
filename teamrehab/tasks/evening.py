"""What is noted of an evening or a morning: a row in one transaction, or none of it."""

from collections.abc import Sequence
from typing import Any

from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import History
from teamrehab.records import Casebook, Receipt, ReplacedMeanwhileError
from teamrehab.tasks.moving import arrives_words, move_row, stays_words, together
from teamrehab.tasks.refusals import insist
from teamrehab.tasks.row_checks import (
    SavedTwiceError,
    Values,
    flags_missing,
    insist_on_case,
    insist_on_questions,
    insist_on_row,
    insist_once,
)

__all__ = [
    "SavedTwiceError",
    "arrives_words",
    "move_row",
    "save_morning",
    "save_row",
    "sign_evening",
    "stays_words",
    "together",
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
    flags = flags_missing(known, values)
    return casebook.note(*values, *flags, replaces=replaced, drops_draft=drops_draft)


def save_morning(casebook: Casebook, history: History, *values: Any) -> Receipt:
    """Note a morning, with the four answers where they were asked, in one transaction.

    Raises as ``save_row`` does, and asks the same questions.
    """
    return save_row(casebook, history, values)


def sign_evening(casebook: Casebook, signed: EveningSigned) -> Receipt:
    """Note who answers for an evening's entries; signed again, the newer one stands.

    Raises:
        ImplausibleError: nobody's name, or an evening to come.
    """
    insist(casebook.clock.today(), None, signed)
    return casebook.note(signed)


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
