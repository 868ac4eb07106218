"""A save is taken back by a correcting step, and nothing that stood before it is lost."""

from dataclasses import replace

import pytest

from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import SessionEntry, SessionKind
from teamrehab.records import NotUndoneError, ReplacedMeanwhileError
from tests.builders import case
from tests.records.books import OtherLaptop, facts_of, new_book, seen, values
from tests.records.examples import CASE

FIRST = Remark(remark_id="n1", text="slept badly", **CASE)
SECOND = replace(FIRST, text="slept well")
DONE = SessionEntry(session_id="e1", kind=SessionKind.REHAB, effort=4, **CASE)


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def test_a_first_entry_taken_back_is_marked_in_error_and_kept(book):
    receipt = book.note(FIRST)
    book.undo(*receipt.fact_ids, why="wrong row")
    assert values(book, Remark) == []
    assert any(fact.header.id == receipt.fact_ids[0] for fact in facts_of(book))
    assert book.check().troubles == ()


def test_what_a_correction_replaced_stands_again(book):
    book.note(FIRST)
    receipt = book.note(SECOND)
    book.undo(*receipt.fact_ids, why="was right")
    assert values(book, Remark) == [FIRST]


def test_an_entry_withdrawn_stands_again(book):
    (noted,) = book.note(FIRST).fact_ids
    receipt = book.withdraw(noted, why="thought it was wrong")
    book.undo(*receipt.fact_ids, why="was right")
    assert values(book, Remark) == [FIRST]


def test_an_entry_written_over_a_withdrawn_one_leaves_it_withdrawn(book):
    (noted,) = book.note(FIRST).fact_ids
    book.withdraw(noted, why="wrong")
    receipt = book.note(SECOND)
    book.undo(*receipt.fact_ids, why="wrong too")
    assert values(book, Remark) == []


def test_an_entry_moved_to_another_athlete_goes_back(book):
    book.note(case(), case(case_id="c2", athlete_id="a2"))
    (noted,) = book.note(DONE).fact_ids
    moved = replace(DONE, session_id="e2", case_id="c2", athlete_id="a2")
    receipt = book.note(moved, replaces=[noted])
    assert book.case("c1").sessions == ()
    book.undo(*receipt.fact_ids, why="it was the right row")
    assert (book.case("c1").sessions, book.case("c2").sessions) == ((DONE,), ())


def test_several_facts_of_one_save_go_together(book):
    receipt = book.note(FIRST, DONE, SECOND)
    book.undo(*receipt.fact_ids, why="wrong athlete")
    assert (values(book, Remark), values(book, SessionEntry)) == ([], [])


def test_what_was_replaced_since_is_not_taken_back(book):
    receipt = book.note(FIRST)
    book.note(SECOND)
    before = len(facts_of(book))
    with pytest.raises(ReplacedMeanwhileError):
        book.undo(*receipt.fact_ids, why="late")
    assert (values(book, Remark), len(facts_of(book))) == ([SECOND], before)


def test_what_settled_two_versions_is_not_taken_back_by_itself(book):
    book.note(FIRST)
    book.take_in([OtherLaptop(book).writes(replace(FIRST, text="slept elsewhere"))])
    receipt = book.note(SECOND)
    with pytest.raises(NotUndoneError, match="two versions"):
        book.undo(*receipt.fact_ids, why="hasty")
    assert values(book, Remark) == [SECOND]


def test_an_unknown_fact_is_not_taken_back(book):
    with pytest.raises(ReplacedMeanwhileError):
        book.undo("nothing", why="")


def press(book, cancelled, receipt):
    """Take a save back as the window does, one after the other."""
    back = book.undo(*receipt.fact_ids, why="a slip", cancelled=cancelled)
    cancelled |= {*receipt.fact_ids, *back.fact_ids}


def test_one_save_after_the_other_is_taken_back(book):
    cancelled: set[str] = set()
    saves = [book.note(replace(FIRST, text=f"{n}")) for n in range(4)]
    for n in (2, 1, 0):
        press(book, cancelled, saves.pop())
        assert [value.text for value in values(book, Remark)] == [f"{n}"]
    press(book, cancelled, saves.pop())
    assert values(book, Remark) == []


def test_a_second_step_back_leaves_what_the_first_gave_back_elsewhere(book):
    """A correction joined two notes in one; taken back, they are two saves again."""
    cancelled: set[str] = set()
    other = replace(FIRST, remark_id="n2", text="knee tight")
    (theirs,) = book.note(other).fact_ids
    ours = book.note(FIRST)
    joined = book.note(SECOND, replaces=[*ours.fact_ids, theirs])
    press(book, cancelled, joined)
    assert sorted(v.text for v in values(book, Remark)) == ["knee tight", "slept badly"]
    press(book, cancelled, ours)
    assert values(book, Remark) == [other]


def test_a_second_step_back_never_takes_a_colleague_s_entry_for_one_s_own(book):
    """Withdrawn, then written over together with what a colleague wrote: one step is enough."""
    cancelled: set[str] = set()
    (noted,) = book.note(FIRST).fact_ids
    book.take_in([OtherLaptop(book).writes(replace(FIRST, text="slept elsewhere"))])
    mine = book.withdraw(noted, why="wrong")
    press(book, cancelled, book.note(SECOND))
    with pytest.raises(ReplacedMeanwhileError):
        book.undo(*mine.fact_ids, why="a slip", cancelled=cancelled)
    assert [value.text for value in values(book, Remark)] == ["slept elsewhere"]


THEIRS = replace(FIRST, text="slept elsewhere")


def test_what_a_colleague_replaced_as_well_does_not_stand_again_beside_their_word(book):
    (noted,) = book.note(FIRST).fact_ids
    receipt = book.note(SECOND)
    book.take_in([OtherLaptop(book).writes(THEIRS, (seen(book, noted),))])
    book.undo(*receipt.fact_ids, why="the colleague knew better")
    assert [(fact.value, fact.versions) for fact in book.all_of(Remark)] == [(THEIRS, 1)]


def test_a_withdrawal_is_not_taken_back_alone_where_a_colleague_withdrew_it_too(book):
    (noted,) = book.note(FIRST).fact_ids
    known = seen(book, noted)
    receipt = book.withdraw(noted, why="wrong")
    book.take_in([OtherLaptop(book).withdraws(known)])
    with pytest.raises(ReplacedMeanwhileError):
        book.undo(*receipt.fact_ids, why="was right")
    assert values(book, Remark) == []


def test_what_settled_a_value_and_an_unseen_withdrawal_is_not_taken_back_by_itself(book):
    (noted,) = book.note(FIRST).fact_ids
    known = seen(book, noted)
    book.note(SECOND)
    book.take_in([OtherLaptop(book).withdraws(known)])
    assert [fact.versions for fact in book.all_of(Remark)] == [2]
    receipt = book.note(THEIRS)
    with pytest.raises(NotUndoneError):
        book.undo(*receipt.fact_ids, why="hasty")
    assert values(book, Remark) == [THEIRS]


def test_what_replaced_an_erased_entry_is_not_taken_back(book):
    (noted,) = book.note(FIRST).fact_ids
    receipt = book.note(SECOND)
    book.erase(noted, "the athlete's lawful wish")
    with pytest.raises(NotUndoneError):
        book.undo(*receipt.fact_ids, why="a slip")
    assert values(book, Remark) == [SECOND]


def test_an_erasure_is_for_good(book):
    (noted,) = book.note(FIRST).fact_ids
    receipt = book.erase(noted, "the athlete's lawful wish")
    with pytest.raises(NotUndoneError, match="for good"):
        book.undo(*receipt.fact_ids, why="a slip")
