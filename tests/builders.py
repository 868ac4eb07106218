"""Values with sensible defaults, so that a test names only what it is about."""

from datetime import UTC, date, datetime, time, timedelta
from itertools import count
from typing import Any

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.days import Clock
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import Case, Side

ONSET = date(2026, 10, 5)
"""A Monday; builders count days from it."""

_ids = count(1)


def day(number: int) -> date:
    """Return the day ``number`` days after the onset."""
    return ONSET + timedelta(days=number)


def clock(on: date = ONSET, hour: int = 20, zone: str = "UTC") -> Clock:
    """Return a clock that stands still."""
    instant = datetime.combine(on, time(hour), UTC)
    return Clock(lambda: instant, zone)


def athlete(**changes) -> Athlete:
    """Return an athlete of 25."""
    values: dict[str, Any] = {
        "born": date(2001, 3, 1),
        "athlete_id": "a1",
        "surname": "Okafor",
        "first_name": "Sam",
        "number": 8,
    }
    return Athlete(**(values | changes))


def case(**changes) -> Case:
    """Return a left-sided injury."""
    values: dict[str, Any] = {
        "case_id": "c1",
        "athlete_id": "a1",
        "on": ONSET,
        "side": Side.LEFT,
    }
    return Case(**(values | changes))


def standing(value, author: str = "s1") -> Standing:
    """Return a value as a standing fact, noted in the evening of its day."""
    noted = datetime.combine(value.on, time(20), UTC)
    return Standing(fact_id=f"f{next(_ids):06}", value=value, author=author, noted_at=noted)


def history(*values, of=None, by=None, baseline=()) -> History:
    """Return a case with these values standing, oldest first."""
    facts, healthy = (
        tuple(standing(value) for value in sorted(some, key=lambda v: v.on))
        for some in (values, baseline)
    )
    return History(athlete=by or athlete(), case=of or case(), facts=facts, baseline=healthy)


def stated(of: Case, number: int = 0, **changes) -> AvailabilityStated:
    """Return what a case allows from day ``number`` on: nothing, unless told otherwise."""
    values: dict[str, Any] = {"training": Training.NONE, "match": Match.NOT_AVAILABLE}
    ids: dict[str, Any] = {
        "case_id": of.case_id,
        "athlete_id": of.athlete_id,
        "on": day(number),
    }
    return AvailabilityStated(**(ids | values | changes))
