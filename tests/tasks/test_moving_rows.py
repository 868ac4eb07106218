"""A row of the wrong athlete moves to another in one step, or stays whole where it is."""

from dataclasses import replace

import pytest

from teamrehab.domain.deciding import situation_of
from teamrehab.domain.injuries import CaseClosed, LevelMoved, RedFlag, Remark, Urgency
from teamrehab.domain.ladders import worked
from teamrehab.domain.measures import (
    Done,
    Feeling,
    MorningResponse,
    SafetyCheck,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.plans import as_done
from teamrehab.domain.stops import stop_reasons
from teamrehab.protocols import load_protocols
from teamrehab.tasks import evening
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
from tests.builders import day
from tests.tasks.evening_book import (
    TONIGHT,
    after_reopening,
    answers,
    at,
    entered,
    evening_book,
    ids,
    missed,
    plan_of,
    save,
    session,
)

BAD = Symptom(5)


@pytest.fixture
def book(tmp_path):
    with evening_book(tmp_path / "club") as casebook:
        yield casebook


def move(book, facts, case_id):
    return evening.move_row(book, [fact.fact_id for fact in facts], book.case(case_id))


def test_a_row_of_the_wrong_athlete_moves_whole_in_one_step(book):
    note = Remark(remark_id="n", **ids(), on=TONIGHT, text="slept badly")
    receipt = save(book, session(symptom=BAD), answers(), note)
    facts = [f for f in book.case("c1").facts if f.fact_id in receipt.fact_ids]
    move(book, facts, "c2")
    moved = [replace(fact.value, **ids("c2")) for fact in facts]
    assert evening.stays_words(facts, book.case("c1")) == ""
    assert entered(book.case("c1")) == []
    assert book.case("c1").of(Remark) == ()
    history = after_reopening(book, "c2")
    assert [f.value for f in history.facts if f.value in moved] == moved
    assert all(fact.versions == 1 for fact in history.facts)


@pytest.mark.parametrize("done", [Done.AS_PLANNED, Done.PARTLY, Done.MORE])
def test_a_move_writes_no_exercise_and_no_minutes_that_nobody_saw_there(book, done):
    higher = LevelMoved(**ids("c2"), on=day(9), ladder="raise_straight", level=2, proposed=2)
    book.note(higher)
    here = plan_of(book, "c1")
    assert here.exercises
    assert here.minutes
    save(book, session(done=done, minutes=here.minutes, exercises=as_done(here), effort=6))
    facts = list(book.case("c1").standing(SessionEntry))
    assert "What Sam Adeyemi did" in evening.arrives_words(facts, book.case("c2"))
    move(book, facts, "c2")
    (moved,) = entered(book.case("c2"))
    filled_in = done is Done.AS_PLANNED
    assert (moved.done, moved.exercises, moved.effort) == (None, (), 6)
    assert moved.minutes == (None if filled_in else here.minutes)
    protocol = load_protocols()["calf_strain"]
    assert not any(list(worked(book.case("c2"), protocol, x)) for x in protocol.ladders)


def test_minutes_that_were_typed_and_what_was_seen_of_the_leg_go_along(book):
    typed = session(done=Done.AS_PLANNED, minutes=23, limp=False, painkiller=True)
    save(book, replace(typed, kind=SessionKind.TEAM_WITH_LIMITS))
    move(book, book.case("c1").standing(SessionEntry), "c3")
    kept = replace(typed, **ids("c3"), kind=SessionKind.TEAM_WITH_LIMITS, done=None)
    assert entered(book.case("c3")) == [kept]


def test_a_move_to_an_athlete_who_is_stopped_says_so(book):
    flag = RedFlag(flag_id="f", **ids("c2"), on=day(13), what="warm", urgency=Urgency.SAME_DAY)
    book.note(flag)
    save(book, session())
    facts = list(book.case("c1").standing(SessionEntry))
    assert evening.arrives_words(facts, book.case("c3")) == ""
    assert "Sam Adeyemi is stopped: Open red flag" in evening.arrives_words(
        facts, book.case("c2")
    )


def test_a_sharp_symptom_reaches_the_other_athlete_only_with_the_four_answers(book):
    save(book, session(symptom=Symptom(7, Feeling.SHARP)), answers())
    (alone,) = book.case("c1").standing(SessionEntry)
    with pytest.raises(RefusedError, match="sharp"):
        move(book, [alone], "c2")
    assert entered(book.case("c2")) == []
    told = answers("c2", can_push_off=False)
    evening.move_row(book, [alone.fact_id], book.case("c2"), answered=[told])
    history = book.case("c2")
    assert history.of(SafetyCheck) == (told,)
    assert len(history.open_red_flags) == 1
    assert stop_reasons(situation_of(history, protocol_of(history), day(15)))


def test_the_answers_and_the_note_move_with_a_session_that_was_corrected(book):
    note = Remark(remark_id="n", **ids(), on=TONIGHT, text="slept badly")
    morning = MorningResponse(response_id="m", **ids(), on=TONIGHT, symptom=BAD)
    evening.save_morning(at(book, 14, hour=8), book.case("c1"), morning, answers(check_id="qm"))
    at(book, 14, hour=19).note(replace(note, remark_id="n0", text="new shoes"))
    sharp = session(symptom=Symptom(7, Feeling.SHARP), limp=True)
    save(at(book, 14, hour=20), sharp, answers(), note)
    save(at(book, 14, hour=21), replace(sharp, effort=8))
    (corrected,) = book.case("c1").standing(SessionEntry)
    facts = evening.together(book.case("c1"), corrected)
    assert [fact.value for fact in facts] == [answers(), note, corrected.value]
    move(book, facts, "c2")
    assert entered(book.case("c1")) == [answers(check_id="qm")]
    assert len(entered(book.case("c2"))) == 2


def test_a_second_session_of_the_evening_keeps_its_own_answers(book):
    save(at(book, 14, hour=17), session(symptom=BAD), answers(check_id="q1"))
    save(at(book, 14, hour=20), session(nth=2, symptom=BAD), answers(), again=True)
    first, second = book.case("c1").standing(SessionEntry)
    for fact, check_id in ((first, "q1"), (second, "qc1")):
        values = {one.value for one in evening.together(book.case("c1"), fact)}
        assert values == {fact.value, answers(check_id=check_id)}


def test_a_red_flag_stays_where_it_was_raised_and_is_raised_for_the_other_too(book):
    receipt = save(book, session(symptom=BAD), answers(swollen_or_warm=True))
    facts = [f for f in book.case("c1").facts if f.fact_id in receipt.fact_ids]
    assert "Sam Okafor stays open" in evening.stays_words(facts, book.case("c1"))
    move(book, facts, "c2")
    flags = [book.case(c).open_red_flags for c in ("c1", "c2")]
    assert [len(each) for each in flags] == [1, 1]
    assert book.case("c1").of(SafetyCheck) == ()
    only = list(book.case("c2").standing(RedFlag))
    with pytest.raises(RefusedError, match="never moves"):
        move(book, only, "c1")


def test_nothing_moves_to_a_case_that_had_ended_or_has_an_entry(book):
    save(book, session())
    (fact,) = book.case("c1").standing(SessionEntry)
    save(book, missed("c2"), case_id="c2")
    with pytest.raises(evening.SavedTwiceError):
        move(book, [fact], "c2")
    book.note(CaseClosed(**ids("c2"), on=day(12)))
    with pytest.raises(ImplausibleError, match="closed"):
        move(book, [fact], "c2")
    assert book.case("c1").sessions == (fact.value,)


def test_neither_a_decision_nor_an_entry_changed_meanwhile_moves(book):
    save(book, session())
    old = list(book.case("c1").standing(SessionEntry))
    save(book, session(effort=5))
    with pytest.raises(RefusedError, match="changed meanwhile"):
        move(book, old, "c2")
    level = LevelMoved(**ids(), on=TONIGHT, ladder="raise_straight", level=2, proposed=2)
    book.note(level)
    decided = list(book.case("c1").standing(LevelMoved))
    with pytest.raises(RefusedError, match="decision"):
        move(book, decided, "c2")
