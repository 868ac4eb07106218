"""The window: starts as whole processes, estimates, a row after a save, a graph that moves."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from teamrehab.records import create_casebook
from teamrehab.tasks.board import squad_board
from tests.benchmarks.figures import Figure, against, compare
from tests.benchmarks.measure_records import ATHLETES, filled
from tests.builders import ONSET, clock
from tests.records.books import CHEAP, FOUNDER, TEAM, new_book

HERE = Path(__file__).parents[2]
START = "tests.benchmarks.start_probe"
INSIDE = "tests.benchmarks.inside_probe"
BARE = "tests.benchmarks.bare_window"


def figures() -> Iterator[Figure]:
    """Yield the figures of the window; casebooks and settings lie in a folder of their own."""
    with TemporaryDirectory() as place:
        home = Path(place)
        locked = new_book(home / "locked")
        one, ten = _open_to_all(home, 1), _open_to_all(home, 10)
        yield compare(
            "squad board without estimates, ten seasons / one",
            lambda: squad_board(ten, ONSET),
            lambda: squad_board(one, ONSET),
            bound=1.3,
            rounds=30,
        )
        for book in (locked, one, ten):
            book.close()
        yield from _starts(home, locked.folder, ten.folder)
        yield from _promises(home, ten.folder)


def _open_to_all(home: Path, seasons: int) -> Any:
    """Return a casebook of so many seasons whose key is at hand."""
    book = create_casebook(
        home / f"{seasons} seasons",
        team=TEAM,
        founder=FOUNDER,
        passphrase="",
        clock=clock(),
        protected=False,
        cost=CHEAP,
    )
    return filled(book, seasons)


def _starts(home: Path, locked: Path, ten: Path) -> Iterator[Figure]:
    bare = partial(run_apart, home, BARE)
    yield compare(
        "start: unlock page painted / imports and an empty table",
        partial(run_apart, home, START, "unlock", str(locked)),
        bare,
        bound=1.25,
    )
    yield compare(
        f"start: board of {ATHLETES}, ten seasons, painted / the same",
        partial(run_apart, home, START, "board", str(ten)),
        bare,
        bound=2,
    )


def _promises(home: Path, ten: Path) -> Iterator[Figure]:
    """Yield what is promised in seconds: printed beside the promise, asserted nowhere."""
    runs = [json.loads(run_apart(home, INSIDE, "inside", str(ten))) for _ in range(3)]
    filled_in = [second for run in runs for second in run["estimates"]]
    repaint = [second for run in runs for second in run["repaint"]]
    steps = json.loads(run_apart(home, INSIDE, "panel"))
    yield against("estimates filled in after the board / 500 ms", filled_in, 0.5)
    yield against("row repainted after a save was acknowledged / 50 ms", repaint, 0.05)
    yield against("pan step of a graph of 100 000 samples / 16 ms", steps, 0.016)


def run_apart(home: Path, *words: str) -> str:
    """Run a module as a process with a home of its own, off screen; return what it said."""
    environ = {name: value for name, value in os.environ.items() if name[:4] != "XDG_"}
    done = subprocess.run(
        [sys.executable, "-m", *words],
        env=environ | {"HOME": str(home), "QT_QPA_PLATFORM": "offscreen"},
        cwd=HERE,
        check=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        timeout=60,
    )
    return done.stdout
