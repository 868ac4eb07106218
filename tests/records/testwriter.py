"""A headless writer to be killed: ``python -m tests.records.testwriter FOLDER [OPTION]``.

For each line read it forks a child, which opens the casebook and saves pairs of remarks with
the program's own code, printing ``A <number>`` after each acknowledged save, until it is
killed. Each pair is kept as a draft before, told by ``D <number>``, which its save drops.
``--early`` acknowledges before saving: the control that must lose saves and drafts.
``--closing`` makes a few saves, acknowledged likewise, says ``C``, closes and says ``Z``.
"""

import os
import signal
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from itertools import count
from pathlib import Path

from teamrehab.domain.days import Clock
from teamrehab.domain.injuries import Remark
from teamrehab.records import Casebook, open_casebook
from tests.records.books import SECRET
from tests.records.examples import CASE

DRAFT = "remarks"


def pair(number: int) -> tuple[Remark, Remark]:
    """Return the two values of one save."""
    ids = (f"{number}-{half}" for half in "ab")
    first, second = (Remark(remark_id=id_, text="slept badly " * 20, **CASE) for id_ in ids)
    return first, second


def write(folder: Path, *, early: bool) -> None:
    """Save until killed, acknowledging each save on standard output."""
    clock = Clock(lambda: datetime.fromtimestamp(time.time(), UTC))
    book = open_casebook(folder, passphrase=SECRET, clock=clock)
    with book._store.notes.connect() as connection:  # so that kills land in checkpoints too
        connection.exec_driver_sql("PRAGMA wal_autocheckpoint=40")
    for number in count(len(book.all_of(Remark)) // 2):
        for sign, act in (("D", keep), ("A", save)):
            if early:
                acknowledge(number, sign)
            act(book, number)
            if not early:
                acknowledge(number, sign)


def close(folder: Path) -> None:
    """Save some pairs, say so, and close: the log is folded in and a backup made."""
    clock = Clock(lambda: datetime.fromtimestamp(time.time(), UTC))
    book = open_casebook(folder, passphrase=SECRET, clock=clock)
    first = len(book.all_of(Remark)) // 2
    for number in range(first, first + 20):
        save(book, number)
        acknowledge(number)
    os.write(1, b"C\n")
    book.close()
    os.write(1, b"Z\n")
    signal.pause()


def save(book: Casebook, number: int) -> None:
    """Save one pair as the program does."""
    book.note(*pair(number), drops_draft=DRAFT)


def keep(book: Casebook, number: int) -> None:
    """Keep a pair that is being typed."""
    book.keep_draft(DRAFT, str(number))


def acknowledge(number: int, sign: str = "A") -> None:
    """Say that a save is done."""
    os.write(1, f"{sign} {number}\n".encode())


def serve(folder: Path, act: Callable[[Path], None]) -> None:
    """Fork a writer for each line read, and tell its process id."""
    for _ in sys.stdin:
        child = os.fork()
        if child == 0:
            os.write(1, f"P {os.getpid()}\n".encode())
            act(folder)
        os.waitpid(child, 0)
        os.write(1, b"dead\n")


if __name__ == "__main__":
    act = close if "--closing" in sys.argv else partial(write, early="--early" in sys.argv)
    serve(Path(sys.argv[1]), act)
