"""An examination is written with all that was found along with it, or not at all."""

from typing import Any

from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.history import History
from teamrehab.domain.injuries import RedFlag
from teamrehab.domain.measures import SafetyCheck, Test
from teamrehab.domain.signs import SignsAsked
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.refusals import insist
from teamrehab.tasks.row_checks import flags_missing, insist_on_questions

Found = Examination | EarlierInjury | Test | SafetyCheck | RedFlag


def note_examination(
    casebook: Casebook, history: History, values: tuple[Found, ...]
) -> Receipt:
    """Note an examination, the first values of the other leg and earlier injuries, in one go.

    Raises:
        ImplausibleError: any of it cannot stand; nothing is written then.
        RefusedError: a symptom is not accepted without the four questions.
    """
    found: tuple[Any, ...] = values
    known = casebook.case(history.case.case_id)
    insist(casebook.clock.today(), known, *found)
    insist_on_questions(known, found)
    return casebook.note(*found, *flags_missing(known, found))


def note_signs(
    casebook: Casebook, history: History, values: tuple[SignsAsked | RedFlag, ...]
) -> Receipt:
    """Note that the red flags were asked for, and the one that the answers raise, in one go.

    Raises:
        ImplausibleError: a day on which they cannot have been asked.
    """
    insist(casebook.clock.today(), casebook.case(history.case.case_id), *values)
    return casebook.note(*values)
