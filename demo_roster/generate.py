"""Write the files of the demo squad: ``python -m demo_roster.generate``.

Everything is invented. One seeded ``random.Random`` decides what is left to chance, so the same
bytes come out every time; what the program proposed at each stage is asked of the program, so
the files are written again when its rules or protocols change.
"""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from datetime import timedelta
from enum import Enum
from pathlib import Path
from random import Random
from typing import Any

from demo_roster.course import Course, Legs
from demo_roster.evenings import note_done, note_levels, note_mornings, note_signs
from demo_roster.exposure import weeks
from demo_roster.past import OPEN, illnesses, injuries
from demo_roster.people import STAFF, squad
from demo_roster.present import Present, open_cases
from demo_roster.seasons import calendar, starts
from demo_roster.written import closed_illness, closed_injury, healthy_values
from teamrehab.domain.availability import AvailabilityStated, Limit
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    LevelMoved,
    ProtocolChosen,
    Side,
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
from teamrehab.exchange.roster_out import roster_csv

SEED = 20261005
FOLDER = Path(__file__).resolve().parent
TABLES: Mapping[str, tuple[type, ...]] = {
    "cases.csv": (Case,),
    "diagnoses.csv": (Diagnosis,),
    "protocols.csv": (ProtocolChosen,),
    "signs.csv": (SignsAsked,),
    "stages.csv": (StageMoved,),
    "availability.csv": (AvailabilityStated,),
    "clearances.csv": (Clearance,),
    "closed.csv": (CaseClosed,),
    "tests.csv": (FunctionCheck, HeelRaiseTest, HopTest, RunTest, LoadedRaiseTest),
    "sessions.csv": (SessionEntry,),
    "levels.csv": (LevelMoved,),
    "mornings.csv": (MorningResponse,),
}

Flat = dict[str, str]


def files() -> dict[str, bytes]:
    """Return the content of every generated file by its name."""
    rng = Random(SEED)  # noqa: S311  chance for a demo, not a secret
    people = squad()
    legs = {athlete.athlete_id: Legs.of(rng) for athlete in people}
    healthy = _healthy(people, legs)
    courses = _courses(people, legs, healthy, rng)
    facts = [*healthy, *(f for course in courses for f in (course.case, *course.facts))]
    found = {name: _table(kinds, facts) for name, kinds in TABLES.items()}
    found["exposure.csv"] = _csv([_flat(row) for row in weeks(people, courses, rng)])
    found["staff.csv"] = _csv([_flat(_parts(member)) for member in STAFF])
    found["roster.csv"] = roster_csv(people)
    found["fixtures.ics"] = calendar().encode()
    return found


def _healthy(people: Sequence[Any], legs: Mapping[str, Legs]) -> list[Any]:
    """Return the tests of the pre-season, by a chance of their own: courses rest on them."""
    rng = Random(SEED + 1)  # noqa: S311  chance for a demo, not a secret
    on = starts()[-1] + timedelta(days=1)
    facts = [fact for a in people for fact in healthy_values(a, legs[a.athlete_id], on, rng)]
    return [replace(f, test_id=f"healthy-{number:03}") for number, f in enumerate(facts, 1)]


def _courses(
    people: Sequence[Any], legs: Mapping[str, Legs], healthy: Sequence[Any], rng: Random
) -> list[Course]:
    plans = injuries(tuple(people), rng)
    ill = illnesses(tuple(people), plans, rng)
    closed = [
        closed_injury(
            number,
            plan,
            legs[plan.athlete.athlete_id],
            rng,
            f"case-{plan.again_of + 1:03}" if plan.again_of >= 0 else "",
        )
        for number, plan in enumerate(plans, 1)
    ]
    closed += [closed_illness(n, plan, rng) for n, plan in enumerate(ill, len(plans) + 1)]
    present = Present(people, dict(legs), len(closed) + 1, rng)
    still_open = open_cases(present, _last_gastrocnemius(closed))
    for course in still_open:
        note_done(course)
        note_mornings(course)
    for course in closed + still_open:
        who = course.athlete.athlete_id
        course.healthy = [fact for fact in healthy if fact.athlete_id == who]
        course.settle()
    for course in still_open:
        note_levels(course)
        course.settle()  # a gate may ask for levels too
        note_signs(course)
    return closed + still_open


def _last_gastrocnemius(closed: Sequence[Course]) -> tuple[int, Side, str]:
    """Return (shirt, side, case) of the last closed strain there: the one that came back."""
    strains = [
        course
        for course in closed
        for fact in course.facts
        if isinstance(fact, Diagnosis) and fact.muscle == "gastrocnemius"
    ]
    free = [course for course in strains if course.athlete.number not in OPEN]
    last = max(free, key=lambda course: course.case.on)
    return last.athlete.number or 0, last.case.side, last.case.case_id


def _table(kinds: tuple[type, ...], facts: Iterable[Any]) -> bytes:
    """Return the facts of some kinds as CSV, by day; several kinds say which they are."""
    wanted = sorted((fact for fact in facts if type(fact) in kinds), key=lambda fact: fact.on)
    several = len(kinds) > 1
    return _csv(
        [
            _flat({"kind": type(f).__name__} if several else {}) | _flat(_parts(f))
            for f in wanted
        ]
    )


def _parts(value: Any, under: str = "") -> dict[str, Any]:
    """Return the fields of a value, those of inner values as "left.repetitions"."""
    found: dict[str, Any] = {}
    for part in fields(value):
        inner = getattr(value, part.name)
        name = f"{under}{part.name}"
        found |= _parts(inner, f"{name}.") if is_dataclass(inner) else {name: inner}
    return found


def _flat(parts: Mapping[str, Any]) -> Flat:
    return {name: _cell(value) for name, value in parts.items()}


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return "; ".join(one if isinstance(one, str) else _limit(one) for one in value)
    return str(value.value if isinstance(value, Enum) else value)


def _limit(limit: Limit) -> str:
    most = "" if limit.at_most is None else f" {limit.at_most}"
    return f"{limit.activity.value}{most}"


def _csv(rows: Sequence[Flat]) -> bytes:
    """Return rows as CSV (UTF-8) under every column that some row fills."""
    names = dict.fromkeys(name for row in rows for name, cell in row.items() if cell)
    out = io.StringIO(newline="")
    writer = csv.DictWriter(
        out, list(names), extrasaction="ignore", restval="", lineterminator="\n"
    )
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue().encode()


if __name__ == "__main__":
    for name, content in files().items():
        (FOLDER / name).write_bytes(content)
        print(f"{name}: {len(content)} bytes")
