"""What was entered in error can be listed, with who said so, when and why."""

from dataclasses import replace

import pytest

from teamrehab.domain.history import Erased
from teamrehab.domain.injuries import Diagnosis
from tests.builders import case
from tests.records.books import OtherLaptop, new_book, seen
from tests.records.examples import CASE

FIRST = Diagnosis(injury="calf", **CASE)


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def listed(book):
    return [(one.value, one.why) for one in book.withdrawn("c1")]


def test_an_entry_withdrawn_is_listed_with_the_word_of_who_withdrew_it(book):
    noted = book.note(FIRST, Diagnosis(injury="ankle", **(CASE | {"case_id": "c2"})))
    receipt = book.withdraw(*noted.fact_ids, why="the other leg")
    (one,) = book.withdrawn("c1")
    assert (one.fact_id, one.value, one.why) == (noted.fact_ids[0], FIRST, "the other leg")
    assert (one.author, one.withdrawn_at) == ("s1", receipt.noted_at)


def test_nothing_is_listed_of_what_stands_or_was_corrected(book):
    book.note(case(), FIRST)
    book.note(replace(FIRST, grade=2))
    assert listed(book) == []


def test_an_entry_written_after_it_leaves_it_on_the_list(book):
    book.withdraw(*book.note(FIRST).fact_ids, why="misread")
    book.note(replace(FIRST, injury="achilles"))
    assert listed(book) == [(FIRST, "misread")]


def test_what_was_undone_is_listed_and_what_came_back_is_not(book):
    receipt = book.withdraw(*book.note(FIRST).fact_ids, why="misread")
    back = book.undo(*receipt.fact_ids, why="it was right")
    assert listed(book) == []
    book.withdraw(*back.fact_ids, why="after all")
    assert listed(book) == [(FIRST, "after all")]


def test_a_colleague_s_withdrawal_is_listed_and_an_erased_body_is_not_told(book):
    (noted,) = book.note(FIRST).fact_ids
    book.take_in([OtherLaptop(book).withdraws(seen(book, noted))])
    assert [one.author for one in book.withdrawn("c1")] == ["s2"]
    book.erase(noted, "the athlete's lawful wish")
    assert [type(one.value) for one in book.withdrawn("c1")] == [Erased]
