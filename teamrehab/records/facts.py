"""A fact as it is kept: a header under a hash, what it replaces, and a body apart."""

import secrets
from dataclasses import dataclass, fields
from operator import attrgetter
from typing import Any

import uuid_utils

from teamrehab.domain.days import Clock
from teamrehab.records.canonical import canonical, digest
from teamrehab.records.stamps import milliseconds


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """Who wrote what kind of thing about whom and when; no text a person typed.

    ``id`` is a UUIDv7: a name, never an order. ``prev`` is the hash of the same device's fact
    before, so that a gap or a change shows. ``local_date`` is the club's day the fact is about,
    ``happened_at`` the UTC instant it was noted, ``zone`` the club's zone then.
    """

    id: str
    team: str
    device: str
    seq: int
    prev: str
    stamp: str
    author: str
    kind: str
    schema: int
    slot: str
    athlete: str
    case_id: str
    local_date: str
    happened_at: str
    zone: str
    body_hash: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A header, its hash, the ids it replaces, and its body (None where it was erased)."""

    header: Header
    hash: str
    parents: tuple[str, ...]
    text: str | None


def sealed(header: Header, parents: tuple[str, ...], text: str | None) -> Fact:
    """Return the fact with the hash of its header and of the pairs of what it replaces."""
    return Fact(header=header, hash=hash_of(header, parents), parents=parents, text=text)


_NAMES = tuple(field.name for field in fields(Header))
_VALUES = attrgetter(*_NAMES)


def columns_of(header: Header) -> dict[str, Any]:
    """Return a header by column name (``asdict`` takes half the time of a large import)."""
    return dict(zip(_NAMES, _VALUES(header), strict=True))


def hash_of(header: Header, parents: tuple[str, ...]) -> str:
    """Return the hash that a header with these parents must have."""
    return digest(canonical(columns_of(header) | {"supersedes": sorted(parents)}))


def body_text(value: Any, why: str) -> str:
    """Return the canonical body; the salt keeps a short erased body from being guessed."""
    return canonical({"salt": secrets.token_hex(16), "value": value, "why": why})


def new_fact_id(clock: Clock) -> str:
    """Return a fresh UUIDv7 (RFC 9562, section 5.7) of the clock's instant."""
    nanoseconds = milliseconds(clock.instant()) * 1_000_000
    return str(uuid_utils.uuid7(nanoseconds=nanoseconds))
