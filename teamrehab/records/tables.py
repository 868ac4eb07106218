"""The tables of a casebook, their indexes, and the triggers that keep facts as written."""

from sqlalchemy import (
    Column,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    Text,
    UniqueConstraint,
)
from sqlalchemy.engine import Connection

APPLICATION_ID = 0x72656861
"""Stands in the header of every casebook's database."""

SCHEMA = 1
"""The newest schema this program knows; kept as ``user_version``."""

REVISION = "0001"
"""The migration that makes it."""

metadata = MetaData()


def _text(name: str) -> Column[str]:
    return Column(name, Text, nullable=False)


def _number(name: str) -> Column[int]:
    return Column(name, Integer, nullable=False)


fact = Table(
    "fact",
    metadata,
    _text("id"),
    _text("hash"),
    _text("team"),
    _text("device"),
    _number("seq"),
    _text("prev"),
    _text("stamp"),
    _text("author"),
    _text("kind"),
    _number("schema"),
    _text("slot"),
    _text("athlete"),
    _text("case_id"),
    _text("local_date"),
    _text("happened_at"),
    _text("zone"),
    _text("body_hash"),
    PrimaryKeyConstraint("id", "hash"),
    UniqueConstraint("device", "seq", "hash", name="one_place_in_a_chain"),
)
Index("fact_by_case", fact.c.case_id)
# wide enough that finding the open cases never touches the table itself
Index("fact_by_kind_and_day", fact.c.kind, fact.c.local_date, fact.c.case_id, fact.c.id)
Index("fact_by_kind_and_athlete", fact.c.kind, fact.c.athlete, fact.c.local_date)
Index("fact_by_slot", fact.c.slot)

supersession = Table(
    "supersession",
    metadata,
    _text("parent"),
    _text("child"),
    PrimaryKeyConstraint("parent", "child"),
    sqlite_with_rowid=False,
)
Index("supersession_by_child", supersession.c.child)

body = Table(
    "body",
    metadata,
    _text("body_hash"),
    _text("text"),
    PrimaryKeyConstraint("body_hash"),
)

# only for this laptop: never hashed, never handed over
this_laptop = Table(
    "this_laptop", metadata, _text("key"), _text("value"), PrimaryKeyConstraint("key")
)
# what is typed and not saved, see drafts.py
draft = Table("draft", metadata, _text("place"), _text("text"), PrimaryKeyConstraint("place"))
# The next two are agreed and still empty: cache will keep what can be worked out again,
# import_log which transfer files were taken in.
cache = Table("cache", metadata, _text("key"), _text("value"), PrimaryKeyConstraint("key"))
import_log = Table(
    "import_log",
    metadata,
    _text("digest"),
    _text("taken_in_at"),
    _number("facts"),
    PrimaryKeyConstraint("digest"),
)

_NEVER = "BEGIN SELECT RAISE(ABORT, 'a fact is never changed or deleted'); END"
_ERASURE_EXISTS = (
    "EXISTS (SELECT 1 FROM fact f WHERE f.slot = 'erasure:' || {row}.body_hash "
    "AND f.kind = 'erasure')"
)
_TRIGGERS = {
    "fact_never_changes": f"BEFORE UPDATE ON fact {_NEVER}",
    "fact_never_goes": f"BEFORE DELETE ON fact {_NEVER}",
    "supersession_never_changes": f"BEFORE UPDATE ON supersession {_NEVER}",
    "supersession_never_goes": f"BEFORE DELETE ON supersession {_NEVER}",
    "body_never_changes": f"BEFORE UPDATE ON body {_NEVER}",
    "body_goes_by_erasure_only": (
        f"BEFORE DELETE ON body WHEN NOT {_ERASURE_EXISTS.format(row='OLD')} {_NEVER}"
    ),
    "erased_stays_erased": (
        f"BEFORE INSERT ON body WHEN {_ERASURE_EXISTS.format(row='NEW')} "
        "BEGIN SELECT RAISE(IGNORE); END"
    ),
}


def drop_triggers(connection: Connection) -> None:
    """Take the guards off for a migration: a table they name could not be rebuilt."""
    for name in _TRIGGERS:
        connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS {name}")


def create_triggers(connection: Connection) -> None:
    """Make every trigger: the one place that knows them."""
    for name, action in _TRIGGERS.items():
        connection.exec_driver_sql(f"CREATE TRIGGER {name} {action}")


def schema_text(connection: Connection) -> tuple[str, ...]:
    """Return the definition of every table, index and trigger, sorted, as comparable text.

    Rebuilding a table puts its name and others in quotes; blanks differ too.
    """
    rows = connection.exec_driver_sql(
        "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND tbl_name <> 'alembic_version'"
    )
    return tuple(sorted(" ".join(row[0].replace('"', "").split()) for row in rows))


def create_all(connection: Connection) -> None:
    """Make tables, indexes and triggers as they should be: what migrations are held against."""
    metadata.create_all(connection)
    create_triggers(connection)
