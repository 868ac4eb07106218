"""The program as it is started, told to end at a paint; each start is a process of its own.

``python -m tests.benchmarks.start_probe unlock|board FOLDER``
"""

import gc
import os
import sys
from pathlib import Path


def unlock(folder: Path) -> None:
    """End once the unlock page is painted; the page itself lies behind what is on it."""
    from teamrehab.desktop.application import run_window
    from teamrehab.desktop.first_paint import FirstPaint
    from teamrehab.desktop.unlock_page import UnlockPage
    from tests.builders import clock

    begin = UnlockPage.begin

    def watched(page: UnlockPage) -> None:
        begin(page)
        FirstPaint(page.passphrase).painted.connect(_end)

    UnlockPage.begin = watched  # type: ignore[method-assign, assignment]
    run_window(folder, clock(), demo=False)


def board(folder: Path) -> None:
    """End once the squad is painted, before anything is estimated."""
    from teamrehab.desktop.application import run_window
    from teamrehab.desktop.workplace import Workplace
    from tests.builders import clock

    Workplace.begin_the_rest = lambda _place: _end()  # type: ignore[method-assign, assignment]
    run_window(folder, clock(), demo=False)


def _end() -> None:
    os._exit(0)  # at once: what follows the paint is not part of the start


if __name__ == "__main__":
    gc.disable()  # as the program does before it imports its window
    {"unlock": unlock, "board": board}[sys.argv[1]](Path(sys.argv[2]))
