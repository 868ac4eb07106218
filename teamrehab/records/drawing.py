"""What each kind of save writes, worked out inside its transaction."""

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.domain.days import Clock
from teamrehab.records.errors import ReplacedMeanwhileError
from teamrehab.records.facts import Fact, new_fact_id
from teamrehab.records.kinds import WITHDRAWN
from teamrehab.records.marks import EnteredInError, Erasure
from teamrehab.records.writing import (
    Entry,
    Pen,
    Seen,
    by_id,
    chained,
    heads_of,
    same_body,
    shared_out,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Receipt:
    """What was written: it is on the disk. ``stamp`` is that of the last fact."""

    fact_ids: tuple[str, ...]
    stamp: str
    noted_at: datetime


_STAMPS = text(
    "SELECT stamp, happened_at FROM fact WHERE id IN (SELECT value FROM json_each(:ids)) "
    "ORDER BY stamp DESC LIMIT 1"
)
_BODY_HASH = text("SELECT body_hash FROM fact WHERE id = :id")


def receipt_for(connection: Connection, ids: tuple[str, ...]) -> Receipt:
    """Return the receipt for facts that are in the tables."""
    stamp, noted_at = connection.execute(_STAMPS, {"ids": json.dumps(ids)}).one()
    return Receipt(fact_ids=ids, stamp=stamp, noted_at=datetime.fromisoformat(noted_at))


def entries_of(
    clock: Clock, values: Sequence[Any], why: str, fact_ids: Sequence[str] | None = None
) -> list[Entry]:
    """Return values on their way to become facts, under these ids or fresh ones."""
    ids = tuple(fact_ids or (new_fact_id(clock) for _ in values))
    if len(set(ids)) != len(values) or not values:
        raise ValueError("one or more values, and an id of its own for each")
    return [Entry(id=i, value=v, why=why) for i, v in zip(ids, values, strict=True)]


def marks_of(clock: Clock, fact_ids: Sequence[str], why: str) -> list[Entry]:
    """Return marks that these facts were entered in error."""
    if not fact_ids or len(set(fact_ids)) != len(fact_ids):
        raise ValueError("name one or more facts, each once")
    return entries_of(clock, [EnteredInError(fact_id=one) for one in fact_ids], why)


def noted(
    connection: Connection,
    pen: Pen,
    entries: Sequence[Entry],
    replaces: Sequence[str] | None,
    *,
    again: bool,
) -> list[Fact]:
    """Return the facts to write for new values; ``again``: some may be there already."""
    new = _not_written(connection, entries) if again else entries
    if replaces is None:
        return chained(connection, new, pen)
    if not new:
        return []
    return [pen.fact(entry) for entry in shared_out(new, by_id(connection, replaces))]


def _not_written(connection: Connection, entries: Sequence[Entry]) -> list[Entry]:
    """Return the entries whose ids are free; raises ValueError if one names another value."""
    written = {seen.id for seen in by_id(connection, [entry.id for entry in entries])}
    for entry in entries:
        if entry.id in written and not same_body(connection, entry.id, entry.value):
            raise ValueError("this id was used for another value; take a new one")
    return [entry for entry in entries if entry.id not in written]


def withdrawn(connection: Connection, pen: Pen, entries: Sequence[Entry]) -> list[Fact]:
    """Return the marks that standing facts were entered in error, in the order given."""
    ids = [entry.value.fact_id for entry in entries]
    found = by_id(connection, ids)
    heads = heads_of(connection, {seen.slot for seen in found})
    standing = {seen.id: seen for seen in heads if seen.kind != WITHDRAWN}
    if not standing.keys() >= set(ids):
        raise ReplacedMeanwhileError
    left = [seen for seen in heads if seen.id not in ids]
    return [_mark(pen, entry, standing[entry.value.fact_id], left) for entry in entries]


def _mark(pen: Pen, entry: Entry, target: Seen, left: Sequence[Seen]) -> Fact:
    beside = tuple(seen.id for seen in left if seen.slot == target.slot)
    mark = EnteredInError(fact_id=target.id, beside=beside)
    return pen.fact(replace(entry, value=mark, replaced=(target,), about=target))


def erased(
    connection: Connection, pen: Pen, erasure_id: str, fact_id: str, why: str
) -> list[Fact]:
    """Return the fact by which the body of another goes."""
    found = by_id(connection, [fact_id])
    if not found:
        raise ReplacedMeanwhileError
    body_hash = connection.execute(_BODY_HASH, {"id": fact_id}).scalar_one()
    value = Erasure(fact_id=fact_id, body_hash=body_hash)
    return [pen.fact(Entry(id=erasure_id, value=value, why=why, about=found[0]))]
