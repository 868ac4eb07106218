"""The last save is taken back, as a correcting entry; what protects an athlete stays."""

from collections.abc import Collection
from typing import Any

from teamrehab.domain.injuries import Case, RedFlag
from teamrehab.domain.sheets import SheetIssued
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.going_up import insist_goes_no_higher
from teamrehab.tasks.refusals import RefusedError


def undo(casebook: Casebook, receipt: Receipt, cancelled: Collection[str] = ()) -> Receipt:
    """Take one save back: what stood before it stands again, nothing is deleted.

    A red flag that was raised in it stays (``stays_words``), and so does the case it is about.

    ``cancelled`` are the facts of later saves taken back before, and of those steps.

    Raises:
        RefusedError: it raised a red flag and nothing else, began a case with an open red
            flag or one of which more was written since, or issued a sheet; or the case would
            stand higher again while rehab is stopped.
        ReplacedMeanwhileError, NotUndoneError: somebody wrote about the same since.
    """
    values = dict(zip(receipt.fact_ids, casebook.values_of(*receipt.fact_ids), strict=True))
    if any(isinstance(value, SheetIssued) for value in values.values()):
        raise RefusedError(
            _("A sheet that went out is not taken back: issue a new one, it replaces it.")
        )
    left = [fact_id for fact_id, value in values.items() if not _raises_flag(value)]
    if not left or _under_a_flag(casebook, values.values()):
        raise RefusedError(
            _("A red flag is never taken back: a named doctor closes it. Close it first.")
        )
    insist_goes_no_higher(casebook, receipt.fact_ids, values.values())
    known = {*receipt.fact_ids, *cancelled}
    for case in (value for value in values.values() if isinstance(value, Case)):
        _insist_on_nothing_since(casebook, receipt, case, known)
    return casebook.undo(*left, why=_("taken back at once"), cancelled=cancelled)


def stays_words(casebook: Casebook, receipt: Receipt) -> str:
    """Return what of a save is not taken back with it, to be told; "" where nothing stays."""
    if not any(map(_raises_flag, casebook.values_of(*receipt.fact_ids))):
        return ""
    return _(
        "The red flag of this save stays open: it is never taken back, a named doctor closes"
        " it. Everything else of the save was taken back."
    )


def _raises_flag(value: Any) -> bool:
    return isinstance(value, RedFlag) and value.closed is None


def _under_a_flag(casebook: Casebook, values: Any) -> bool:
    """Return whether a case would go whose red flag is open."""
    begun = [value.case_id for value in values if isinstance(value, Case)]
    return any(casebook.case(case_id).open_red_flags for case_id in begun)


def _insist_on_nothing_since(
    casebook: Casebook, receipt: Receipt, case: Case, known: Collection[str]
) -> None:
    """Raise RefusedError if facts of the case would be left that nobody can read without it.

    Where something of the case is older than the save, the save corrected the case and did not
    begin it: an earlier version comes back.
    """
    history = casebook.case(case.case_id)
    others = [fact for fact in history.facts if fact.fact_id not in known]
    if others and all(fact.stamp > receipt.stamp for fact in others):
        sentence = _(
            "More was written about {name} since: without the case nobody could read it. Take"
            " that back first."
        )
        raise RefusedError(sentence.format(name=history.athlete.name))
