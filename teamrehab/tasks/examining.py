"""An examination is written with all that was found along with it, or not at all."""

from typing import Any

from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.history import History
from teamrehab.domain.measures import Test
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.refusals import insist

Found = Examination | EarlierInjury | Test


def note_examination(
    casebook: Casebook, history: History, values: tuple[Found, ...]
) -> Receipt:
    """Note an examination, the first values of the other leg and earlier injuries, in one go.

    Raises:
        ImplausibleError: any of it cannot stand; nothing is written then.
    """
    found: tuple[Any, ...] = values
    insist(casebook.clock.today(), history, *found)
    return casebook.note(*found)
