"""A backup is a closed casebook that was checked before it got its name."""

import pytest

from teamrehab.domain.athletes import StaffMember
from teamrehab.domain.injuries import Case
from teamrehab.records import BackupFailedError, open_casebook, people_of
from teamrehab.records.backing_up import back_up, backups_of
from teamrehab.records.integrity import file_faults
from tests.builders import case, clock, day
from tests.records.books import CHEAP, SECRET, facts_of, new_book, reopened, values


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def test_closing_after_a_save_leaves_a_backup_that_opens_with_the_same_facts(book):
    book.note(case())
    before = facts_of(book)
    book.close()
    newest = backups_of(book.folder)[-1]
    with open_casebook(newest, passphrase=SECRET, clock=clock()) as copy:
        assert facts_of(copy) == before
        assert copy.check().troubles == ()


def test_the_newest_backup_says_when_it_was_made(book):
    assert book.last_backup is None
    back_up(book._store, book.folder, clock(day(3)))
    back_up(book._store, book.folder, clock(day(1)))
    (book.folder / "backups" / "zz notes of somebody").mkdir()
    assert book.last_backup == clock(day(3)).instant()


def test_closing_without_a_save_makes_no_second_backup(book):
    book = reopened(book)
    book.close()
    assert len(backups_of(book.folder)) == 1


def left_without_closing(book):
    book._store.drop_connections()
    book._lock.release()
    return open_casebook(book.folder, passphrase=SECRET, clock=clock())


def test_what_a_session_noted_that_never_closed_is_backed_up_by_the_next(book):
    book = reopened(book)
    book.note(case())
    book = left_without_closing(book)
    noted = facts_of(book)
    book.close()
    with open_casebook(backups_of(book.folder)[-1], passphrase=SECRET, clock=clock()) as copy:
        assert facts_of(copy) == noted


def test_after_a_backup_that_failed_opening_and_closing_makes_one(book):
    book = reopened(book)
    book.note(case())
    book.folder.joinpath("backups").rename(book.folder / "aside")
    (book.folder / "backups").write_text("in the way")
    with pytest.raises(BackupFailedError, match="open and close"):
        book.close()
    (book.folder / "backups").unlink()
    (book.folder / "aside").rename(book.folder / "backups")
    open_casebook(book.folder, passphrase=SECRET, clock=clock()).close()
    assert len(backups_of(book.folder)) == 2


@pytest.mark.parametrize("lost", ["casebook.db", "keys"])
def test_a_backup_that_has_lost_something_is_made_anew(book, lost):
    book = reopened(book)
    (path,) = backups_of(book.folder)
    path.joinpath(lost).rename(book.folder / "lost")
    book.close()
    assert len(backups_of(book.folder)) == 2


def test_a_key_given_to_a_colleague_is_in_the_next_backup(book):
    book = reopened(book)
    book.give_key(StaffMember(staff_id="s2", name="Ana Ruiz"), "another secret", CHEAP)
    book.close()
    assert people_of(backups_of(book.folder)[-1]) == ("Ana Ruiz", "Kim Vale")


def test_the_newest_seven_backups_are_kept(book):
    clocks = [clock(day(n)) for n in range(9)]
    names = [back_up(book._store, book.folder, each).name for each in clocks]
    assert [path.name for path in backups_of(book.folder)] == names[2:]


def test_a_backup_while_saves_lie_in_the_log_holds_them_all(book):
    for number in range(30):
        book.note(case(case_id=f"c{number}"))
    folder = back_up(book._store, book.folder, book.clock)
    assert not list(folder.glob("*-wal"))
    with open_casebook(folder, passphrase=SECRET, clock=clock()) as copy:
        assert len(values(copy, Case)) == 30


def test_a_backup_cut_short_is_swept_away_and_never_taken_for_one(book):
    left = book.folder / "backups" / "2026-01-01T000000Z-0000.part"
    left.mkdir(parents=True)
    (left / "casebook.db").touch()
    assert backups_of(book.folder) == ()
    back_up(book._store, book.folder, book.clock)
    assert not left.exists()


def test_a_backup_that_cannot_be_made_is_said_and_the_casebook_is_closed_whole(book):
    book.note(case())
    (book.folder / "backups").write_text("in the way")
    with pytest.raises(BackupFailedError, match="Everything is saved"):
        book.close()
    (book.folder / "backups").unlink()
    with open_casebook(book.folder, passphrase=SECRET, clock=clock()) as again:
        assert values(again, Case) == [case()]


def test_a_copy_with_a_flipped_bit_or_cut_at_a_page_does_not_pass_the_check(book):
    for number in range(40):
        book.note(case(case_id=f"c{number}"))
    path = back_up(book._store, book.folder, book.clock) / "casebook.db"
    whole = path.read_bytes()

    def faults(data):
        path.write_bytes(data)
        return file_faults(path, lambda: book._store.sealed_for(path))

    assert faults(whole) == ()
    flipped = bytearray(whole)
    flipped[3 * 4096 + 77] ^= 4
    assert faults(bytes(flipped)) != ()
    assert faults(whole[:-4096]) != ()
    assert faults(b"") != ()
