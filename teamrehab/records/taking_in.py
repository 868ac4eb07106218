"""Facts written on another laptop, taken in as they are: what transfer files will stand on."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import msgspec
from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.records.facts import Fact
from teamrehab.records.stamps import milliseconds, read_stamp
from teamrehab.records.stored import is_sound
from teamrehab.records.writing import insert_facts

_FAR_AHEAD_MS = 24 * 60 * 60 * 1000
_KNOWN = text("SELECT hash FROM fact WHERE hash IN (SELECT value FROM json_each(:hashes))")
_MOVE_CLOCK = text(
    "INSERT INTO this_laptop (key, value) VALUES ('clock', :stamp) "
    "ON CONFLICT (key) DO UPDATE SET value = excluded.value WHERE excluded.value > value"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """How many facts were new, known before, or refused because their hash is wrong."""

    new: int
    known: int
    refused: int
    clocks_ahead: tuple[str, ...] = ()
    """Devices whose clock runs more than a day ahead; their facts are kept all the same."""


def take_in(connection: Connection, facts: Sequence[Fact], now: datetime) -> Taken:
    """Write another laptop's facts beside our own, in the transaction that is open.

    Nothing is refused for its time, its kind or its schema; only for a hash that does not fit.
    """
    sound = [fact for fact in facts if is_sound(fact)]
    known = _known(connection, sound)
    new = [fact for fact in sound if fact.hash not in known]
    insert_facts(connection, new)
    ahead = _move_clock(connection, new, milliseconds(now))
    return Taken(
        new=len({fact.hash for fact in new}),
        known=len(known),
        refused=len(facts) - len(sound),
        clocks_ahead=ahead,
    )


def _known(connection: Connection, facts: Sequence[Fact]) -> set[Any]:
    hashes = msgspec.json.encode([fact.hash for fact in facts]).decode()
    return set(connection.execute(_KNOWN, {"hashes": hashes}).scalars())


def _move_clock(connection: Connection, facts: Sequence[Fact], now_ms: int) -> tuple[str, ...]:
    """Move our clock on to theirs, unless theirs is plainly wrong; return the wrong ones."""
    stamps = [read_stamp(fact.header.stamp) for fact in facts]
    near = [stamp for stamp in stamps if stamp.wall_ms <= now_ms + _FAR_AHEAD_MS]
    if near:
        connection.execute(_MOVE_CLOCK, {"stamp": str(max(near))})
    return tuple(sorted({stamp.device for stamp in stamps} - {stamp.device for stamp in near}))
