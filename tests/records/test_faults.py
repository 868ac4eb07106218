"""A save that reports a fault: what was kept is found out before anything is said."""

import pytest
import sqlcipher3.dbapi2 as driver
from sqlalchemy import event

from teamrehab.domain.injuries import Case
from teamrehab.records import DiskFullError, NotSavedError, new_fact_id
from tests.builders import case
from tests.records.books import facts_of, new_book, reopened, values


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def fill(book, count):
    for number in range(count):
        book.note(case(case_id=f"big{number}", what="x" * 9000))


def io_error():
    error = driver.OperationalError("disk I/O error")
    error.sqlite_errorcode = 10 | 4 << 8  # SQLITE_IOERR_FSYNC
    return error


def fail_once_at_commit(book, *, after):
    """Let the next commit report a failed sync, after or before it really happened."""

    def commit(connection):
        event.remove(book._store.notes, "commit", commit)
        if after:
            connection.connection.dbapi_connection.commit()
        raise io_error()

    event.listen(book._store.notes, "commit", commit)


def test_a_save_whose_sync_failed_but_which_is_there_is_acknowledged(book):
    fail_once_at_commit(book, after=True)
    receipt = book.note(case())
    assert [f.fact_id for f in book.all_of(Case)] == list(receipt.fact_ids)
    book.note(case(what="and it goes on"))
    assert book.check().troubles == ()


def test_a_save_that_is_not_there_is_said_to_be_not_saved_and_may_be_repeated(book):
    ids = [new_fact_id(book.clock)]
    fail_once_at_commit(book, after=False)
    with pytest.raises(NotSavedError, match="still here"):
        book.note(case(), fact_ids=ids)
    assert values(book, Case) == []
    book.note(case(), fact_ids=ids)
    assert values(reopened(book), Case) == [case()]


def test_a_database_that_may_not_grow_says_the_disk_is_full_and_keeps_the_rest(book):
    book.note(case())
    with book._store.notes.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages + 8}")
    with pytest.raises(DiskFullError):
        fill(book, 100)
    kept = len(facts_of(book))
    book.note(case(case_id="small"))
    assert len(facts_of(book)) == kept + 1
    assert book.check().troubles == ()


def test_an_error_of_the_database_does_not_repeat_what_was_typed(book):
    fail_once_at_commit(book, after=False)
    with pytest.raises(NotSavedError) as caught:
        book.note(case(what="torn calf"))
    assert "torn" not in f"{caught.value!r} {caught.value.__cause__!r}"
