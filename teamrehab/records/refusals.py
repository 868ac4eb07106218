"""What the disk and the database say, turned into errors a person can act on."""

import errno
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import sqlcipher3.dbapi2 as driver
from sqlalchemy.exc import DBAPIError

from teamrehab.records.errors import (
    CasebookDamagedError,
    DiskFullError,
    FolderNotWritableError,
    NotSavedError,
    RecordsError,
)

_BY_SQLITE_CODE: dict[int, type[CasebookDamagedError | NotSavedError]] = {
    8: FolderNotWritableError,  # SQLITE_READONLY
    11: CasebookDamagedError,  # SQLITE_CORRUPT
    13: DiskFullError,  # SQLITE_FULL
    14: FolderNotWritableError,  # SQLITE_CANTOPEN
    26: CasebookDamagedError,  # SQLITE_NOTADB; the key is known to be right
}
_BY_ERRNO: dict[int | None, type[NotSavedError]] = {
    errno.ENOSPC: DiskFullError,
    errno.EDQUOT: DiskFullError,
    errno.EACCES: FolderNotWritableError,
    errno.EPERM: FolderNotWritableError,
    errno.EROFS: FolderNotWritableError,
}
_IO_ERROR = 10
_ROOM = 64 * 1024
"""Bytes; the log's index grows by half of this at a time."""

_OURS = (1, 19, 20, 21, 25)
"""SQLITE_ERROR, CONSTRAINT, MISMATCH, MISUSE, RANGE: our mistake, not the world's refusal."""


def refusal(error: Exception, folder: Path) -> RecordsError | None:
    """Return the error to show for the disk's or the database's; None if it is our mistake."""
    if isinstance(error, OSError):
        return _BY_ERRNO.get(error.errno, NotSavedError)(folder)
    raw = error.orig if isinstance(error, DBAPIError) else error
    code = getattr(raw, "sqlite_errorcode", None)
    if code is None or code & 0xFF in _OURS:
        return None
    if code & 0xFF == _IO_ERROR and _is_full(folder):
        return DiskFullError(folder)  # the log's index could not grow: told as an I/O error
    return _BY_SQLITE_CODE.get(code & 0xFF, NotSavedError)(folder)


def _is_full(folder: Path) -> bool:
    """Return whether the disk of a folder, there or still to be made, has no room left."""
    there = next(place for place in (folder, *folder.absolute().parents) if place.exists())
    return shutil.disk_usage(there).free < _ROOM


@contextmanager
def refusals(folder: Path) -> Iterator[None]:
    """Raise the error to show in place of those of the disk and the database."""
    try:
        yield
    except (OSError, DBAPIError, driver.Error) as error:
        shown = refusal(error, folder)
        if shown is None:
            raise
        raise shown from error
