"""What was withdrawn as entered in error: to be listed, with who withdrew it and why."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.records.kinds import WITHDRAWN, read_body


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawn:
    """A value that stands no longer, with the word of who withdrew it.

    ``value`` may be ``Erased`` or ``Unreadable``; ``author`` is a staff id, ``withdrawn_at`` an
    aware UTC instant.
    """

    fact_id: str
    value: Any
    why: str
    author: str
    withdrawn_at: datetime


_MARKS = text(
    """
SELECT m.id AS mark, m.author, m.happened_at, w.text AS said,
       f.id, f.kind, f.schema, f.local_date, b.text
FROM fact m JOIN supersession s ON s.child = m.id JOIN fact f ON f.id = s.parent
LEFT JOIN body b ON b.body_hash = f.body_hash LEFT JOIN body w ON w.body_hash = m.body_hash
WHERE m.kind = :mark AND m.case_id = :case_id ORDER BY m.stamp
"""
)
_AFTER = text(
    """
SELECT f.kind, f.schema, f.local_date, b.text FROM supersession s JOIN fact f ON f.id = s.child
LEFT JOIN body b ON b.body_hash = f.body_hash WHERE s.parent = :mark
"""
)


def withdrawn_of(connection: Connection, case_id: str) -> tuple[Withdrawn, ...]:
    """Return what was withdrawn of a case and did not come back, oldest withdrawal first.

    An entry written anew in its place does not take it off the list; the same value does.
    """
    rows = connection.execute(_MARKS, {"mark": WITHDRAWN, "case_id": case_id}).all()
    found = [
        (
            row.mark,
            Withdrawn(
                fact_id=row.id,
                value=read_body(row.kind, row.schema, row.local_date, row.text),
                why=json.loads(row.said)["why"] if row.said else "",
                author=row.author,
                withdrawn_at=datetime.fromisoformat(row.happened_at),
            ),
        )
        for row in rows
    ]
    return tuple(one for mark, one in found if not _came_back(connection, mark, one.value))


def _came_back(connection: Connection, mark: str, value: Any) -> bool:
    after = connection.execute(_AFTER, {"mark": mark}).all()
    return any(read_body(*row) == value for row in after)
