"""Minutes in training and matches: who was there, week by week."""

from collections.abc import Sequence
from datetime import date, timedelta
from random import Random

from demo_roster.course import Course
from demo_roster.people import ANCHOR
from demo_roster.seasons import saturday, weeks_until
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import AvailabilityStated, Match, Training

SESSIONS = ((1, 85), (2, 85), (3, 70))
"""Day of the week (Monday is 0) and minutes of the team sessions."""
ELEVEN, SUBSTITUTES = 11, 3

Week = dict[str, object]


def weeks(squad: Sequence[Athlete], courses: Sequence[Course], rng: Random) -> list[Week]:
    """Return one row for each athlete and week: minutes on each day."""
    own = {a.athlete_id: [c for c in courses if c.athlete is a] for a in squad}
    rows = []
    for monday, match in weeks_until(ANCHOR):
        there = [a for a in squad if a.in_squad(monday)]
        played = _match(there, own, saturday(monday), rng) if match else {}
        for athlete in there:
            trained = [
                _trained(own[athlete.athlete_id], monday + timedelta(days=d), minutes, rng)
                for d, minutes in SESSIONS
            ]
            minutes = [*trained, played.get(athlete.athlete_id, 0)]
            if any(minutes):
                names = ("tuesday", "wednesday", "thursday", "match")
                row: Week = {"athlete_id": athlete.athlete_id, "monday": monday}
                rows.append(row | dict(zip(names, (m or "" for m in minutes), strict=True)))
    return rows


def _trained(cases: Sequence[Course], on: date, minutes: int, rng: Random) -> int:
    """Return the minutes of one session: less with limits, none when out or now and then."""
    allowed = _stated(cases, on)
    if allowed is not None and allowed.training is Training.NONE:
        return 0
    if any(case.case.on == on for case in cases):
        return rng.randrange(10, minutes, 5)
    if rng.random() < 0.04:
        return 0
    with_limits = allowed is not None and allowed.training is Training.WITH_LIMITS
    return minutes // 2 if with_limits else minutes


def _match(
    there: Sequence[Athlete],
    own: dict[str, list[Course]],
    on: date,
    rng: Random,
) -> dict[str, int]:
    """Return who played how long: who was hurt in the match was on the field until then."""
    hurt = [a for a in there if any(c.case.on == on for c in own[a.athlete_id])]
    fit = [
        a
        for a in there
        if a not in hurt and (a.age_on(on) or 0) >= 17 and _may_play(own[a.athlete_id], on)
    ]
    eleven = hurt[:ELEVEN] + rng.sample(fit, ELEVEN - len(hurt[:ELEVEN]))
    bench = [a for a in fit if a not in eleven]
    minutes = {a.athlete_id: 90 for a in eleven}
    off = [*hurt[:SUBSTITUTES], *(a for a in eleven if a not in hurt)][:SUBSTITUTES]
    for leaving, coming in zip(off, rng.sample(bench, len(off)), strict=True):
        left_at = rng.randrange(25, 85, 5)
        minutes[leaving.athlete_id], minutes[coming.athlete_id] = left_at, 90 - left_at
    return minutes


def _may_play(cases: Sequence[Course], on: date) -> bool:
    stated = _stated(cases, on)
    return stated is None or stated.match is Match.AVAILABLE


def _stated(cases: Sequence[Course], on: date) -> AvailabilityStated | None:
    """Return what the case of a day allowed, None when healthy or on the day of onset."""
    said = [
        fact
        for case in cases
        for fact in case.facts
        if isinstance(fact, AvailabilityStated) and case.case.on < on and fact.on <= on
    ]
    return max(said, key=lambda fact: fact.on, default=None)
