"""Is a database file whole? Each question asked on a connection of its own."""

from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import sqlcipher3.dbapi2 as driver

PAGE = 4096


def file_faults(path: Path, connect: Callable[[], Any]) -> tuple[str, ...]:
    """Return what is wrong with a database that has no write-ahead log beside it; () if whole.

    One bad page spoils the connection that met it, hence a fresh one for each question. A file
    cut at a page boundary passes the cipher's own check, hence the size.
    """
    return (
        _answers(connect, "PRAGMA cipher_integrity_check", good=[])
        + _answers(connect, "PRAGMA integrity_check", good=[("ok",)])
        + _answers(connect, "PRAGMA foreign_key_check", good=[])
        + _size_fault(path, connect)
    )


def page_faults(connection: Any) -> tuple[str, ...]:
    """Return what is wrong with the pages in use, a write-ahead log beside them or not.

    Reading a page proves its seal; what was read before is forgotten first, so that the disk
    is asked.
    """
    connection.execute("PRAGMA shrink_memory").fetchall()
    return _answer(connection, "PRAGMA integrity_check", good=[("ok",)]) or _answer(
        connection, "PRAGMA foreign_key_check", good=[]
    )


def _answers(connect: Callable[[], Any], question: str, good: list[Any]) -> tuple[str, ...]:
    try:
        with closing(connect()) as connection:
            return _answer(connection, question, good)
    except driver.Error as error:
        return _unanswered(question, error)


def _answer(connection: Any, question: str, good: list[Any]) -> tuple[str, ...]:
    try:
        answer = connection.execute(question).fetchall()
    except driver.Error as error:
        return _unanswered(question, error)
    return () if answer == good else (f"{question}: {len(answer)} faults",)


def _unanswered(question: str, error: Exception) -> tuple[str, ...]:
    return (f"{question}: {getattr(error, 'sqlite_errorname', 'unreadable')}",)


def _size_fault(path: Path, connect: Callable[[], Any]) -> tuple[str, ...]:
    try:
        with closing(connect()) as connection:
            pages = connection.execute("PRAGMA page_count").fetchone()[0]
    except driver.Error:
        return ("size: unreadable",)
    size = path.stat().st_size
    return () if size == pages * PAGE > 0 else (f"size: {size} bytes for {pages} pages",)
