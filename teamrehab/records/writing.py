"""From values to facts: what each replaces, its place in the chain, and the rows written."""

import json
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

import msgspec
from sqlalchemy import text
from sqlalchemy.dialects.sqlite import insert
from sqlalchemy.engine import Connection

from teamrehab.domain.days import Clock
from teamrehab.records import drafts, tables
from teamrehab.records.canonical import canonical, cleaned, digest
from teamrehab.records.facts import Fact, Header, body_text, columns_of, sealed
from teamrehab.records.kinds import BY_SHAPE, ERASED, WITHDRAWN, Kind
from teamrehab.records.stamps import Stamp, next_stamp, read_stamp
from teamrehab.records.this_laptop import remembered

_INSERT_FACT = insert(tables.fact).on_conflict_do_nothing()
_INSERT_PAIR = insert(tables.supersession).on_conflict_do_nothing()
_INSERT_BODY = insert(tables.body).on_conflict_do_nothing()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainEnd:
    """The newest fact of this laptop: where the next one is hung up."""

    seq: int = 0
    hash: str = ""
    stamp: Stamp


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A fact to be replaced: all that is needed of it."""

    id: str
    kind: str
    slot: str
    athlete: str
    case_id: str
    local_date: str
    stamp: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One value on its way to become a fact; ``about`` is taken over from a fact it marks."""

    id: str
    value: Any
    why: str = ""
    replaced: tuple[Seen, ...] = ()
    about: Seen | None = None

    @property
    def kind(self) -> Kind:
        """Return the kind of the value; raises TypeError for a value that is no fact."""
        known = BY_SHAPE.get(type(self.value))
        if known is None:
            raise TypeError(f"{type(self.value).__name__} is not a kind of fact")
        return known

    @property
    def slot(self) -> str:
        """Return what the value is about; a withdrawal takes the place of what it withdraws."""
        if self.about is not None and self.kind.name == WITHDRAWN:
            return self.about.slot
        return str(cleaned(self.kind.slot(self.value), "id"))


@dataclass(slots=True, kw_only=True)
class Pen:
    """Who writes, where and when; each ``fact`` moves its chain end on."""

    team_id: str
    author: str
    clock: Clock
    end: ChainEnd

    def fact(self, entry: Entry) -> Fact:
        """Return the entry as the next fact of this laptop's chain."""
        stamps = [read_stamp(seen.stamp) for seen in entry.replaced]
        stamp = next_stamp(self.end.stamp, self.clock.instant(), stamps)
        body = body_text(plain(entry.value), str(cleaned(entry.why, "why")))
        header = self._header(entry, stamp, digest(body))
        fact = sealed(header, tuple(sorted({seen.id for seen in entry.replaced})), body)
        self.end = ChainEnd(seq=header.seq, hash=fact.hash, stamp=stamp)
        return fact

    def _header(self, entry: Entry, stamp: Stamp, body_hash: str) -> Header:
        athlete, case_id, day = _subject(entry, self.clock)
        return Header(
            id=entry.id,
            team=self.team_id,
            device=self.end.stamp.device,
            seq=self.end.seq + 1,
            prev=self.end.hash,
            stamp=str(stamp),
            author=self.author,
            kind=entry.kind.name,
            schema=entry.kind.schema,
            slot=entry.slot,
            athlete=athlete,
            case_id=case_id,
            local_date=day,
            happened_at=self.clock.instant().isoformat(timespec="milliseconds"),
            zone=self.clock.zone,
            body_hash=body_hash,
        )


def plain(value: Any) -> Any:
    """Return a value as plain data with clean text; raises UnwritableTextError."""
    return cleaned(msgspec.to_builtins(value))


def _subject(entry: Entry, clock: Clock) -> tuple[str, str, str]:
    """Return athlete, case and day a fact is about; what has no day of its own: today."""
    if entry.about is not None:
        return entry.about.athlete, entry.about.case_id, entry.about.local_date
    value = entry.value
    day: date = getattr(value, "on", None) or clock.today()
    athlete = cleaned(getattr(value, "athlete_id", ""), "athlete")
    return athlete, cleaned(getattr(value, "case_id", ""), "case"), day.isoformat()


_SEEN = """
SELECT f.id, f.kind, f.slot, f.athlete, f.case_id, f.local_date, f.stamp FROM fact f
WHERE f.{column} IN (SELECT value FROM json_each(:wanted)) {heads}
"""
_HEADS_ONLY = "AND NOT EXISTS (SELECT 1 FROM supersession s WHERE s.parent = f.id)"
_BY_SLOT = text(_SEEN.format(column="slot", heads=_HEADS_ONLY))
_BY_ID = text(_SEEN.format(column="id", heads=""))


def heads_of(connection: Connection, slots: Iterable[str]) -> list[Seen]:
    """Return the heads of these slots."""
    return _seen(connection, _BY_SLOT, slots)


def by_id(connection: Connection, ids: Iterable[str]) -> list[Seen]:
    """Return the facts with these ids, replaced or not."""
    return _seen(connection, _BY_ID, ids)


def _seen(connection: Connection, query: Any, wanted: Iterable[str]) -> list[Seen]:
    rows = connection.execute(query, {"wanted": json.dumps(list(wanted))}).mappings()
    return [Seen(**row) for row in rows]


def chained(connection: Connection, entries: Sequence[Entry], pen: Pen) -> list[Fact]:
    """Return the facts, each replacing the heads of its slot.

    Within one save a later value of a slot replaces an earlier one.
    """
    present: dict[str, list[Seen]] = defaultdict(list)
    slots = [entry.slot for entry in entries]
    for seen in heads_of(connection, set(slots)):
        present[seen.slot].append(seen)
    facts = []
    for slot, entry in zip(slots, entries, strict=True):
        fact = pen.fact(replace(entry, replaced=tuple(present[slot])))
        present[slot] = [_as_seen(fact.header)]
        facts.append(fact)
    return facts


def _as_seen(header: Header) -> Seen:
    return Seen(**{name: getattr(header, name) for name in Seen.__dataclass_fields__})


def shared_out(entries: Sequence[Entry], replaced: Sequence[Seen]) -> list[Entry]:
    """Return the entries, each with those of ``replaced`` it stands for.

    That is the entry of the same slot, else the first of the same kind (a corrected day moves
    a value to another slot).

    Raises:
        ValueError: no entry stands for one of them.
    """
    shares: dict[int, list[Seen]] = defaultdict(list)
    for seen in replaced:
        fits = [i for i, entry in enumerate(entries) if entry.slot == seen.slot] or [
            i for i, entry in enumerate(entries) if entry.kind.name == seen.kind
        ]
        if not fits:
            raise ValueError(f"none of the values can replace a {seen.kind}")
        shares[fits[0]].append(seen)
    return [replace(entry, replaced=tuple(shares[i])) for i, entry in enumerate(entries)]


def insert_facts(connection: Connection, facts: Sequence[Fact]) -> None:
    """Write facts, what they replace and their bodies; what is there already stays."""
    if not facts:
        return
    connection.execute(_INSERT_FACT, [columns_of(f.header) | {"hash": f.hash} for f in facts])
    pairs = [{"parent": p, "child": f.header.id} for f in facts for p in f.parents]
    if pairs:
        connection.execute(_INSERT_PAIR, pairs)
    bodies = [
        {"body_hash": f.header.body_hash, "text": f.text} for f in facts if f.text is not None
    ]
    if bodies:
        connection.execute(_INSERT_BODY, bodies)
    for fact in facts:
        if fact.header.kind == ERASED:
            connection.execute(_ERASE, {"slot": fact.header.slot})
            if fact.header.athlete:
                drafts.forget_athlete(connection, fact.header.athlete)


_ERASE = text("DELETE FROM body WHERE body_hash = substr(:slot, length('erasure:') + 1)")


def chain_end(connection: Connection, device: str) -> ChainEnd:
    """Return where the next fact of this laptop is hung up.

    Its stamp is the later of its own last one and of the clock moved on by taking in others'.
    """
    row = connection.execute(_END, {"device": device}).one_or_none()
    moved = remembered(connection, "clock")
    seq, last, stamp = row if row is not None else (0, "", str(Stamp(device=device)))
    latest = max(read_stamp(stamp), read_stamp(moved or stamp))
    return ChainEnd(seq=seq, hash=last, stamp=replace(latest, device=device))


_END = text(
    "SELECT seq, hash, stamp FROM fact WHERE device = :device ORDER BY seq DESC LIMIT 1"
)


def same_body(connection: Connection, fact_id: str, value: Any) -> bool:
    """Return whether the fact with this id was written from an equal value."""
    kept = connection.execute(_BODY, {"id": fact_id}).scalar()
    if kept is None:
        return False
    return canonical(json.loads(kept)["value"]) == canonical(plain(value))


_BODY = text(
    "SELECT b.text FROM fact f JOIN body b ON b.body_hash = f.body_hash WHERE f.id = :id"
)
