"""The files of the demo squad read into facts, dated as they are or moved by whole weeks."""

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

from teamrehab.domain.athletes import Athlete, StaffMember, Team
from teamrehab.domain.availability import Activity, AvailabilityStated, Limit
from teamrehab.domain.days import Exposure
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    LevelMoved,
    ProtocolChosen,
    StageMoved,
)
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    LoadedRaiseTest,
    MorningResponse,
    RunTest,
    SessionEntry,
)
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.exchange.fixtures import preview_fixtures
from teamrehab.exchange.roster import preview_roster

ANCHOR = date(2026, 10, 5)
"""The Monday the files are dated from (see demo_roster/README.txt)."""
TEAM = Team(name="Velmarsh Harriers", sport="football")
SEASONS = timedelta(weeks=4 * 53)

_TABLES: Mapping[str, type | None] = {
    "cases.csv": Case,
    "diagnoses.csv": Diagnosis,
    "protocols.csv": ProtocolChosen,
    "signs.csv": SignsAsked,
    "mornings.csv": MorningResponse,
    "sessions.csv": SessionEntry,
    "tests.csv": None,
    "stages.csv": StageMoved,
    "levels.csv": LevelMoved,
    "availability.csv": AvailabilityStated,
    "clearances.csv": Clearance,
    "closed.csv": CaseClosed,
}
"""In the order in which a day writes them: what was seen before what was decided. None: each
row says which test it is."""
_TESTS: Mapping[str, type] = {
    kind.__name__: kind
    for kind in (FunctionCheck, HeelRaiseTest, HopTest, RunTest, LoadedRaiseTest)
}
_LISTS = frozenset(("asked", "seen"))
"""Fields of several keys, written as "clot; rupture"."""
_DAYS = ("tuesday", "wednesday", "thursday")


def staff(folder: Path) -> tuple[StaffMember, ...]:
    """Return the invented staff, the doctor first."""
    return tuple(_value(StaffMember, row) for row in _rows(folder / "staff.csv"))


def facts(folder: Path, team: Team) -> list[Any]:
    """Return all facts of the demo as the files date them, oldest first; athletes lead."""
    found = [*_dated(folder), *_exposures(folder / "exposure.csv")]
    found += preview_fixtures(folder / "fixtures.ics", team, ANCHOR, within=SEASONS).fixtures
    return [*_athletes(folder / "roster.csv"), *sorted(found, key=lambda fact: fact.on)]


def _dated(folder: Path) -> Iterator[Any]:
    for name, kind in _TABLES.items():
        for row in _rows(folder / name):
            shape = kind or _TESTS[row.pop("kind")]
            yield _value(shape, row if kind else {"case_id": ""} | row)


def _athletes(path: Path) -> list[Athlete]:
    """Return the roster, read as a club's own would be."""
    preview = preview_roster(path, ANCHOR)
    return [replace(a, athlete_id=f"athlete-{a.number:02}") for a in preview.athletes]


def _exposures(path: Path) -> Iterator[Exposure]:
    for row in _rows(path):
        monday, who = date.fromisoformat(row["monday"]), row["athlete_id"]
        for offset, name in enumerate(_DAYS, start=1):
            if minutes := row.get(name):
                on = monday + timedelta(days=offset)
                yield Exposure(athlete_id=who, on=on, match=False, minutes=int(minutes))
        if minutes := row.get("match"):
            on = monday + timedelta(days=5)
            yield Exposure(athlete_id=who, on=on, match=True, minutes=int(minutes))


def _rows(path: Path) -> Iterator[dict[str, str]]:
    """Yield the rows of a file without their empty cells."""
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield {name: cell for name, cell in row.items() if cell}


def _value(kind: type[Any], row: Mapping[str, str]) -> Any:
    """Return a row as a value; "left.repetitions" is a field of an inner value."""
    from msgspec import convert

    nested: dict[str, Any] = {}
    for name, cell in row.items():
        outer, _dot, inner = name.partition(".")
        if inner:
            nested.setdefault(outer, {})[inner] = cell
        else:
            nested[name] = {"yes": True, "no": False}.get(cell, cell)
    for name in _LISTS & nested.keys():
        nested[name] = nested[name].split("; ")
    limits = nested.pop("limits", "")
    value: Any = convert(nested, kind, strict=False)
    return replace(value, limits=_limits(limits)) if limits else value


def _limits(text: str) -> tuple[Limit, ...]:
    """Return the limits in "contact; pace 90"."""
    found = []
    for part in text.split("; "):
        words, _space, number = part.rpartition(" ")
        capped = number.isdecimal()
        activity = Activity(words if capped else part)
        found.append(Limit(activity, int(number) if capped else None))
    return tuple(found)


def moved(values: Sequence[Any], weeks: int) -> list[Any]:
    """Return the values with every date in them moved by so many weeks."""
    return [_moved(value, timedelta(weeks=weeks)) for value in values]


def _moved(value: Any, by: timedelta) -> Any:
    dates = {
        part.name: inner + by
        for part in fields(value)
        if isinstance(inner := getattr(value, part.name), date | datetime)
    }
    return replace(value, **dates)
