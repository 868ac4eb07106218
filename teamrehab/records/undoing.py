"""A save is taken back by a correcting step: what stood before it stands again."""

import json
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.domain.history import Erased, Unreadable
from teamrehab.records.errors import NotUndoneError, ReplacedMeanwhileError
from teamrehab.records.facts import Fact
from teamrehab.records.kinds import ERASED, WITHDRAWN, read_body
from teamrehab.records.marks import EnteredInError
from teamrehab.records.writing import Entry, Pen, Seen, by_id

_PARENTS = text("SELECT parent FROM supersession WHERE child = :id ORDER BY parent")
_CHILDREN = text(
    "SELECT parent, child FROM supersession WHERE parent IN (SELECT value FROM json_each(:ids))"
)
_BODY = text(
    "SELECT f.kind, f.schema, f.local_date, b.text FROM fact f "
    "LEFT JOIN body b ON b.body_hash = f.body_hash WHERE f.id = :id"
)


@dataclass(frozen=True, slots=True)
class Undone:
    """A fact to be taken back, the id of what takes its place, and the value if there is one.

    Without a value the fact is marked as entered in error.
    """

    target: Seen
    new_id: str
    value: Any = None


def value_of(connection: Connection, fact_id: str) -> Any:
    """Return what a fact says, or ``Erased`` or ``Unreadable``."""
    kind, schema, on, body = connection.execute(_BODY, {"id": fact_id}).one()
    return read_body(kind, schema, on, body)


def to_undo(
    connection: Connection, fact_ids: Sequence[str], new_ids: Sequence[str]
) -> tuple[Undone, ...]:
    """Return for each fact of a save that still stands what is to stand in its place.

    Raises:
        ReplacedMeanwhileError: one of them no longer stands.
        NotUndoneError: one of them settled two versions, or lies too deep.
    """
    own = set(fact_ids)
    found = {seen.id: seen for seen in by_id(connection, fact_ids)}
    heads = [found[one] for one in fact_ids if one in found and one in _tips(connection, own)]
    if not heads or len(found) != len(own):
        raise ReplacedMeanwhileError
    return tuple(
        Undone(head, new_id, _before(connection, head, own))
        for head, new_id in zip(heads, new_ids, strict=False)
    )


def undone(pen: Pen, steps: Sequence[Undone], why: str) -> list[Fact]:
    """Return the facts that take a save back."""
    return [pen.fact(_entry(step, why)) for step in steps]


def _entry(step: Undone, why: str) -> Entry:
    if step.value is not None:
        return Entry(id=step.new_id, value=step.value, why=why, replaced=(step.target,))
    return Entry(
        id=step.new_id,
        value=EnteredInError(fact_id=step.target.id),
        why=why,
        replaced=(step.target,),
        about=step.target,
    )


def _tips(connection: Connection, own: Collection[str]) -> set[str]:
    """Return which of a save's own facts nothing else replaced.

    Within one save a later value of a slot replaces an earlier one: that is no replacement.
    """
    rows = connection.execute(_CHILDREN, {"ids": json.dumps(sorted(own))}).all()
    if any(child not in own for _parent, child in rows):
        raise ReplacedMeanwhileError
    return set(own) - {parent for parent, _child in rows}


def _before(connection: Connection, head: Seen, own: Collection[str]) -> Any:
    """Return the value that stood before a save, None where nothing did."""
    if head.kind == ERASED:
        raise NotUndoneError
    before = {seen.id: seen for seen in _replaced(connection, head, own)}
    values = [seen for seen in before.values() if seen.kind != WITHDRAWN]
    if len(values) > 1:
        raise NotUndoneError
    if not values:
        return None
    value = value_of(connection, values[0].id)
    return None if isinstance(value, Erased | Unreadable) else value


def _replaced(connection: Connection, fact: Seen, own: Collection[str]) -> Iterator[Seen]:
    """Yield what a fact replaced, of its own save what that replaced in its turn."""
    parents = list(connection.execute(_PARENTS, {"id": fact.id}).scalars())
    for parent in by_id(connection, parents):
        if parent.id in own:
            yield from _replaced(connection, parent, own)
        else:
            yield parent
