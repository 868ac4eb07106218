"""A power cut: what the disk was told to keep before a save was acknowledged.

A kill cannot show it, because the system's memory survives; the order of the system's calls
can. A save of the log is on the disk once its one fsync has returned (SQLite's own promise of
``synchronous=FULL`` in WAL mode, https://www.sqlite.org/pragma.html#pragma_synchronous).
"""

import re
import shutil
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from teamrehab.records import open_casebook
from tests.builders import case, clock
from tests.records.books import SECRET, new_book

SAVES = 20
SAVER = f"""
import os, sys
from pathlib import Path
from tests.records.test_opening import opened
from tests.builders import case
book = opened(Path(sys.argv[1]))
if "--careless" in sys.argv:
    with book._store.notes.connect() as connection:
        connection.connection.dbapi_connection.execute("PRAGMA synchronous=NORMAL")
typed = "--typed" in sys.argv
for number in range({SAVES} if typed else 0):
    book.keep_draft(f"row {{number}}", "typed " * 50)
for number in range({SAVES}):
    book.note(case(case_id=f"c{{number}}"), drops_draft=f"row {{number}}" if typed else "")
    os.write(1, b"acknowledged")
os._exit(0)
"""


@pytest.fixture
def folder(tmp_path):
    with new_book(tmp_path / "book") as book:
        book.note(case())
    return book.folder


def asked(book, question):
    with book._store.look() as connection:
        return connection.exec_driver_sql(f"PRAGMA {question}").scalar_one()


def test_an_open_casebook_logs_its_saves_and_waits_for_each_and_a_closed_one_has_no_log(folder):
    full = 2
    with open_casebook(folder, passphrase=SECRET, clock=clock()) as book:
        assert (asked(book, "journal_mode"), asked(book, "synchronous")) == ("wal", full)
        book.note(case(case_id="c2"))
        book._store.drop_connections()  # as after a fault: the next connection keeps to it too
        assert (asked(book, "journal_mode"), asked(book, "synchronous")) == ("wal", full)
    with closing(book._store.sealed_for(book._store.path)) as raw:
        assert raw.execute("PRAGMA journal_mode").fetchone() == ("delete",)


def calls(folder, *options):
    """Return for each acknowledged save, in order, the calls that changed or kept a file."""
    strace = shutil.which("strace")
    if strace is None:
        pytest.skip("strace is not installed: the system's calls cannot be seen")
    told = folder.parent / "calls.txt"
    trace = "trace=fsync,fdatasync,write,pwrite64,ftruncate,unlink"
    command = [strace, "-y", "-e", trace, "-o", str(told), sys.executable, "-c", SAVER]
    done = subprocess.run([*command, str(folder), *options], capture_output=True, check=False)
    if not told.is_file() or "ptrace" in done.stderr.decode():
        pytest.skip("strace may not look at other programs here")
    assert done.stdout == b"acknowledged" * SAVES
    return told_per_save(told)


def told_per_save(told: Path) -> list[list[str]]:
    saves: list[list[str]] = [[]]
    for line in told.read_text(errors="replace").splitlines():
        found = re.match(r"(\w+)\((\d+)<([^>]*)>", line)
        if found and "casebook.db" in found[3]:
            saves[-1].append(f"{found[1]} {Path(found[3]).name}")
        elif line.startswith("write(1<"):
            saves.append([])
    return saves[1:-1]  # the first save begins the log, after the last one nothing is asked


@pytest.mark.parametrize("options", [(), ("--typed",)], ids=["", "that drops its draft"])
def test_a_save_costs_one_wait_for_the_disk_and_that_is_the_last_thing_before_it_is_said(
    folder, options
):
    saves = calls(folder, *options)
    assert len(saves) == SAVES - 1
    for save in saves:
        assert set(save[:-1]) == {"pwrite64 casebook.db-wal"}
        assert save[-1] == "fsync casebook.db-wal"


def test_a_casebook_that_did_not_wait_would_be_seen(folder):
    assert {call for save in calls(folder, "--careless") for call in save} == {
        "pwrite64 casebook.db-wal"
    }
