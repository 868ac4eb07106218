"""The facts that nothing has replaced, as they lie in the tables."""

import json
from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.domain.history import Standing
from teamrehab.records.kinds import ERASED, TESTS, WITHDRAWN, read_body


class Head(NamedTuple):
    """One row of a head: its header, its body, when its slot began if it replaced something."""

    id: str
    kind: str
    schema: int
    slot: str
    athlete: str
    case_id: str
    local_date: str
    stamp: str
    author: str
    happened_at: str
    text: str | None
    began: str | None


_SELECT = """
SELECT f.id, f.kind, f.schema, f.slot, f.athlete, f.case_id, f.local_date, f.stamp, f.author,
       f.happened_at, b.text,
       CASE WHEN EXISTS (SELECT 1 FROM supersession s WHERE s.child = f.id)
            THEN (SELECT min(e.stamp) FROM fact e WHERE e.slot = f.slot) END
FROM fact f LEFT JOIN body b ON b.body_hash = f.body_hash
WHERE {which} AND NOT EXISTS (SELECT 1 FROM supersession s WHERE s.parent = f.id)
ORDER BY f.local_date, f.stamp
"""
_LISTED = "(SELECT value FROM json_each(:values))"
_WHICH = {
    "slot": f"f.slot IN {_LISTED}",
    "case_id": f"f.case_id IN {_LISTED}",
    "kind": f"f.kind IN {_LISTED}",
    "course": f"f.case_id <> '' AND f.kind IN {_LISTED}",
    # + keeps the index by case out: whatever has no case stands in one place of it
    "healthy": f"f.kind IN {TESTS} AND f.athlete IN {_LISTED} AND f.local_date >= :day "
    "AND +f.case_id = ''",
    # what ended before :day is not worth decoding
    "running": f"f.kind IN {_LISTED} AND "
    "coalesce(json_extract(b.text, '$.value.until'), '9999-12-31') >= :day",
    "from": f"f.kind IN {_LISTED} AND f.local_date >= :day",
}
_QUERIES = {name: text(_SELECT.format(which=which)) for name, which in _WHICH.items()}


def heads(
    connection: Connection, which: str, values: Iterable[str], day: str = ""
) -> list[Head]:
    """Return the heads whose ``which`` is among ``values``, oldest day first, then by stamp."""
    parameters = {"values": json.dumps(list(values))}
    if ":day" in _WHICH[which]:
        parameters["day"] = day
    return [Head(*row) for row in connection.execute(_QUERIES[which], parameters)]


def standing(rows: Sequence[Head]) -> tuple[Standing[Any], ...]:
    """Return the heads as standing facts, in the same order; marks are left out.

    ``versions`` counts the heads of a slot that were written without seeing each other. A
    withdrawal counts only while it has not seen what stands beside it.
    """
    by_slot: dict[str, list[Head]] = defaultdict(list)
    for row in rows:
        if row.kind != ERASED:
            by_slot[row.slot].append(row)
    return tuple(
        _standing(row, _versions(by_slot[row.slot]))
        for row in rows
        if row.kind not in (WITHDRAWN, ERASED)
    )


def _standing(row: Head, versions: int) -> Standing[Any]:
    return Standing(
        fact_id=row.id,
        value=read_body(row.kind, row.schema, row.local_date, row.text),
        author=row.author,
        noted_at=datetime.fromisoformat(row.happened_at),
        stamp=row.stamp,
        versions=versions,
        corrected=row.began is not None,
        began=row.began or row.stamp,
    )


def _versions(rows: list[Head]) -> int:
    if len(rows) == 1:
        return 1
    values = {row.id for row in rows if row.kind != WITHDRAWN}
    unseeing = [row for row in rows if row.kind == WITHDRAWN and not values <= _seen(row)]
    return len(values) + len(unseeing)


def _seen(mark: Head) -> set[str]:
    value = read_body(mark.kind, mark.schema, mark.local_date, mark.text)
    return set(getattr(value, "beside", ()))


def newest_per_slot(rows: Sequence[Head]) -> list[Head]:
    """Return one head a slot, the latest stamp: for what is shown in one line, like a name."""
    newest = {row.slot: row for row in sorted(rows, key=lambda row: row.stamp)}
    return [row for row in rows if newest[row.slot] is row]
