"""The weekly check: when it is due, what it finds, and that it stands in nobody's way."""

from concurrent.futures import ThreadPoolExecutor
from threading import Event, Thread

import pytest
from sqlalchemy import text

from teamrehab.domain.injuries import Case, Remark
from teamrehab.records import CasebookDamagedError, open_casebook
from teamrehab.records.store import SentAwayError
from tests.builders import case, clock, day
from tests.records.books import SECRET, facts_of, new_book, tamper, values
from tests.records.examples import CASE

LONG = text(
    "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100000000) "
    "SELECT count(*) FROM n"
)


def fill(book, count):
    book.note(*(Remark(remark_id=f"n{n}", text="rested " * 20, **CASE) for n in range(count)))


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def on(book, number):
    """Return the casebook opened again on another day."""
    book.close()
    return open_casebook(book.folder, passphrase=SECRET, clock=clock(day(number)))


# --- when it is due


def test_a_check_is_due_until_the_first_and_again_a_week_after_the_last(book):
    assert book.check_due(day(0))
    book.remember_check(book.background_check())
    assert [n for n in range(-1, 10) if book.check_due(day(n))] == [-1, 7, 8, 9]


def test_the_last_check_is_remembered_over_closing_and_a_later_one_counts(book):
    book.remember_check(book.background_check())
    book = on(book, 8)
    assert not book.check_due(day(6))
    book.remember_check(book.background_check())
    assert not book.check_due(day(14))
    book.close()


def test_a_check_that_found_troubles_stays_due(book):
    tamper(book, "UPDATE fact SET author = 'x'")
    found = book.background_check()
    book.remember_check(found)
    assert found.troubles
    assert book.check_due(day(0))


def test_remembering_a_check_writes_no_fact(book):
    before = facts_of(book)
    book.remember_check(book.background_check())
    assert facts_of(book) == before


# --- what it finds


@pytest.mark.parametrize(
    "changes",
    [
        (),
        ("UPDATE fact SET author = 'x' WHERE seq = 3",),
        ("DELETE FROM body WHERE text LIKE '%rested%'", "DELETE FROM fact WHERE seq = 4"),
    ],
)
def test_beside_the_saves_the_same_is_found_as_alone(book, changes):
    fill(book, 20)
    tamper(book, *changes)
    beside = book.background_check()
    assert beside == book.check()
    assert bool(beside.troubles) == bool(changes)


def test_every_flipped_page_that_is_in_use_is_found(book):
    fill(book, 60)
    book.close()
    path = book.folder / "casebook.db"
    whole, found = path.read_bytes(), 0
    for page in range(0, len(whole), 4096):
        broken = bytearray(whole)
        broken[page + 1000] ^= 16
        path.write_bytes(broken)
        found += damage_is_told(book.folder)
    path.write_bytes(whole)
    assert found == len(whole) // 4096 > 20


def damage_is_told(folder):
    try:
        book = open_casebook(folder, passphrase=SECRET, clock=clock())
    except CasebookDamagedError:
        return True
    try:
        return "newest backup" in str(book.background_check())
    finally:
        book._store.close()
        book._lock.release()


# --- that it stands in nobody's way


def test_saves_go_on_while_a_check_runs_in_another_thread(book):
    fill(book, 3000)
    before = len(facts_of(book))
    with ThreadPoolExecutor(1) as other:
        check, saved = other.submit(book.background_check), 0
        while not check.done():
            book.note(case(case_id=f"c{saved}"))
            saved += 1
    assert saved > 1
    assert check.result().troubles == ()
    assert before <= check.result().facts <= before + saved
    assert len(values(book, Case)) == saved


def linger(store, running, ended):
    """Read in another thread for as long as one is let."""
    try:
        with store.aside() as connection:
            running.set()
            connection.execute(LONG)
    except SentAwayError:
        ended.set()


@pytest.mark.parametrize("act", ["close", "check", "erase"])
def test_a_reader_in_another_thread_is_sent_away_when_the_file_is_needed_alone(book, act):
    (fact,) = book.note(case()).fact_ids
    running, ended = Event(), Event()
    reader = Thread(target=linger, args=(book._store, running, ended))
    reader.start()
    running.wait()
    book.erase(fact, "asked for") if act == "erase" else getattr(book, act)()
    assert ended.is_set()
    reader.join()
    assert not book.folder.joinpath("casebook.db-wal").exists() or act != "close"


def test_a_check_asked_for_too_late_says_that_it_was_not_made(book):
    book.close()
    assert book.background_check() is None
