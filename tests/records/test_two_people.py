"""Two people write about one athlete on one day, unseen by each other: nothing is lost."""

from dataclasses import replace

import pytest

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.combining import availability_on
from teamrehab.domain.load import session_load
from teamrehab.domain.measures import (
    Feeling,
    MorningResponse,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from tests.builders import athlete, case, day
from tests.records.books import OtherLaptop, new_book, reopened
from tests.records.examples import CASE, EXAMPLES

GYM = SessionEntry(session_id="e1", kind=SessionKind.REHAB, effort=4, minutes=40, **CASE)
PITCH = SessionEntry(session_id="e2", kind=SessionKind.REHAB, effort=6, minutes=25, **CASE)
CALM = MorningResponse(response_id="m1", symptom=Symptom(1), **CASE)
SORE = MorningResponse(response_id="m2", symptom=Symptom(4, Feeling.PAIN), **CASE)


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        book.note(athlete(), case())
        yield book


def stand_in(book, kind):
    """Return the values of a kind and their versions, as they are after closing once more."""
    with reopened(book) as again:
        return [(fact.value, fact.versions) for fact in again.case("c1").standing(kind)]


@pytest.mark.parametrize(("ours", "theirs"), [(GYM, PITCH), (CALM, SORE)])
def test_two_entries_of_one_athlete_and_day_both_stand_and_are_no_versions(book, ours, theirs):
    book.note(ours)
    book.take_in([OtherLaptop(book).writes(theirs)])
    stood = stand_in(book, type(ours))
    assert len(stood) == 2
    assert all((value, 1) in stood for value in (ours, theirs))


def test_two_sessions_of_one_day_both_count_for_its_load(book):
    book.note(GYM)
    book.take_in([OtherLaptop(book).writes(PITCH)])
    loads = [session_load(s.effort, s.minutes) for s in book.case("c1").of(SessionEntry)]
    assert sorted(filter(None, loads)) == [6 * 25, 4 * 40]


def test_a_correction_of_one_s_own_entry_leaves_the_colleague_s_alone(book):
    (noted,) = book.note(GYM).fact_ids
    book.take_in([OtherLaptop(book).writes(PITCH)])
    receipt = book.note(replace(GYM, effort=5), replaces=[noted])
    assert efforts(book) == {"e1": 5, "e2": 6}
    book.undo(*receipt.fact_ids, why="it was four")
    assert efforts(book) == {"e1": 4, "e2": 6}


def efforts(book):
    return {session.session_id: session.effort for session in book.case("c1").of(SessionEntry)}


def test_done_and_missed_of_one_session_are_two_versions_until_settled(book):
    book.note(GYM)
    missed = replace(EXAMPLES[SessionMissed][0], session_id="e1")
    book.take_in([OtherLaptop(book).writes(missed)])
    assert {fact.versions for fact in book.case("c1").facts if fact.value in (GYM, missed)} == {
        2
    }
    book.note(missed)
    assert stand_in(book, SessionMissed) == [(missed, 1)]


@pytest.mark.parametrize("kind", [AvailabilityStated, MorningResponse])
def test_what_has_one_place_a_case_stands_in_two_versions(book, kind):
    first, second = EXAMPLES[kind]
    book.note(first)
    book.take_in([OtherLaptop(book).writes(second)])
    stood = stand_in(book, kind)
    assert len(stood) == 2
    assert all((value, 2) in stood for value in (first, second))


def test_until_two_statements_are_settled_the_more_restrictive_one_counts(book):
    full, none = (
        AvailabilityStated(training=training, match=Match.NOT_AVAILABLE, **CASE)
        for training in (Training.FULL, Training.NONE)
    )
    receipt = book.note(full)
    book.take_in([OtherLaptop(book).writes(none)])
    assert availability_on(day(3), [book.case("c1")]).training is Training.NONE
    book.undo(*receipt.fact_ids, why="the colleague knew better")
    assert stand_in(book, AvailabilityStated) == [(none, 1)]
