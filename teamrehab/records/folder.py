"""The folder of a casebook: what lies where, and who holds it."""

from pathlib import Path

from filelock import FileLock, Timeout

from teamrehab.records.errors import (
    CasebookDamagedError,
    CasebookOpenElsewhereError,
    FolderNotEmptyError,
    NotACasebookError,
)
from teamrehab.records.integrity import PAGE

DATABASE = "casebook.db"
BACKUPS = "backups"
_LOCK = "casebook.lock"


def database_of(folder: Path) -> Path:
    """Return where the database of a casebook lies."""
    return folder / DATABASE


def require_casebook(folder: Path) -> None:
    """Refuse a folder without a casebook, and one whose database is cut or empty.

    Raises:
        NotACasebookError: there is no database.
        CasebookDamagedError: its size cannot be that of a whole one. (While a write-ahead log
            lies beside it, only an empty file is certain to be damaged.)
    """
    path = database_of(folder)
    if not path.is_file():
        raise NotACasebookError(folder)
    size = path.stat().st_size
    log = path.with_name(DATABASE + "-wal")
    pending = log.is_file() and log.stat().st_size > 0
    if size == 0 or (size % PAGE and not pending):
        raise CasebookDamagedError(folder)


def require_free(folder: Path) -> None:
    """Refuse to make a casebook where something lies already."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FolderNotEmptyError(folder)


def hold(folder: Path) -> FileLock:
    """Return the lock on a casebook; the system frees it even after a crash.

    Raises:
        CasebookOpenElsewhereError: another window or program holds it.
    """
    lock = FileLock(folder / _LOCK, timeout=0, thread_local=False, fallback_to_soft=False)
    try:
        lock.acquire()
    except Timeout:
        raise CasebookOpenElsewhereError(folder) from None
    return lock
