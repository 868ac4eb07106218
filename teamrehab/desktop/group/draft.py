"""What is typed of a team session and not saved, as text that outlives a crash."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from teamrehab.desktop.group.typed import GridRow
from teamrehab.tasks.group import Occasion

PLACE = "team session"


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """The session, its length as typed, the rows typed, by athlete, and lines not read."""

    occasion: Occasion
    length: str = ""
    rows: Mapping[str, tuple[bool | None, str, str, bool]] = field(default_factory=dict)
    not_read: str = ""


def draft_of(
    occasion: Occasion, length: str, rows: Sequence[GridRow], not_read: str = ""
) -> Draft:
    """Return the draft of what is typed and not saved."""
    kept = {
        row.athlete.athlete_id: (row.there, row.minutes, row.effort, row.by_length)
        for row in rows
        if row.touched
    }
    return Draft(occasion=occasion, length=length, rows=kept, not_read=not_read)


def to_text(draft: Draft) -> str:
    """Return the draft as JSON."""
    occasion = draft.occasion
    return json.dumps(
        {
            "on": occasion.on.isoformat(),
            "match": occasion.match,
            "session": occasion.session,
            "length": draft.length,
            "rows": dict(draft.rows),
            "not_read": draft.not_read,
        }
    )


def from_text(text: str) -> Draft | None:
    """Return the draft, None where the text is none: a draft is never worth a failure."""
    try:
        kept = json.loads(text)
        return Draft(
            occasion=Occasion(
                on=date.fromisoformat(kept["on"]),
                match=bool(kept["match"]),
                session=int(kept["session"]),
            ),
            length=str(kept["length"]),
            rows={
                key: (there, str(minutes), str(effort), bool(by_length))
                for key, (there, minutes, effort, by_length) in kept["rows"].items()
            },
            not_read=str(kept["not_read"]),
        )
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def restored(draft: Draft, row: GridRow) -> GridRow:
    """Return a row with what the draft holds of it typed again."""
    kept = draft.rows.get(row.athlete.athlete_id)
    if kept is None:
        return row
    there, minutes, effort, by_length = kept
    return replace(row, there=there, minutes=minutes, effort=effort, by_length=by_length)
