"""The last save is taken back; a red flag, its case and a sheet that went out stay."""

from dataclasses import replace
from datetime import datetime, time
from typing import Any

import pytest

from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.injuries import Case, Clearance, RedFlag, Scope, Side, Urgency
from teamrehab.domain.measures import SafetyCheck, SessionEntry, SessionKind, Symptom
from teamrehab.domain.sheets import SheetIssued
from teamrehab.records import ReplacedMeanwhileError
from teamrehab.tasks.cases import clear
from teamrehab.tasks.refusals import RefusedError
from teamrehab.tasks.undoing import undo
from tests.builders import ONSET, athlete, case, clock, day, stated
from tests.records.books import new_book, values

OURS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1", "on": day(3)}
DONE = SessionEntry(session_id="e1", kind=SessionKind.REHAB, symptom=Symptom(6), **OURS)
ASKED = SafetyCheck(
    check_id="q1",
    same_spot=True,
    swollen_or_warm=True,
    can_push_off=True,
    chest_or_breath=False,
    **OURS,
)
FLAG = RedFlag(flag_id="r1", what="swollen and warm", urgency=Urgency.SAME_DAY, **OURS)


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book", clock(day(3))) as book:
        yield book


def test_a_row_is_taken_back_and_the_red_flag_it_raised_stays(book):
    book.note(athlete(), case())
    receipt = book.note(DONE, ASKED, FLAG)
    undo(book, receipt)
    assert (values(book, SessionEntry), values(book, SafetyCheck)) == ([], [])
    assert book.case("c1").open_red_flags == (FLAG,)


def test_a_red_flag_alone_is_never_taken_back(book):
    book.note(athlete(), case())
    receipt = book.note(FLAG)
    with pytest.raises(RefusedError, match="named doctor"):
        undo(book, receipt)
    assert values(book, RedFlag) == [FLAG]


def test_a_case_with_an_open_red_flag_is_not_taken_back(book):
    receipt = book.note(athlete(), case())
    book.note(FLAG)
    with pytest.raises(RefusedError, match="named doctor"):
        undo(book, receipt)
    assert len(values(book, Case)) == 1


def test_a_closed_red_flag_opens_again(book):
    book.note(athlete(), case(), FLAG)
    closed = RedFlag(
        flag_id="r1",
        what="swollen and warm",
        urgency=Urgency.SAME_DAY,
        closed_on=day(3),
        closed_by="Dr Vale",
        **OURS,
    )
    receipt = book.note(closed)
    undo(book, receipt)
    assert book.case("c1").open_red_flags == (FLAG,)


def test_a_sheet_that_went_out_is_not_taken_back(book):
    receipt = book.note(SheetIssued(number=1, on=ONSET, signed="Kim Vale", lines=()))
    with pytest.raises(RefusedError, match="new one"):
        undo(book, receipt)
    assert len(values(book, SheetIssued)) == 1


def test_a_case_begun_by_mistake_goes_with_all_that_was_said_at_its_onset(book):
    begun = case(reassess_on=datetime.combine(day(2), time(12)))
    book.note(athlete())
    receipt = book.note(begun)
    undo(book, receipt)
    assert values(book, Case) == []


def test_a_case_of_which_more_was_written_since_is_not_taken_back(book):
    book.note(athlete())
    begun = book.note(case(), stated(case()))
    later = book.note(DONE)
    with pytest.raises(RefusedError, match=r"More was written about Sam Okafor"):
        undo(book, begun)
    assert book.case("c1").sessions == (DONE,)
    back = undo(book, later)
    undo(book, begun, {*later.fact_ids, *back.fact_ids})
    assert values(book, Case) == []


def test_a_correction_of_a_case_is_taken_back_whatever_stands_beside_it(book):
    book.note(athlete())
    book.note(case(), stated(case()))
    corrected = [book.note(case(side=side)) for side in (Side.RIGHT, Side.BOTH)]
    book.note(DONE)
    cancelled: set[str] = set()
    for receipt, side in zip(reversed(corrected), (Side.RIGHT, Side.LEFT), strict=True):
        back = undo(book, receipt, cancelled)
        cancelled |= {*receipt.fact_ids, *back.fact_ids}
        assert [one.side for one in values(book, Case)] == [side]
    assert book.case("c1").sessions == (DONE,)


def test_a_signature_goes_with_all_it_opened_and_what_it_ended(book):
    out = stated(case())
    book.note(athlete(), case(), out, replace(out, on=day(3)))
    signed = Clearance(scope=Scope.MATCH, signed_by="Kim Vale", **OURS)
    receipt = clear(book, book.case("c1"), signed)
    assert book.squad(day(3)).open_cases == ()
    undo(book, receipt)
    (again,) = book.squad(day(3)).open_cases
    assert (again.clearances, again.of(AvailabilityStated)) == (
        (),
        (out, replace(out, on=day(3))),
    )


def test_a_signature_whose_availability_was_stated_anew_is_left_as_a_whole(book):
    book.note(athlete(), case(), stated(case()))
    signed = Clearance(scope=Scope.TEAM_TRAINING, signed_by="Kim Vale", **OURS)
    receipt = clear(book, book.case("c1"), signed)
    book.note(stated(case(), 3))
    with pytest.raises(ReplacedMeanwhileError):
        undo(book, receipt)
    assert book.case("c1").clearances == (signed,)
