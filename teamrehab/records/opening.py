"""Making a casebook and opening one, each wholly or not at all."""

import secrets
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

from filelock import FileLock
from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.days import Clock
from teamrehab.records import keys, tables
from teamrehab.records.casebook import Casebook
from teamrehab.records.errors import (
    CasebookDamagedError,
    EmptyPassphraseError,
    NewerCasebookError,
    NotACasebookError,
)
from teamrehab.records.facts import new_fact_id
from teamrehab.records.folder import database_of, hold, require_casebook, require_free
from teamrehab.records.migrating import bring_up_to_date, make_tables
from teamrehab.records.refusals import refusals
from teamrehab.records.saving import Holder
from teamrehab.records.stamps import Stamp
from teamrehab.records.store import Store
from teamrehab.records.stored import own_end_is_sound
from teamrehab.records.whole_files import make_folder, settle
from teamrehab.records.writing import ChainEnd, Entry, Pen, chained, insert_facts

_KEEP_HERE = text("INSERT INTO this_laptop (key, value) VALUES ('device', :device)")
_IDENTITY = text(
    "SELECT (SELECT value FROM this_laptop WHERE key = 'device'), "
    "(SELECT team FROM fact WHERE kind = 'team' LIMIT 1)"
)


def create_casebook(  # noqa: PLR0913  all but the clock is what a person is asked for
    folder: Path,
    *,
    team: Team,
    founder: StaffMember,
    passphrase: str,
    clock: Clock,
    protected: bool = True,
    cost: keys.Cost | None = None,
) -> Casebook:
    """Make a casebook in a new or empty folder and open it.

    Args:
        folder: appears only when the casebook in it is whole.
        team: kept as the first fact.
        founder: the first member of staff, owner of the first key.
        passphrase: the founder's.
        clock: the time; days are counted in ``team.zone``.
        protected: False makes a demo that anyone opens with the passphrase "".
        cost: what one try of the passphrase costs; left out except in tests.

    Raises:
        EmptyPassphraseError, FolderNotEmptyError: nothing was made.
        DiskFullError, FolderNotWritableError, NotSavedError: nothing was left behind.
    """
    if protected and not passphrase:
        raise EmptyPassphraseError
    opened = keys.Opened(key=secrets.token_bytes(keys.KEY_BYTES), staff_id=founder.staff_id)
    secret = passphrase if protected else ""
    slot = keys.seal(opened, founder.name, secret, cost or keys.Cost(), protected=protected)
    first = (team, founder)
    _place(folder, lambda part: _build(part, slot, opened, first, Clock(clock.now, team.zone)))
    return _opened(folder, slot, opened, clock)


def _place(folder: Path, build: Callable[[Path], None]) -> None:
    """Let ``build`` fill a folder beside ``folder``, which gets that name once it is whole."""
    with refusals(folder):
        require_free(folder)
        parent = folder.absolute().parent
        make_folder(parent)
        part = parent / f".new-casebook-{secrets.token_hex(4)}"
        try:
            with refusals(folder):  # before the failed part is removed and makes room
                build(part)
                settle(part)
            if folder.exists():
                folder.rmdir()
            part.rename(folder)
        except BaseException:
            shutil.rmtree(part, ignore_errors=True)
            raise
        settle(parent)


def _build(
    part: Path,
    slot: keys.Slot,
    opened: keys.Opened,
    first: tuple[Team, StaffMember],
    clock: Clock,
) -> None:
    (part / keys.KEYS).mkdir(parents=True)
    keys.write_slot(part, keys.fresh_name(), slot)
    store = Store(database_of(part), opened.key)
    store.sealed_for(store.path, create=True).close()
    try:
        make_tables(store)
        device = secrets.token_hex(8)
        end = ChainEnd(stamp=Stamp(device=device))
        pen = Pen(team_id=secrets.token_hex(8), author=opened.staff_id, clock=clock, end=end)
        entries = [Entry(id=new_fact_id(clock), value=value) for value in first]
        with store.notes.begin() as connection:
            connection.execute(_KEEP_HERE, {"device": device})
            insert_facts(connection, chained(connection, entries, pen))
    finally:
        store.close()


def open_casebook(
    folder: Path, *, passphrase: str, clock: Clock, person: str | None = None
) -> Casebook:
    """Open a casebook; ``person`` is the label of a key slot, None tries each.

    Raises:
        NotACasebookError, NewerCasebookError, CasebookDamagedError, SlotDamagedError,
        WrongPassphraseError, CasebookOpenElsewhereError: nothing was changed.
        NotSavedError: the folder cannot be written, or the disk is full.
    """
    with refusals(folder):
        require_casebook(folder)
        slot, opened = keys.open_slots(folder, passphrase, person)
    return _opened(folder, slot, opened, clock)


def _opened(folder: Path, slot: keys.Slot, opened: keys.Opened, clock: Clock) -> Casebook:
    with refusals(folder):
        lock = hold(folder)
        store = Store(database_of(folder), opened.key)
        try:
            return _checked(folder, store, lock, clock, (slot, opened))
        except BaseException:
            store.drop_connections()
            lock.release()
            raise


def _checked(
    folder: Path,
    store: Store,
    lock: FileLock,
    clock: Clock,
    owner: tuple[keys.Slot, keys.Opened],
) -> Casebook:
    with store.fresh() as raw:
        if _schema(raw, folder) < tables.SCHEMA:
            bring_up_to_date(store, folder, clock)
        # before raw is closed: the last one out would fold in the log a crash has left
        with store.look() as connection:
            device, team_id = _identity(connection, folder)
    slot, opened = owner
    keys.mend_slot(folder, slot)
    holder = Holder(
        staff_id=opened.staff_id,
        label=slot.label,
        team_id=team_id,
        device=device,
        protected=slot.protected,
    )
    return Casebook(folder, store, lock, clock, holder)


def _schema(raw: Any, folder: Path) -> int:
    """Return the schema of the file, before anything is written to it."""
    kind = raw.execute("PRAGMA application_id").fetchone()[0]
    schema: int = raw.execute("PRAGMA user_version").fetchone()[0]
    if kind != tables.APPLICATION_ID:
        raise NotACasebookError(folder)
    if schema > tables.SCHEMA:
        raise NewerCasebookError(folder, schema, tables.SCHEMA)
    return schema


def _identity(connection: Connection, folder: Path) -> tuple[str, str]:
    """Return device and team; the newest fact of this laptop must be what its hash says."""
    device, team_id = connection.execute(_IDENTITY).one()
    if device is None or team_id is None or not own_end_is_sound(connection, device):
        raise CasebookDamagedError(folder)
    return device, team_id
