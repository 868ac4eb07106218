"""A casebook opens, or says in a sentence why not; nothing is half made or changed."""

import os
import random
import shutil
import subprocess
import sys

import pytest

from teamrehab.domain.athletes import Team
from teamrehab.domain.injuries import Case
from teamrehab.records import (
    CasebookDamagedError,
    CasebookOpenElsewhereError,
    DiskFullError,
    FolderNotEmptyError,
    FolderNotWritableError,
    NewerCasebookError,
    NotACasebookError,
    RecordsError,
    UnwritableTextError,
    create_casebook,
    open_casebook,
)
from teamrehab.records.refusals import refusal
from tests.builders import case, clock
from tests.records.books import CHEAP, FOUNDER, SECRET, new_book, values


def opened(folder):
    return open_casebook(folder, passphrase=SECRET, clock=clock())


@pytest.fixture
def closed(tmp_path):
    """Return the folder of a closed casebook with one case in it."""
    with new_book(tmp_path / "book") as book:
        book.note(case())
    return book.folder


def test_a_closed_casebook_is_one_database_file_and_its_keys(closed):
    assert {p.name for p in closed.iterdir() if p.is_file()} - {"casebook.lock"} == {
        "casebook.db"
    }
    assert b"SQLite format 3" not in (closed / "casebook.db").read_bytes()


@pytest.mark.parametrize("name", ["a folder", "100 %", "what?", "#1", "é ж"])
def test_a_folder_may_have_any_name(tmp_path, name):
    with new_book(tmp_path / name) as book:
        book.note(case())
    with opened(book.folder) as again:
        assert values(again, Case) == [case()]


@pytest.mark.parametrize(
    "make", [lambda f: None, lambda f: f.mkdir(), lambda f: f.write_text("")]
)
def test_a_folder_without_a_casebook_is_named_and_left_alone(tmp_path, make):
    folder = tmp_path / "holiday pictures"
    make(folder)
    with pytest.raises(NotACasebookError, match="holiday pictures"):
        opened(folder)
    assert not list(folder.parent.rglob("*.db"))


@pytest.mark.parametrize("size", [0, 1, 100, 4095, 4097, 3 * 4096 + 5])
def test_a_cut_database_is_damaged_and_no_new_one_is_made(closed, size):
    path = closed / "casebook.db"
    path.write_bytes(path.read_bytes()[:size])
    with pytest.raises(CasebookDamagedError):
        opened(closed)
    assert path.stat().st_size == size


def test_a_foreign_database_is_damaged_and_not_a_wrong_passphrase(closed):
    (closed / "casebook.db").write_bytes(b"SQLite format 3\0" + bytes(4080))
    with pytest.raises(CasebookDamagedError):
        opened(closed)


def test_another_program_s_file_under_our_key_is_not_a_casebook(closed):
    book = opened(closed)
    raw = book._store.connect()
    raw.execute("PRAGMA application_id=7")
    raw.close()
    book.close()
    with pytest.raises(NotACasebookError):
        opened(closed)


def test_no_flipped_bit_ever_shows_a_wrong_value(closed):
    path, whole = closed / "casebook.db", (closed / "casebook.db").read_bytes()
    dice = random.Random(4)
    for _ in range(60):
        broken = bytearray(whole)
        broken[dice.randrange(len(whole))] ^= 1 << dice.randrange(8)
        path.write_bytes(broken)
        try:
            book = opened(closed)
            try:
                assert book.check().troubles
                assert values(book, Case) == [case()]
            finally:
                book._store.close()
                book._lock.release()
        except CasebookDamagedError:
            continue
    path.write_bytes(whole)
    with opened(closed) as book:
        assert book.check().troubles == ()


def test_a_newer_casebook_is_refused_with_both_numbers_and_not_changed(closed):
    book = opened(closed)
    raw = book._store.connect()
    raw.execute("PRAGMA user_version=7")
    raw.close()
    book.close()
    before = (closed / "casebook.db").read_bytes()
    loaded = "alembic" in sys.modules
    with pytest.raises(NewerCasebookError, match="records 7; this one knows 1"):
        opened(closed)
    assert (closed / "casebook.db").read_bytes() == before
    assert ("alembic" in sys.modules) == loaded


def test_a_second_window_is_told_that_the_casebook_is_open(closed):
    with opened(closed), pytest.raises(CasebookOpenElsewhereError):
        opened(closed)
    opened(closed).close()


LOADED = """
import sys
from pathlib import Path
from tests.builders import day
from tests.records.test_opening import opened
with opened(Path(sys.argv[1])) as book:
    book.squad(day(1))
print(*({"alembic", "sqlalchemy.orm", "numpy", "scipy"} & set(sys.modules)))
"""


def test_opening_and_showing_the_squad_loads_nothing_heavy(closed):
    command = [sys.executable, "-c", LOADED, str(closed)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == ""


HOLDER = """
import sys
from pathlib import Path
from tests.records.test_opening import opened
book = opened(Path(sys.argv[1]))
print("open", flush=True)
sys.stdin.read()
"""


def test_another_program_holds_the_casebook_until_it_is_killed(closed):
    pipe = subprocess.PIPE
    with subprocess.Popen(
        [sys.executable, "-c", HOLDER, str(closed)], stdin=pipe, stdout=pipe
    ) as holder:
        assert holder.stdout is not None
        holder.stdout.readline()
        with pytest.raises(CasebookOpenElsewhereError):
            opened(closed)
        holder.kill()
    with opened(closed) as book:
        assert values(book, Case) == [case()]


KILLED = """
import os, sys
from pathlib import Path
from tests.builders import case
from tests.records.test_opening import opened
opened(Path(sys.argv[1])).note(case(case_id="c2"))
os.kill(os.getpid(), 9)
"""


def test_opening_after_a_crash_reads_the_log_and_does_not_wait_for_it_to_be_folded_in(closed):
    before = (closed / "casebook.db").read_bytes()
    done = subprocess.run([sys.executable, "-c", KILLED, str(closed)], check=False)
    log = closed / "casebook.db-wal"
    left = log.read_bytes()
    with opened(closed) as book:
        assert [value.case_id for value in values(book, Case)] == ["c1", "c2"]
        assert log.read_bytes() == left
    assert (done.returncode, log.exists()) == (-9, False)
    assert (closed / "casebook.db").read_bytes() != before


def test_a_folder_that_holds_something_is_not_used_for_a_new_casebook(tmp_path):
    (tmp_path / "mine.txt").write_text("keep")
    with pytest.raises(FolderNotEmptyError):
        new_book(tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == ["mine.txt"]


def test_an_empty_folder_can_become_a_casebook(tmp_path):
    folder = tmp_path / "empty"
    folder.mkdir()
    new_book(folder).close()
    assert [p.name for p in tmp_path.iterdir()] == ["empty"]


def test_a_creation_that_fails_half_way_leaves_nothing_behind(tmp_path):
    with pytest.raises(UnwritableTextError, match="name"):
        create_casebook(
            tmp_path / "book",
            team=Team(name="River\0side"),
            founder=FOUNDER,
            passphrase=SECRET,
            clock=clock(),
            cost=CHEAP,
        )
    assert list(tmp_path.iterdir()) == []


# --- the disk itself: a small one mounted for the test, where that is allowed


@pytest.fixture
def mounted(tmp_path):
    """Return a function that mounts a small disk with the given options."""
    place = tmp_path / "disk"
    place.mkdir()
    tool = shutil.which("mount")
    if os.geteuid() != 0 or tool is None:
        pytest.skip("mounting a small disk needs root")

    def mount(options):
        done = subprocess.run([tool, "-t", "tmpfs", "-o", options, "tmpfs", place], check=False)
        if done.returncode:
            pytest.skip("mounting a small disk is not allowed here")
        return place

    yield mount
    subprocess.run(["/bin/umount", "-l", place], check=False)


def fill(book, acknowledged):
    for number in range(5000):
        acknowledged += book.note(case(case_id=f"c{number}", what="x" * 2000)).fact_ids


def remount(place, options):
    subprocess.run(["/bin/mount", "-o", f"remount,{options}", place], check=True)


def test_a_full_disk_leaves_no_half_made_casebook(mounted):
    disk = mounted("size=40k")
    with pytest.raises(DiskFullError, match="full"):
        new_book(disk / "book")
    assert list(disk.iterdir()) == []


def test_a_read_only_disk_is_named_on_creating_and_on_opening(mounted):
    disk = mounted("size=4m")
    new_book(disk / "book").close()
    remount(disk, "ro")
    with pytest.raises(FolderNotWritableError, match="another folder"):
        new_book(disk / "other")
    with pytest.raises(FolderNotWritableError):
        opened(disk / "book")
    remount(disk, "rw")
    opened(disk / "book").close()


def test_a_disk_that_fills_up_says_not_saved_and_saves_once_there_is_room(mounted):
    disk = mounted("size=1m")
    book = new_book(disk / "book")
    acknowledged: list[str] = []
    with pytest.raises(DiskFullError):
        fill(book, acknowledged)
    assert len(values(book, Case)) == len(acknowledged) > 5
    remount(disk, "size=8m")
    book.note(case(case_id="after"))
    assert book.check().troubles == ()
    book.close()
    with opened(disk / "book") as again:
        assert len(values(again, Case)) == len(acknowledged) + 1


@pytest.mark.parametrize(
    ("number", "expected"),
    [(28, DiskFullError), (13, FolderNotWritableError), (30, FolderNotWritableError)],
)
def test_faults_of_the_system_are_told_apart_by_their_number(tmp_path, number, expected):
    shown = refusal(OSError(number, "x"), tmp_path)
    assert type(shown) is expected
    assert isinstance(shown, RecordsError)
