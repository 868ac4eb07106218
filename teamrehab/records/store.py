"""The connections to one casebook's database: one that writes, two that only read."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Lock
from typing import Any

import sqlcipher3.dbapi2 as driver
from sqlalchemy import create_engine, event
from sqlalchemy.engine import Connection, Engine
from sqlalchemy.pool import QueuePool

_ALWAYS = (
    "foreign_keys=ON",
    "recursive_triggers=ON",  # else INSERT OR REPLACE slips past the append-only triggers
    "trusted_schema=OFF",
    "temp_store=MEMORY",
    "secure_delete=ON",
    "cell_size_check=ON",
    "cache_size=-64000",
)
_NOTES = (
    "journal_mode=WAL",
    "synchronous=FULL",
    "wal_autocheckpoint=1000",
    "journal_size_limit=67108864",
)


_OFTEN = 10_000
"""Steps of the database between two looks at whether to stop: about a millisecond."""


def connect(path: Path, key: bytes, *, create: bool = False) -> Any:
    """Return a keyed driver connection; an absent file is never made unless ``create``.

    Raises:
        driver.DatabaseError: the file cannot be read with this key (SQLITE_NOTADB).
    """
    mode = "rwc" if create else "rw"
    uri = f"{path.absolute().as_uri()}?mode={mode}"
    connection = driver.connect(
        uri, uri=True, isolation_level=None, timeout=10, check_same_thread=False
    )
    try:
        connection.execute(f"PRAGMA key=\"x'{key.hex()}'\"")  # before anything else
        connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
        _set(connection, _ALWAYS)
    except driver.Error:
        connection.close()
        raise
    return connection


def _set(connection: Any, pragmas: tuple[str, ...]) -> None:
    for pragma in pragmas:
        connection.execute(f"PRAGMA {pragma}").fetchall()


def _begin(connection: Connection) -> None:
    """Take the write lock at once: a deferred one fails at the first write, timeout or not."""
    looking = connection.get_execution_options().get("only_looking", False)
    connection.exec_driver_sql("BEGIN" if looking else "BEGIN IMMEDIATE")


class SentAwayError(Exception):
    """A reader in another thread was stopped: the casebook's own thread wants the file."""


class Store:
    """Two engines over one database file; used from one thread at a time, ``aside`` excepted.

    ``notes`` has the one connection that writes; ``reading`` at most two that cannot write.
    """

    def __init__(self, path: Path, key: bytes) -> None:
        self.path = path
        self.key = key
        self.closed = False
        self.notes = self._engine(_NOTES, size=1)
        self.reading = self._engine(("query_only=ON",), size=2)
        self._aside = Lock()
        self._away = Event()

    def _engine(self, pragmas: tuple[str, ...], size: int) -> Engine:
        def creator() -> Any:
            connection = self.connect()
            _set(connection, pragmas)
            return connection

        engine = create_engine(
            "sqlite://",
            module=driver,
            creator=creator,
            poolclass=QueuePool,
            pool_size=size,
            max_overflow=0,
            hide_parameters=True,
            execution_options={"only_looking": "query_only=ON" in pragmas},
        )
        event.listen(engine, "begin", _begin)
        return engine

    def connect(self) -> Any:
        """Return a fresh driver connection outside both engines; the caller closes it."""
        if self.closed:
            raise RuntimeError("the casebook is closed")
        return connect(self.path, self.key)

    @contextmanager
    def fresh(self) -> Iterator[Any]:
        """Give a fresh driver connection for one check, closed afterwards."""
        connection = self.connect()
        try:
            yield connection
        finally:
            connection.close()

    def sealed_for(self, path: Path, *, create: bool = False) -> Any:
        """Return a driver connection to another file under the same key."""
        return connect(path, self.key, create=create)

    @contextmanager
    def look(self) -> Iterator[Connection]:
        """Give the notes connection for short reads that agree with each other."""
        with self.notes.connect() as connection:
            yield connection.execution_options(only_looking=True)

    @contextmanager
    def aside(self) -> Iterator[Connection]:
        """Give one reading connection to another thread; saves go on meanwhile.

        Raises:
            SentAwayError: ``alone`` was asked for in the meantime, or the casebook is closed.
        """
        with self._aside:
            if self.closed:
                raise SentAwayError
            with self.reading.connect() as connection:
                pooled: Any = connection.connection
                pooled.dbapi_connection.set_progress_handler(self._away.is_set, _OFTEN)
                try:
                    yield connection
                finally:
                    connection.invalidate()  # nothing stopped or spoiled goes back to the pool
                    if self._away.is_set():
                        raise SentAwayError

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Have the file without any reader in another thread: it is stopped and kept out.

        One that stays would keep the log from being folded in.
        """
        self._away.set()
        with self._aside:
            self._away.clear()
            yield

    def drop_connections(self) -> None:
        """Close every connection; the next use opens new ones."""
        self.notes.dispose()
        self.reading.dispose()

    def close(self) -> None:
        """Leave one file: all pages in the database, no journal beside it."""
        with self.alone():
            self.drop_connections()
            try:
                with self.fresh() as connection:
                    connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
                    connection.execute("PRAGMA journal_mode=DELETE").fetchall()
            finally:
                self.closed = True

    def fold(self) -> None:
        """Move the log into the database; what lay there before is overwritten."""
        with self.alone(), self.fresh() as connection:
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
