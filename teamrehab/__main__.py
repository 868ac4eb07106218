"""Choose: the window, or one headless command."""

import gc
import os
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from teamrehab.domain.days import Clock


def main() -> int:
    """Start what the command line asks for and return its exit code."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # before numpy is ever imported
    words = sys.argv[1:]
    if _is_headless(words):
        return _command(words)
    from teamrehab.desktop.display import missing

    lacking = missing()
    if lacking:
        print(lacking, file=sys.stderr)  # noqa: T201
        return _command(words) if words[:1] == ["demo"] else 1
    gc.disable()  # nothing of the start is garbage; the window collects for itself
    from teamrehab.desktop.application import run_window

    folder = Path(words[1]) if words[:1] == ["open"] else None
    return run_window(folder=folder, clock=_clock(), demo=words[:1] == ["demo"])


def _is_headless(words: list[str]) -> bool:
    """Return whether the words ask for a command rather than for the window."""
    if words in ([], ["demo"]):
        return False
    return not (len(words) == 2 and words[0] == "open" and not words[1].startswith("-"))


def _command(words: list[str]) -> int:
    from teamrehab.command_line.app import run

    return run(words, _clock())


def _clock() -> "Clock":
    from tzlocal import get_localzone_name

    from teamrehab.domain.days import Clock

    return Clock(lambda: datetime.now(UTC), get_localzone_name() or "UTC")  # noqa: TID251


if __name__ == "__main__":
    sys.exit(main())
