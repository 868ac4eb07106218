"""The full check of a casebook: every page, every hash, every chain."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.domain.history import Unreadable
from teamrehab.language import _, counted
from teamrehab.records.facts import Fact
from teamrehab.records.integrity import file_faults, page_faults
from teamrehab.records.kinds import read_body
from teamrehab.records.store import SentAwayError, Store
from teamrehab.records.stored import is_sound, stored_facts
from teamrehab.records.this_laptop import remember, remembered

_EVERY = timedelta(days=7)  # common practice
_CHECKED = "checked"
_ERASURES = text("SELECT substr(slot, length('erasure:') + 1) FROM fact WHERE kind = 'erasure'")


@dataclass(frozen=True, slots=True, kw_only=True)
class CasebookCheck:
    """What a full check found: counts, and each trouble as a sentence; none means sound.

    ``unreadable`` counts facts of newer programs and damaged bodies, ``erased`` bodies that
    were lawfully removed; neither is a trouble by itself.
    """

    facts: int
    devices: int
    erased: int
    unreadable: int
    troubles: tuple[str, ...] = ()


@dataclass(slots=True)
class _Walk:
    """What a walk along the chains has met so far."""

    facts: int = 0
    erased: int = 0
    unreadable: int = 0
    changed: int = 0
    missing: int = 0
    forks: int = 0
    ends: dict[str, tuple[int, str]] = field(default_factory=dict)
    gaps: int = 0


def check(store: Store) -> CasebookCheck:
    """Return what a full check of the open casebook finds.

    The log is folded in first: the cipher's own check gives false alarms beside one.
    """
    store.fold()
    with store.alone():
        faults = file_faults(store.path, store.connect)
        if faults:
            return _damaged(faults)
        with store.reading.connect() as connection:
            return _found(connection)


def check_aside(store: Store) -> CasebookCheck | None:
    """Return what a check finds that runs in another thread while saves go on.

    It reads every page in use, every fact and every chain, but neither unused pages nor the
    file's length, which mean nothing while the log is open. None: it was stopped, because the
    casebook was closed or checked in full.
    """
    try:
        with store.aside() as connection:
            pooled: Any = connection.connection
            faults = page_faults(pooled.dbapi_connection)
            return _damaged(faults) if faults else _found(connection)
    except SentAwayError:
        return None


def _damaged(faults: tuple[str, ...]) -> CasebookCheck:
    said = _("The file itself is damaged ({fault}). Open the newest backup.")
    troubles = tuple(said.format(fault=fault) for fault in faults)
    return CasebookCheck(facts=0, devices=0, erased=0, unreadable=0, troubles=troubles)


def _found(connection: Connection) -> CasebookCheck:
    walk = _walk(stored_facts(connection), _erasures(connection))
    return CasebookCheck(
        facts=walk.facts,
        devices=len(walk.ends),
        erased=walk.erased,
        unreadable=walk.unreadable,
        troubles=_troubles(walk),
    )


def check_due(connection: Connection, today: date) -> bool:
    """Return whether the last check that found nothing is a week old, or of a later day."""
    day = remembered(connection, _CHECKED)
    return day is None or not timedelta(0) <= today - date.fromisoformat(day) < _EVERY


def remember_check(connection: Connection, found: CasebookCheck, today: date) -> None:
    """Remember a check, unless it found troubles: then the next one stays due."""
    if not found.troubles:
        remember(connection, _CHECKED, today.isoformat())


def _erasures(connection: Connection) -> frozenset[str]:
    return frozenset(connection.execute(_ERASURES).scalars())


def _walk(facts: Iterable[Fact], erasures: frozenset[str]) -> _Walk:
    walk = _Walk()
    for fact in facts:
        walk.facts += 1
        walk.changed += not is_sound(fact)
        _look_at_body(fact, erasures, walk)
        _follow(fact, walk)
    return walk


def _look_at_body(fact: Fact, erasures: frozenset[str], walk: _Walk) -> None:
    header = fact.header
    if fact.text is None:
        erased = header.body_hash in erasures
        walk.erased += erased
        walk.missing += not erased
    else:
        value = read_body(header.kind, header.schema, header.local_date, fact.text)
        walk.unreadable += isinstance(value, Unreadable)


def _follow(fact: Fact, walk: _Walk) -> None:
    """Hold a fact against the one before it of the same laptop."""
    header = fact.header
    seq, hash_ = walk.ends.get(header.device, (0, ""))
    if header.seq == seq:
        walk.forks += 1
        return
    walk.gaps += header.seq != seq + 1 or header.prev != hash_
    walk.ends[header.device] = (header.seq, fact.hash)


def _troubles(walk: _Walk) -> tuple[str, ...]:
    """Return one sentence a kind of trouble."""
    met = (
        (
            walk.changed,
            counted(
                "{count} entry is not as it was written.",
                "{count} entries are not as they were written.",
                walk.changed,
            ),
        ),
        (
            walk.missing,
            counted(
                "{count} entry has lost its text, and nobody erased it.",
                "{count} entries have lost their text, and nobody erased it.",
                walk.missing,
            ),
        ),
        (
            walk.gaps,
            counted(
                "Entries are missing in {count} place.",
                "Entries are missing in {count} places.",
                walk.gaps,
            ),
        ),
        (
            walk.forks,
            counted(
                "{count} entry was written after going back to an older copy.",
                "{count} entries were written after going back to an older copy.",
                walk.forks,
            ),
        ),
    )
    return tuple(sentence for number, sentence in met if number)
