"""No way leads around a stop: not by another case, a signature, an undo or another protocol."""

from dataclasses import replace

import pytest

from teamrehab.domain.availability import Activity, Limit, Match, Training
from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.injuries import (
    Certainty,
    Diagnosis,
    LevelMoved,
    Outcome,
    Scope,
    StageMoved,
)
from teamrehab.domain.ladders import level_of
from teamrehab.domain.measures import FunctionCheck, MorningResponse, Symptom
from teamrehab.protocols import load_protocols
from teamrehab.reports.closing import ProposedKind
from teamrehab.tasks import cases, closing, correcting, examining, undoing
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.refusals import RefusedError
from tests.builders import day, stated
from tests.records import books
from tests.tasks.evening_book import TONIGHT, answers, at, evening_book, ids, save, session
from tests.tasks.holding import (
    FLAG,
    SHARP,
    flagged_beside,
    go,
    lines,
    proposed,
    row,
    sign,
    stops,
)


@pytest.fixture
def book(tmp_path):
    with evening_book(tmp_path / "club") as casebook:
        yield casebook


def test_a_red_flag_of_one_case_stops_the_athletes_other_one_everywhere(book):
    save(book, session(symptom=Symptom(0), limp=False))
    flagged_beside(book)
    assert all(line.stopped for line in lines(book))
    (only,) = proposed(book)
    assert (only.stopped, only.flagged, only.moves) == (True, True, False)
    for act in (
        lambda: go(book, 3),
        lambda: cases.clear(book, book.case("c1"), sign(), why="feels fine"),
        lambda: cases.close_case(book, book.case("c1"), TONIGHT, Outcome.OTHER, why="done"),
    ):
        with pytest.raises(RefusedError, match="red flag"):
            act()
    assert book.case("c1").stage == 2
    assert stops(book, "c2") == ()


def test_a_closed_flag_of_the_other_case_lets_this_one_go_on(book):
    flagged_beside(book)
    (flag,) = book.case("c9").open_red_flags
    cases.close_red_flag(book, flag, "Dr Vale")
    assert stops(book) == ()


def test_a_case_closed_on_one_laptop_shows_the_red_flag_raised_on_the_other(book):
    other = books.OtherLaptop(book)
    cases.clear(book, book.case("c1"), sign(), why="seen by the doctor")
    assert row(book).availability.training is Training.FULL
    book.take_in([other.writes(FLAG)])
    assert row(book).availability.training is Training.NONE
    assert row(book).availability.match is Match.NOT_AVAILABLE
    assert any(line.stopped for line in lines(book))
    assert proposed(book)[0].flagged
    cases.close_red_flag(book, FLAG, "Dr Vale")
    at(book, 15)
    assert row(book).availability.training is Training.FULL


@pytest.mark.parametrize("scope", [Scope.TEAM_TRAINING, Scope.MATCH])
def test_nobody_is_cleared_beside_a_stop_before_the_leg_was_examined(book, scope):
    save(book, session(symptom=SHARP), answers())
    for why in ("", "feels fine"):
        with pytest.raises(RefusedError, match=r"Rehab is stopped.*examine the leg"):
            cases.clear(book, book.case("c1"), sign(scope), why=why)
    with pytest.raises(RefusedError, match="Rehab is stopped"):
        cases.close_case(book, book.case("c1"), TONIGHT, Outcome.OTHER)
    assert book.case("c1").clearances == ()
    at(book, 15)
    found = Examination(examination_id="x", **ids(), on=day(15), walking=Gait.CLEAN)
    examining.note_examination(book, book.case("c1"), (found,))
    signed = replace(sign(scope), on=day(15))
    cases.clear(book, book.case("c1"), signed, why="a cramp, examined")
    assert len(book.case("c1").clearances) == 1


def test_a_stop_that_was_accepted_outlasts_what_had_been_stated_in_advance(book):
    known = book.case("c1")
    limits = {"training": Training.WITH_LIMITS, "limits": (Limit(Activity.SPRINT),)}
    cases.state_availability(book, known, stated(known.case, 14, **limits))
    full = {"training": Training.FULL, "match": Match.AVAILABLE}
    cases.state_availability(book, known, stated(known.case, 17, **full))
    save(book, session(symptom=SHARP), answers())
    stop = proposed(book)[0]
    assert stop.kind is ProposedKind.AVAILABILITY
    assert "stated in advance" in stop.words
    closing.accept(book, book.case("c1"), stop, stop.name)
    assert not proposed(book)[0].value
    for number in (15, 17, 20):
        at(book, number)
        assert row(book).availability.training is Training.NONE


def test_an_examination_with_a_high_symptom_asks_the_four_questions(book):
    found = Examination(examination_id="x", **ids(), on=TONIGHT, walking=Gait.CLEAN)
    seen = FunctionCheck(test_id="f", **ids(), on=TONIGHT, walks_clean=True, symptom=SHARP)
    with pytest.raises(RefusedError, match="four questions"):
        examining.note_examination(book, book.case("c1"), (found, seen))
    assert book.case("c1").of(Examination) == ()
    told = (found, seen, answers(can_push_off=False))
    examining.note_examination(book, book.case("c1"), told)
    assert len(book.case("c1").open_red_flags) == 1


def test_a_step_back_is_not_taken_back_while_rehab_is_stopped(book):
    receipt = go(book, 1)
    save(book, session(symptom=SHARP), answers())
    with pytest.raises(RefusedError, match="Rehab is stopped"):
        undoing.undo(book, receipt)
    history = book.case("c1")
    (back,) = (f for f in history.standing(StageMoved) if f.value.stage == 1)
    with pytest.raises(RefusedError, match="Rehab is stopped"):
        correcting.take_back(book, correcting.fall_together(history, back), "wrong")
    assert book.case("c1").stage == 1


def test_a_move_up_is_taken_back_while_rehab_is_stopped(book):
    receipt = go(book, 3)
    save(book, session(symptom=SHARP), answers())
    undoing.undo(book, receipt)
    assert book.case("c1").stage == 2


def test_another_protocol_begins_at_its_first_stage(book):
    go(book, 4)
    other = load_protocols()["hamstring_strain"]
    found = Diagnosis(
        **ids(), on=TONIGHT, injury=other.injuries[0], certainty=Certainty.WORKING
    )
    cases.diagnose(book, book.case("c1"), found, other)
    assert book.case("c1").stage == 1
    assert protocol_of(book.case("c1")) == other


def test_a_diagnosis_with_the_same_protocol_leaves_the_stage(book):
    known = book.case("c1")
    cases.diagnose(book, known, replace(known.diagnosis, on=TONIGHT), protocol_of(known))
    assert book.case("c1").stage == 2


def test_an_examination_that_found_the_leg_unable_asks_the_four_questions(book):
    found = Examination(examination_id="x", **ids(), on=TONIGHT, resisted_bent=Resisted.UNABLE)
    with pytest.raises(RefusedError, match="Pushing against the hand not possible"):
        examining.note_examination(book, book.case("c1"), (found,))
    examining.note_examination(book, book.case("c1"), (found, answers(can_push_off=False)))
    assert len(book.case("c1").open_red_flags) == 1


def test_a_stop_of_the_morning_begins_on_that_day(book):
    at(book, 15, hour=8)
    woke = MorningResponse(response_id="m", **ids(), on=day(15), symptom=SHARP)
    save(book, woke, answers(on=day(15)))
    known = book.case("c1")
    limits = {"training": Training.WITH_LIMITS, "limits": (Limit(Activity.SPRINT),)}
    cases.state_availability(book, known, stated(known.case, 15, **limits))
    stop = proposed(book, on=day(15))[0]
    closing.accept(book, book.case("c1"), stop, stop.name)
    assert row(book).availability.training is Training.NONE


def test_levels_of_the_protocol_before_count_no_more_and_do_not_come_back(book):
    go(book, 4)
    up = LevelMoved(
        **ids(), on=TONIGHT, ladder="raise_straight", level=3, proposed=1, why="seen"
    )
    closing.move_level(book, book.case("c1"), up)
    tendon = load_protocols()["achilles_tendinopathy"]
    found = Diagnosis(
        **ids(), on=TONIGHT, injury=tendon.injuries[0], certainty=Certainty.WORKING
    )
    at(book, 14, hour=21)
    cases.diagnose(book, book.case("c1"), found, tendon)
    known = book.case("c1")
    ladder = next(one for one in tendon.ladders if one.key == "raise_straight")
    assert (known.stage, level_of(known, ladder)) == (1, 1)
    (back,) = (f for f in known.standing(StageMoved) if f.value.stage == 1)
    with pytest.raises(RefusedError, match="open it anew"):
        correcting.take_back(book, correcting.fall_together(known, back), "oops")
    assert book.case("c1").stage == 1


def test_who_clears_against_open_criteria_says_why(book):
    with pytest.raises(RefusedError, match=r"criteria are open.*type the reason"):
        cases.clear(book, book.case("c1"), sign())
    cases.clear(book, book.case("c1"), sign(), why="agreed with the doctor")
    assert book.case("c1").closed is not None
