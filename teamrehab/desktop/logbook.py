"""The log: what happened and how long it took, never what was written about anybody.

The formatter lets through a closed list of events and, for each named value, one pattern.
Text of a message, of an exception or of another library is never written.
"""

import faulthandler
import logging
import re
import traceback
from enum import StrEnum
from logging.handlers import RotatingFileHandler
from pathlib import Path
from typing import TextIO

from typing_extensions import override

BYTES, OLD_FILES = 200_000, 4
_LOGGER = logging.getLogger("teamrehab")
_NUMBER = re.compile(r"-?\d{1,12}(\.\d{1,6})?")
_ALLOWED = {
    "kind": re.compile(r"[A-Za-z_][A-Za-z0-9_.]{0,60}"),
    "fact": re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"),
    "place": re.compile(r"[a-z_]{1,40}\.py:\d{1,5}( < [a-z_]{1,40}\.py:\d{1,5}){0,30}"),
    "version": re.compile(r"[0-9][0-9a-z.+]{0,30}"),
    "count": _NUMBER,
    "seconds": _NUMBER,
}


class Event(StrEnum):
    """Everything the log can say."""

    STARTED = "started"
    ENDED = "ended"
    PAINTED = "painted"
    WARMED = "warmed"
    OPENED = "opened"
    CLOSED = "closed"
    SAVED = "saved"
    REFUSED = "refused"
    MISTAKE = "mistake"
    BAD_PREFERENCE = "bad preference"


class _Allowed(logging.Formatter):
    """Writes time, level, event and the allowed values of a record; nothing else."""

    @override
    def format(self, record: logging.LogRecord) -> str:
        event = getattr(record, "event", None)
        words = [self.formatTime(record), record.levelname]
        words.append(event.value if isinstance(event, Event) else "elsewhere")
        for name, pattern in _ALLOWED.items():
            value = str(getattr(record, f"told_{name}", ""))
            if pattern.fullmatch(value):
                words.append(f"{name}={value}")
        return " ".join(words)


def write(event: Event, level: int = logging.INFO, **values: str | float) -> None:
    """Write one line; a value whose name or form is not allowed is left out."""
    _LOGGER.log(level, "", extra={"event": event} | {f"told_{k}": v for k, v in values.items()})


def write_error(event: Event, error: BaseException) -> None:
    """Write that something went wrong: the class of the error and the places it passed."""
    write(event, logging.ERROR, kind=type(error).__name__, place=places(error))


def places(error: BaseException) -> str:
    """Return the files and lines an error passed, innermost first, without any value."""
    frames = traceback.extract_tb(error.__traceback__)
    return " < ".join(f"{Path(f.filename).name}:{f.lineno}" for f in reversed(frames))


def open_logbook(folder: Path) -> TextIO | None:
    """Write the log, and where the interpreter itself dies, to files in ``folder``.

    Returns the file kept open for such a death; None where the folder cannot be written:
    the program works without a log.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        handler = RotatingFileHandler(
            folder / "teamrehab.log", maxBytes=BYTES, backupCount=OLD_FILES, encoding="utf-8"
        )
        deaths = (folder / "crash.log").open("a", encoding="utf-8")
    except OSError:
        return None
    handler.setFormatter(_Allowed())
    logging.getLogger().addHandler(handler)
    _LOGGER.setLevel(logging.INFO)
    faulthandler.enable(deaths)
    return deaths


def close_logbook(deaths: TextIO | None) -> None:
    """Stop writing, so that the files can be moved or deleted."""
    root = logging.getLogger()
    for handler in [h for h in root.handlers if isinstance(h.formatter, _Allowed)]:
        root.removeHandler(handler)
        handler.close()
    if deaths is not None:
        faulthandler.disable()
        deaths.close()
