"""A row of the wrong athlete moves to another in one step, or stays whole where it is."""

from dataclasses import replace

import pytest

from teamrehab.domain.injuries import (
    CaseClosed,
    LevelMoved,
    RedFlag,
    Remark,
)
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    SafetyCheck,
    SessionEntry,
    Symptom,
)
from teamrehab.domain.plans import as_done
from teamrehab.tasks import evening
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
from tests.builders import day
from tests.tasks.evening_book import (
    TONIGHT,
    after_reopening,
    answers,
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


def test_a_session_as_planned_follows_the_plan_of_the_athlete_it_moves_to(book):
    higher = LevelMoved(**ids("c2"), on=day(9), ladder="raise_straight", level=2, proposed=2)
    book.note(higher)
    here, there = plan_of(book, "c1"), plan_of(book, "c2")
    done = session(done=Done.AS_PLANNED, minutes=here.minutes, exercises=as_done(here))
    save(book, done)
    (fact,) = book.case("c1").standing(SessionEntry)
    move(book, [fact], "c2")
    (moved,) = entered(book.case("c2"))
    assert moved.exercises == as_done(there) != done.exercises
    ill = [next(book.case("c2").standing(SessionEntry))]
    move(book, ill, "c3")
    assert entered(book.case("c3")) == [
        replace(done, **ids("c3"), exercises=(), minutes=None),
    ]


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


def test_nothing_moves_to_a_case_that_had_ended_or_has_an_entry_or_lacks_the_level(book):
    hard = ExerciseDone(exercise="raise_straight", level=2, sets=2)
    book.note(LevelMoved(**ids(), on=day(9), ladder="raise_straight", level=2, proposed=2))
    save(book, session(done=Done.PARTLY, exercises=(hard,)))
    (fact,) = book.case("c1").standing(SessionEntry)

    with pytest.raises(ImplausibleError, match="highest reached"):
        move(book, [fact], "c2")
    book.note(LevelMoved(**ids("c2"), on=day(9), ladder="raise_straight", level=2, proposed=2))
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
