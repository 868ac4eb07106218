"""Copies of a casebook that were opened and checked before they got their name."""

import shutil
from contextlib import closing, suppress
from datetime import datetime
from pathlib import Path

from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from teamrehab.domain.days import Clock
from teamrehab.records.errors import BackupFailedError
from teamrehab.records.folder import BACKUPS, DATABASE
from teamrehab.records.integrity import file_faults
from teamrehab.records.keys import KEYS
from teamrehab.records.refusals import refusals
from teamrehab.records.store import Store
from teamrehab.records.this_laptop import remember, remembered
from teamrehab.records.whole_files import make_folder, settle

_KEPT = 7
_PART = ".part"
_LAST = "backup"
_FACTS = text("SELECT max(rowid) FROM fact")  # none ever goes, so this counts them at once


def back_up_what_is_new(store: Store, folder: Path, clock: Clock) -> None:
    """Make a backup unless the last one is there and holds every fact and every key.

    Asked of the casebook and not of the session: one that was killed, or whose backup failed,
    is made good by the next.

    Raises:
        BackupFailedError, NotSavedError: see ``back_up``.
    """
    with refusals(folder):
        with store.look() as connection:
            facts: int = connection.execute(_FACTS).scalar_one()
            name, _, held = (remembered(connection, _LAST) or "").partition(" ")
        if held == str(facts) and _has_the_keys(folder / BACKUPS / name, folder):
            return
        made = back_up(store, folder, clock)
        with suppress(DBAPIError), store.notes.begin() as connection:
            # forgotten, it costs one backup more
            remember(connection, _LAST, f"{made.name} {facts}")


def _has_the_keys(backup: Path, folder: Path) -> bool:
    if not (backup / DATABASE).is_file():
        return False
    theirs, ours = ({path.name for path in (f / KEYS).glob("*")} for f in (backup, folder))
    return theirs == ours


def back_up(store: Store, folder: Path, clock: Clock) -> Path:
    """Return the folder of a new backup: a closed casebook with its keys, checked.

    The name appears only when the copy is whole and on the disk; the newest seven are kept.

    Raises:
        BackupFailedError: it could not be made or did not pass the check.
        NotSavedError: the disk is full or cannot be written.
    """
    with refusals(folder):
        backups = folder / BACKUPS
        make_folder(backups)
        _sweep(backups)
        target = _free_name(backups, clock)
        part = target.with_name(target.name + _PART)
        part.mkdir()
        _fill(part, store, folder)
        part.rename(target)
        settle(backups)
        _keep_newest(backups)
        return target


def backups_of(folder: Path) -> tuple[Path, ...]:
    """Return the backups of a casebook, oldest first."""
    found = (folder / BACKUPS).glob("*")
    return tuple(sorted(path for path in found if path.suffix != _PART))


def last_backup(folder: Path) -> datetime | None:
    """Return the instant of the newest backup, read from its name; None before the first."""
    moments = [_moment(path) for path in backups_of(folder)]
    return max((moment for moment in moments if moment is not None), default=None)


def _moment(backup: Path) -> datetime | None:
    try:
        return datetime.strptime(backup.name.rpartition("-")[0], "%Y-%m-%dT%H%M%S%z")
    except ValueError:
        return None


def _free_name(backups: Path, clock: Clock) -> Path:
    stem = f"{clock.instant():%Y-%m-%dT%H%M%SZ}"
    taken = len(list(backups.glob(f"{stem}*")))
    return backups / f"{stem}-{taken:04d}"


def _fill(part: Path, store: Store, folder: Path) -> None:
    copy = part / DATABASE
    with store.fresh() as source, closing(store.sealed_for(copy, create=True)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode=DELETE").fetchall()
        counts = [c.execute("SELECT count(*) FROM fact").fetchone() for c in (source, target)]
    if counts[0] != counts[1] or file_faults(copy, lambda: store.sealed_for(copy)):
        raise BackupFailedError(folder)
    shutil.copytree(folder / KEYS, part / KEYS)
    for path in (copy, *(part / KEYS).iterdir(), part / KEYS, part):
        settle(path)


def _sweep(backups: Path) -> None:
    """Remove what a backup that was cut short left behind."""
    for part in backups.glob(f"*{_PART}"):
        shutil.rmtree(part)


def _keep_newest(backups: Path) -> None:
    for old in backups_of(backups.parent)[:-_KEPT]:
        shutil.rmtree(old)
