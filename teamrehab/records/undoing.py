"""A save is taken back by a correcting step: what stood before it stands again."""

import json
from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.domain.history import Erased, Unreadable
from teamrehab.records.errors import NotUndoneError, ReplacedMeanwhileError
from teamrehab.records.kinds import ERASED, WITHDRAWN, read_body
from teamrehab.records.marks import EnteredInError
from teamrehab.records.writing import Entry, Seen, by_id, heads_of

_PARENTS = text(
    "SELECT child, parent FROM supersession WHERE child IN (SELECT value FROM json_each(:ids))"
)
_CHILDREN = text(
    "SELECT parent, child FROM supersession WHERE parent IN (SELECT value FROM json_each(:ids))"
)
_BODY = text(
    "SELECT f.kind, f.schema, f.local_date, b.text FROM fact f "
    "LEFT JOIN body b ON b.body_hash = f.body_hash WHERE f.id = :id"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """The facts ``asked`` to be taken back, and what hangs together with them.

    ``own`` are these and the cancelled ones that replaced them in turn; ``before`` the facts
    of other saves that one of ``own`` replaced; ``parents`` and ``children`` hold ids, ``said``
    the values of ``own``, None for a withdrawal.
    """

    asked: Collection[str]
    own: Mapping[str, Seen]
    said: Mapping[str, Any]
    before: Mapping[str, Seen]
    parents: Mapping[str, Collection[str]]
    children: Mapping[str, Collection[str]]

    @property
    def tips(self) -> tuple[Seen, ...]:
        """Return the facts that stand: those asked for, or what stands for one of them.

        In one save a later value replaces an earlier one.
        """
        heads = (seen for seen in self.own.values() if not self.children.get(seen.id))
        return tuple(head for head in heads if self.meant(head))

    def meant(self, tip: Seen) -> tuple[str, ...]:
        """Return the facts asked for in whose place a fact stands.

        After a step back that is the same value, or a withdrawal, about the same thing.
        """
        above = [one for one in self._above(tip.id) if one in self.asked]
        same = [one for one in above if self._is_same(self.own[one], tip)]
        found = above if tip.id in self.asked else [a for one in same for a in self._above(one)]
        return tuple(dict.fromkeys(one for one in found if one in self.asked))

    def replaced_by(self, tip: Seen) -> Iterator[Seen]:
        """Yield what stood before the save where this fact stands now."""
        for fact_id in self.meant(tip):
            for parent in self.parents.get(fact_id, ()):
                if parent not in self.asked:
                    yield self.before[parent]

    def _is_same(self, one: Seen, other: Seen) -> bool:
        return one.slot == other.slot and self.said[one.id] == self.said[other.id]

    def _above(self, fact_id: str) -> Iterator[str]:
        yield fact_id
        for parent in self.parents.get(fact_id, ()):
            if parent in self.own:
                yield from self._above(parent)

    def is_alone(self, before: Seen) -> bool:
        """Return whether nobody else replaced it too: their word would still count."""
        return set(self.children[before.id]) <= self.own.keys()


def value_of(connection: Connection, fact_id: str) -> Any:
    """Return what a fact says, or ``Erased`` or ``Unreadable``."""
    kind, schema, on, body = connection.execute(_BODY, {"id": fact_id}).one()
    return read_body(kind, schema, on, body)


def taking_back(
    connection: Connection,
    fact_ids: Sequence[str],
    why: str,
    new_id: Callable[[], str],
    cancelled: Collection[str] = (),
) -> list[Entry]:
    """Return what is to be written so that things stand as if these facts never had.

    ``cancelled`` are facts taken back before and those that took them back: what hangs on
    these facts of them counts as if it had never been, else no second step back could be made.

    Raises:
        ReplacedMeanwhileError: one of them no longer stands, or a withdrawal is not the only
            one of that entry.
        NotUndoneError: one of them settled two versions, or what would stand is erased.
    """
    saved = _saved(connection, fact_ids, cancelled)
    if {one for tip in saved.tips for one in saved.meant(tip)} != saved.asked:
        raise ReplacedMeanwhileError
    again = {tip.id: list(_again(connection, saved, tip)) for tip in saved.tips}
    slots = {seen.slot for seen in (*saved.own.values(), *saved.before.values())}
    heads = [seen for seen in heads_of(connection, slots) if seen.id not in saved.own]
    entries = [
        Entry(id=new_id(), value=_readable(connection, one), why=why, replaced=(tip,))
        for tip in saved.tips
        for one in again[tip.id]
    ]
    marked = [tip for tip in saved.tips if not again[tip.id]]
    return entries + [_mark(tip, new_id(), why, heads) for tip in marked]


def _with_cancelled(
    connection: Connection, fact_ids: Sequence[str], cancelled: Collection[str]
) -> list[str]:
    """Return the facts and, of the cancelled ones, those that replaced them in turn."""
    found, newest = list(fact_ids), list(fact_ids)
    while newest and cancelled:
        pairs = _pairs(connection, _CHILDREN, newest).values()
        after = dict.fromkeys(one for children in pairs for one in children)
        newest = [one for one in after if one in cancelled and one not in found]
        found += newest
    return found


def _saved(
    connection: Connection, fact_ids: Sequence[str], cancelled: Collection[str]
) -> Saved:
    ids = _with_cancelled(connection, fact_ids, cancelled)
    found = {seen.id: seen for seen in by_id(connection, ids)}
    own = {one: found[one] for one in ids if one in found}
    parents = _pairs(connection, _PARENTS, own)
    before = {one for found in parents.values() for one in found} - own.keys()
    children = _pairs(connection, _CHILDREN, {*own, *before})
    replaced = any(set(children.get(one, ())) - own.keys() for one in own)
    if replaced or not own or own.keys() != set(ids):
        raise ReplacedMeanwhileError
    return Saved(
        asked=frozenset(fact_ids),
        said={one: _said(connection, seen) for one, seen in own.items()},
        own=own,
        before={seen.id: seen for seen in by_id(connection, before)},
        parents=parents,
        children=children,
    )


def _said(connection: Connection, seen: Seen) -> Any:
    return None if seen.kind == WITHDRAWN else value_of(connection, seen.id)


def _pairs(connection: Connection, query: Any, ids: Iterable[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = defaultdict(list)
    for one, other in connection.execute(query, {"ids": json.dumps(sorted(ids))}):
        found[one].append(other)
    return found


def _again(connection: Connection, saved: Saved, tip: Seen) -> Iterator[Seen]:
    """Yield what is to stand again in place of a fact."""
    before = {seen.id: seen for seen in saved.replaced_by(tip)}
    values = [seen for seen in before.values() if seen.kind != WITHDRAWN]
    marks = [seen for seen in before.values() if seen.kind == WITHDRAWN]
    settled = any(count > 1 for count in Counter(seen.slot for seen in values).values())
    if tip.kind == ERASED or settled or any(_unseen(connection, marks, v) for v in values):
        raise NotUndoneError
    alone = [seen for seen in values if saved.is_alone(seen)]
    if tip.kind == WITHDRAWN and not alone:
        raise ReplacedMeanwhileError
    yield from alone


def _unseen(connection: Connection, marks: Sequence[Seen], value: Seen) -> bool:
    """Return whether a withdrawal stood beside a value as a second version of it."""
    beside = [mark.id for mark in marks if mark.slot == value.slot]
    return any(
        value.id not in getattr(value_of(connection, mark), "beside", ()) for mark in beside
    )


def _readable(connection: Connection, before: Seen) -> Any:
    value = value_of(connection, before.id)
    if isinstance(value, Erased | Unreadable):
        raise NotUndoneError
    return value


def _mark(tip: Seen, mark_id: str, why: str, heads: Sequence[Seen]) -> Entry:
    beside = tuple(head.id for head in heads if head.slot == tip.slot)
    mark = EnteredInError(fact_id=tip.id, beside=beside)
    return Entry(id=mark_id, value=mark, why=why, replaced=(tip,), about=tip)
