"""An examination is written with all that was found along with it, or not at all."""

from collections.abc import Iterator
from typing import Any

from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.history import History
from teamrehab.domain.injuries import RedFlag
from teamrehab.domain.measures import SafetyCheck, Test
from teamrehab.domain.safety import raised_by
from teamrehab.domain.signs import flag_of_signs
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.board import protocol_of
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

    A flag that is not among the values is raised here: no sign is noted without one.

    Raises:
        ImplausibleError: a day on which they cannot have been asked.
    """
    known = casebook.case(history.case.case_id)
    insist(casebook.clock.today(), known, *values)
    return casebook.note(*values, *_flags_of_signs(known, values))


def _flags_of_signs(
    known: History, values: tuple[SignsAsked | RedFlag, ...]
) -> Iterator[RedFlag]:
    protocol = protocol_of(known)
    signs = () if protocol is None else protocol.guidance.signs
    there = [*known.of(RedFlag), *(v for v in values if isinstance(v, RedFlag))]
    for asked in values:
        if isinstance(asked, SignsAsked) and not any(
            raised_by(flag, asked.asked_id) for flag in there
        ):
            flag = flag_of_signs(asked, signs, asked.asked_id)
            yield from () if flag is None else (flag,)
