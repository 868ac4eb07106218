"""The header, its hash and chain, the stamps, the ids, and the guards on the tables."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from uuid import UUID

import pytest
import sqlcipher3.dbapi2 as driver
from hypothesis import given, settings
from hypothesis import strategies as st

from teamrehab.domain.days import Clock
from teamrehab.domain.injuries import Case, Remark
from teamrehab.records import new_fact_id
from teamrehab.records.facts import sealed
from teamrehab.records.marks import Erasure
from teamrehab.records.stamps import Stamp, milliseconds, next_stamp, read_stamp
from tests.builders import ONSET, case, clock, day
from tests.records.books import OtherLaptop, facts_of, new_book, reopened, seen, tamper, values
from tests.records.examples import CASE


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def remark(number, text="rested"):
    return Remark(remark_id=f"n{number}", text=text, **CASE)


# --- ids: RFC 9562, section 5.7 and the test vector of its appendix A.6

RFC_EXAMPLE = UUID("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")
RFC_INSTANT = datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC)


def test_an_id_begins_with_the_same_instant_as_the_standard_s_own_example():
    ours = UUID(new_fact_id(Clock(lambda: RFC_INSTANT)))
    assert ours.int >> 80 == RFC_EXAMPLE.int >> 80 == 0x017F22E279B0
    assert ours != RFC_EXAMPLE


@given(st.integers(1, 1 << 37))
def test_an_id_has_the_standard_s_version_variant_and_milliseconds(seconds):
    instant = datetime.fromtimestamp(seconds, UTC)
    ours = UUID(new_fact_id(Clock(lambda: instant)))
    assert (ours.int >> 76 & 0xF, ours.int >> 62 & 0b11) == (7, 0b10)
    assert ours.int >> 80 == milliseconds(instant)


def test_ids_of_one_instant_differ():
    assert len({new_fact_id(clock()) for _ in range(2000)}) == 2000


# --- stamps

stamps = st.builds(Stamp, st.integers(0, 10**13 - 2), st.integers(0, 9999), st.just("d"))
instants = st.floats(0, 2**33).map(lambda seconds: datetime.fromtimestamp(seconds, UTC))


@given(stamps, instants, st.lists(stamps, max_size=3))
def test_a_stamp_is_later_than_all_its_writer_has_seen_whatever_the_clocks(
    own, now, superseded
):
    stamp = next_stamp(own, now, superseded)
    earlier = [own, *superseded]
    assert all(str(stamp) > str(other) for other in earlier)
    assert stamp.wall_ms >= milliseconds(now)
    assert read_stamp(str(stamp)) == stamp


def test_a_correction_follows_what_it_corrects_though_that_clock_ran_a_year_ahead(book):
    ahead = clock(ONSET + timedelta(days=365))
    theirs = OtherLaptop(book, ahead).writes(remark(1))
    taken = book.take_in([theirs])
    (ours,) = book.note(remark(1, "slept"), replaces=[theirs.header.id]).fact_ids
    assert taken.clocks_ahead == ("another",)
    assert seen(book, ours).stamp > theirs.header.stamp


def test_a_peer_in_a_far_year_does_not_drag_our_other_entries_along(book):
    book.take_in([OtherLaptop(book, clock(ONSET + timedelta(days=1900))).writes(remark(1))])
    book = reopened(book)
    (ours,) = book.note(remark(2)).fact_ids
    assert read_stamp(seen(book, ours).stamp).wall_ms == milliseconds(book.clock.instant())
    book.close()


def test_a_peer_some_minutes_ahead_moves_our_clock_on_also_after_reopening(book):
    soon = Clock(lambda: book.clock.instant() + timedelta(minutes=9))
    theirs = OtherLaptop(book, soon).writes(remark(1))
    book.take_in([theirs])
    book = reopened(book)
    (ours,) = book.note(remark(2)).fact_ids
    assert seen(book, ours).stamp > theirs.header.stamp
    book.close()


# --- hashes and chains


def test_each_laptop_s_facts_hang_together_without_a_gap(book):
    for number in range(5):
        book.note(remark(number), remark(number + 100))
    facts = facts_of(reopened(book))
    assert [fact.header.seq for fact in facts] == list(range(1, 13))
    assert [fact.header.prev for fact in facts[1:]] == [fact.hash for fact in facts[:-1]]


def test_taking_in_the_same_facts_twice_changes_nothing(book):
    theirs = [OtherLaptop(book).writes(remark(1))]
    assert (book.take_in(theirs).new, book.take_in(theirs).new) == (1, 0)
    assert len(values(book, Remark)) == 1


@pytest.mark.parametrize(
    "change", [{"author": "s3"}, {"local_date": "2020-01-01"}, {"prev": "0"}]
)
def test_a_forged_header_is_refused(book, change):
    fact = OtherLaptop(book).writes(remark(1))
    forged = replace(fact, header=replace(fact.header, **change))
    assert book.take_in([forged]).refused == 1
    assert values(book, Remark) == []


def test_what_a_fact_replaces_is_part_of_its_hash(book):
    (mine,) = book.note(remark(1)).fact_ids
    fact = OtherLaptop(book).writes(remark(2))
    assert book.take_in([replace(fact, parents=(mine,))]).refused == 1
    assert len(values(book, Remark)) == 1


def test_an_unknown_kind_and_a_newer_schema_are_kept_and_counted(book):
    book.note(case(case_id="c1"))
    fact = OtherLaptop(book).writes(remark(1))
    changes: list[dict[str, Any]] = [{"kind": "gait_film"}, {"schema": 9}]
    for number, change in enumerate(changes):
        header = replace(fact.header, id=f"x{number}", seq=number + 1, **change)
        book.take_in([sealed(header, (), fact.text)])
    found = book.check()
    assert (found.facts, found.unreadable) == (5, 2)
    assert book.squad(day(1)).unreadable == 2
    assert values(book, Remark) == []


def test_an_erased_text_does_not_come_back_with_an_older_file(book):
    fact = OtherLaptop(book).writes(remark(1, "a secret"))
    book.take_in([fact])
    book.erase(fact.header.id, "asked for")
    assert book.take_in([fact]).new == 0
    raw = book._store.connect()
    raw.execute("INSERT INTO body VALUES (?, ?)", (fact.header.body_hash, fact.text))
    raw.close()
    assert values(book, Remark) == []
    assert book.check().erased == 1


def test_an_erasure_from_another_laptop_removes_the_text_here(book):
    (mine,) = book.note(remark(1)).fact_ids
    body = next(f.header.body_hash for f in facts_of(book) if f.header.id == mine)
    book.take_in([OtherLaptop(book).writes(Erasure(fact_id=mine, body_hash=body))])
    assert values(book, Remark) == []
    assert book.check().troubles == ()


@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.tuples(st.booleans(), st.integers(1, 2)), min_size=1, max_size=6), st.randoms()
)
def test_facts_tell_the_same_in_whatever_order_and_however_often_they_are_taken_in(steps, dice):
    with TemporaryDirectory() as place, new_book(Path(place) / "one") as one:
        for ours, number in steps:
            value = remark(number, f"text {dice.random()}")
            one.note(value) if ours else one.take_in([OtherLaptop(one).writes(value)])
        facts = [f for f in facts_of(one) if f.header.kind == "remark"]
        with new_book(Path(place) / "two") as two:
            for fact in dice.sample(facts, len(facts)) + dice.sample(facts, len(facts)):
                two.take_in([fact])
            assert told(two) == told(one)


def told(book):
    return {(f.fact_id, f.value, f.versions, f.corrected) for f in book.all_of(Remark)}


# --- the guards on the tables


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE fact SET author = 'x'",
        "DELETE FROM fact",
        "INSERT OR REPLACE INTO fact SELECT * FROM fact LIMIT 1",
        "UPDATE supersession SET parent = 'x'",
        "DELETE FROM supersession",
        "UPDATE body SET text = '{}'",
        "DELETE FROM body",
        "INSERT OR REPLACE INTO body SELECT body_hash, '{}' FROM body LIMIT 1",
    ],
)
def test_no_statement_changes_or_deletes_what_was_written(book, statement):
    book.note(case())
    book.note(case(what="a pull"))
    before = facts_of(book)
    raw = book._store.connect()
    with pytest.raises(driver.IntegrityError, match="never changed"):
        raw.execute(statement)
    raw.close()
    assert facts_of(book) == before


@pytest.mark.parametrize(
    ("statement", "trouble"),
    [
        ("UPDATE fact SET author = 'x' WHERE seq = 3", "1 entry is not as it was written"),
        ("UPDATE body SET text = replace(text, 'rested', 'ran')", "3 entries are not as they"),
        ("DELETE FROM supersession", "1 entry is not as it was written"),
        ("DELETE FROM fact WHERE seq = 3", "missing in 1 place"),
        ("DELETE FROM body WHERE text LIKE '%rested%'", "3 entries have lost their text"),
    ],
)
def test_a_change_behind_the_program_s_back_is_found(book, statement, trouble):
    book.note(remark(1), remark(2))
    book.note(remark(2))
    assert book.check().troubles == ()
    tamper(book, statement)
    assert trouble in " ".join(book.check().troubles)


def test_values_are_read_from_the_facts_and_from_nothing_else(book):
    book.note(case())
    tamper(book, "DELETE FROM cache", "DELETE FROM draft")
    assert values(book, Case) == [case()]
