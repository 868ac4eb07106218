"""Facts read back whole, with the hash they were stored under."""

from collections.abc import Iterator
from dataclasses import fields

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.records.canonical import digest
from teamrehab.records.facts import Fact, Header, hash_of
from teamrehab.records.stamps import read_stamp

_COLUMNS = [field.name for field in fields(Header)]
_SELECT = f"""
SELECT {", ".join(f"f.{name}" for name in _COLUMNS)}, f.hash, b.text,
       (SELECT group_concat(parent) FROM supersession s WHERE s.child = f.id)
FROM fact f LEFT JOIN body b ON b.body_hash = f.body_hash
"""  # noqa: S608  the names are those of a dataclass
_ALL = text(f"{_SELECT} ORDER BY f.device, f.seq")
_OWN_END = text(f"{_SELECT} WHERE f.device = :device ORDER BY f.seq DESC LIMIT 1")


def stored_facts(connection: Connection) -> Iterator[Fact]:
    """Yield every fact, each device's chain in order."""
    for row in connection.execution_options(yield_per=1000).execute(_ALL):
        yield _fact(tuple(row))


def _fact(row: tuple[object, ...]) -> Fact:
    width = len(_COLUMNS)
    header = Header(**dict(zip(_COLUMNS, row[:width], strict=True)))  # type: ignore[arg-type]
    hash_, body, parents = row[width:]
    ids = tuple(sorted(str(parents).split(","))) if parents else ()
    return Fact(header=header, hash=str(hash_), parents=ids, text=body)  # type: ignore[arg-type]


def is_sound(fact: Fact) -> bool:
    """Return whether header, pairs and body fit their hashes and the stamp can be read."""
    try:
        read_stamp(fact.header.stamp)
    except ValueError:
        return False
    whole = fact.text is None or digest(fact.text) == fact.header.body_hash
    return whole and fact.hash == hash_of(fact.header, fact.parents)


def own_end_is_sound(connection: Connection, device: str) -> bool:
    """Return whether the newest fact of a device has the hash its header asks for."""
    row = connection.execute(_OWN_END, {"device": device}).one_or_none()
    if row is None:
        return True
    return is_sound(_fact(tuple(row)))
