"""Tables made and brought up to date: wholly or not at all, after a checked backup."""

from pathlib import Path
from typing import Any

from sqlalchemy import create_engine
from sqlalchemy.engine import Connection

from teamrehab.domain.days import Clock
from teamrehab.locations import MIGRATIONS
from teamrehab.records import tables
from teamrehab.records.backing_up import back_up
from teamrehab.records.store import Store


def bring_up_to_date(
    store: Store, folder: Path, clock: Clock, scripts: Path = MIGRATIONS
) -> None:
    """Migrate an older casebook, keeping a backup of what it was."""
    back_up(store, folder, clock)
    make_tables(store, scripts)


def make_tables(store: Store, scripts: Path = MIGRATIONS) -> None:
    """Run every migration that is due, in one transaction.

    Foreign keys are off meanwhile (rebuilding a table would delete the rows that point to it),
    which SQLite allows only outside a transaction.
    """
    with store.notes.connect() as connection:
        raw: Any = connection.connection.dbapi_connection
        _foreign_keys(raw, on=False)
        try:
            with connection.begin():
                tables.drop_triggers(connection)
                _run(connection, scripts)
                _finish(connection)
        finally:
            _foreign_keys(raw, on=True)


def _foreign_keys(raw: Any, *, on: bool) -> None:
    raw.execute(f"PRAGMA foreign_keys={on:d}")
    if raw.execute("PRAGMA foreign_keys").fetchone() != (int(on),):
        raise RuntimeError("foreign keys could not be switched: a transaction was open")


def _run(connection: Connection, scripts: Path) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(scripts).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")


def _finish(connection: Connection) -> None:
    """Make the triggers and hold the result against the tables as they should be."""
    tables.create_triggers(connection)
    if tables.schema_text(connection) != _as_it_should_be():
        raise RuntimeError("the migrated tables differ from fresh ones")
    if connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall():
        raise RuntimeError("a migration left rows that point nowhere")
    connection.exec_driver_sql(f"PRAGMA application_id={tables.APPLICATION_ID}")
    connection.exec_driver_sql(f"PRAGMA user_version={tables.SCHEMA}")


def _as_it_should_be() -> tuple[str, ...]:
    import sqlcipher3.dbapi2 as driver

    engine = create_engine("sqlite://", module=driver)
    try:
        with engine.begin() as connection:
            tables.create_all(connection)
            return tables.schema_text(connection)
    finally:
        engine.dispose()
