"""What is typed and not yet saved: kept on this laptop only, never a fact, never handed over.

A place names a form and, by ids, what it is about: ``evening/<day>/<case>``. No names there.
"""

import re

from sqlalchemy import text
from sqlalchemy.engine import Connection

from teamrehab.records.canonical import cleaned

_KEEP = text(
    "INSERT INTO draft (place, text) VALUES (:place, :text) "
    "ON CONFLICT (place) DO UPDATE SET text = excluded.text"
)
_DROP = text("DELETE FROM draft WHERE place = :place")
_ALL = text("SELECT place, text FROM draft ORDER BY place")
_CASES = text("SELECT DISTINCT case_id FROM fact WHERE athlete = :athlete AND case_id <> ''")
_ID = re.compile(r"[\w-]+")


def keep(connection: Connection, place: str, words: str) -> None:
    """Keep what is typed at a place instead of what was kept there; UnwritableTextError."""
    kept_as = {"place": cleaned(place, "draft"), "text": cleaned(words, "draft")}
    connection.execute(_KEEP, kept_as)


def drop(connection: Connection, place: str) -> None:
    """Drop what is kept at a place, if anything is."""
    connection.execute(_DROP, {"place": place})


def kept(connection: Connection) -> dict[str, str]:
    """Return every draft by its place."""
    return {row.place: row.text for row in connection.execute(_ALL)}


def forget_athlete(connection: Connection, athlete: str) -> None:
    """Drop every draft that names an athlete or a case of theirs: an erasure reaches them."""
    cases = connection.execute(_CASES, {"athlete": athlete}).scalars()
    about = {athlete, *cases}
    for place, words in kept(connection).items():
        if about.intersection(_ID.findall(f"{place} {words}")):
            drop(connection, place)
