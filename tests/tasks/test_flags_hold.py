"""Whatever the answers were: a red flag is raised, kept and closed by a doctor only."""

from dataclasses import replace

import pytest

from teamrehab.domain.availability import Match, Training
from teamrehab.domain.injuries import (
    RedFlag,
    Urgency,
)
from teamrehab.domain.measures import Symptom
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.tasks import cases, closing, correcting, examining
from teamrehab.tasks.board import squad_board
from teamrehab.tasks.refusals import RefusedError
from tests.builders import day, stated
from tests.records import books
from tests.tasks.evening_book import TONIGHT, answers, at, evening_book, ids, save, session
from tests.tasks.holding import (
    FLAG,
    SHARP,
    row,
    sign,
    stops,
)


@pytest.fixture
def book(tmp_path):
    with evening_book(tmp_path / "club") as casebook:
        yield casebook


def test_corrected_answers_that_are_an_emergency_make_the_flag_one(book):
    save(book, session(symptom=SHARP), answers(swollen_or_warm=True))
    save(book, answers(swollen_or_warm=True, chest_or_breath=True))
    (flag,) = book.case("c1").open_red_flags
    assert flag.urgency is Urgency.EMERGENCY
    save(book, answers(swollen_or_warm=True))
    assert book.case("c1").open_red_flags == (flag,)


def test_corrected_answers_raise_a_new_flag_where_a_doctor_closed_the_earlier_one(book):
    save(book, session(symptom=SHARP), answers(swollen_or_warm=True))
    (flag,) = book.case("c1").open_red_flags
    cases.close_red_flag(book, flag, "Dr Vale")
    save(book, answers(swollen_or_warm=True, same_spot=False))
    assert book.case("c1").open_red_flags == ()
    worse = answers(swollen_or_warm=True, chest_or_breath=True)
    save(book, worse)
    (anew,) = book.case("c1").open_red_flags
    assert anew.urgency is Urgency.EMERGENCY
    save(book, worse)
    assert book.case("c1").open_red_flags == (anew,)


def test_answers_that_no_flag_speaks_for_say_emergency_themselves(book):
    save(book, session(symptom=SHARP), answers(swollen_or_warm=True))
    (flag,) = book.case("c1").open_red_flags
    cases.close_red_flag(book, flag, "Dr Vale")
    book.note(answers(chest_or_breath=True))
    assert "Call emergency medical care now" in " ".join(stops(book))


def test_chest_pain_again_after_a_doctor_closed_the_first_flag_is_a_new_flag(book):
    save(book, session(symptom=Symptom(5)), answers(chest_or_breath=True))
    (flag,) = book.case("c1").open_red_flags
    cases.close_red_flag(book, flag, "Dr Vale")
    again = answers(check_id="again", chest_or_breath=True)
    save(book, session(nth=2, symptom=Symptom(6)), again, again=True)
    (anew,) = book.case("c1").open_red_flags
    assert anew.urgency is Urgency.EMERGENCY
    with pytest.raises(RefusedError, match="red flag"):
        cases.clear(book, book.case("c1"), sign(), why="feels fine")


def test_urgent_answers_that_arrive_without_their_flag_refuse_a_clearance(book):
    other = books.OtherLaptop(book)
    book.take_in([other.writes(answers(chest_or_breath=True))])
    with pytest.raises(RefusedError, match="none is noted"):
        cases.clear(book, book.case("c1"), sign(), why="feels fine")
    cases.raise_red_flag(book, book.case("c1"), FLAG)
    cases.close_red_flag(book, FLAG, "Dr Vale")
    assert not any("Call emergency" in why for why in stops(book))


def test_a_sign_that_was_seen_raises_its_flag_in_the_same_transaction(book):
    seen = SignsAsked(asked_id="w", **ids(), on=TONIGHT, asked=("clot",), seen=("clot",))
    examining.note_signs(book, book.case("c1"), (seen,))
    (flag,) = book.case("c1").open_red_flags
    assert flag.urgency is Urgency.SAME_DAY
    book.note(replace(seen, asked_id="w2", **ids("c2")))
    assert "none is noted" in " ".join(stops(book, "c2"))


def test_an_emergency_of_this_morning_stands_first_when_last_evening_is_closed(book):
    cases.raise_red_flag(
        book, book.case("c2"), replace(FLAG, **ids("c2"), urgency=Urgency.SAME_DAY)
    )
    at(book, 15, hour=8)
    cases.raise_red_flag(book, book.case("c1"), replace(FLAG, flag_id="r1", on=day(15)))
    board = squad_board(book, day(15))
    first, second = closing.evening_end(board, TONIGHT)[0][:2]
    assert (first.case_id, first.flagged, second.case_id) == ("c1", True, "c2")


def test_that_a_doctor_closed_a_flag_is_not_taken_back_and_the_way_is_said(book):
    cases.raise_red_flag(book, book.case("c1"), FLAG)
    cases.close_red_flag(book, FLAG, "Dr Vale")
    known = book.case("c1")
    (closed,) = known.standing(RedFlag)
    with pytest.raises(RefusedError, match="raise the red flag again"):
        correcting.take_back(book, correcting.fall_together(known, closed), "oops")


def test_nothing_is_stated_beside_an_open_flag_that_would_count_once_it_is_closed(book):
    cases.raise_red_flag(book, book.case("c1"), FLAG)
    known = book.case("c1")
    full = stated(known.case, 14, training=Training.FULL, match=Match.AVAILABLE)
    with pytest.raises(RefusedError, match="red flag is open"):
        cases.state_availability(book, known, full)
    cases.state_availability(book, known, stated(known.case, 14))
    cases.close_red_flag(book, FLAG, "Dr Vale")
    assert row(book).availability.training is Training.NONE
