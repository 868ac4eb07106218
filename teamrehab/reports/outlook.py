"""The squad in one line: who can train today, and how the coming matches look."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum

from teamrehab.domain.availability import Absence, Match, Training
from teamrehab.domain.days import Fixture
from teamrehab.domain.history import Squad
from teamrehab.reports.findings import FixtureChance, MatchOutlook, Outlook, SquadRow
from teamrehab.reports.wording import tenths

COMING_MATCHES = 3
"""Matches looked at ahead (common practice: a chance further off says too little)."""


class Standing(Enum):
    """How one athlete stands for one match."""

    AVAILABLE = "available"
    POSSIBLE = "possible"
    OUT = "out"
    BEING_ASSESSED = "being assessed"


@dataclass(frozen=True, slots=True)
class Stands:
    """How one athlete stands for one match; ``chance`` is 1 or 0 where it is decided."""

    standing: Standing
    chance: float = 0.0


def outlook(squad: Squad, rows: Sequence[SquadRow]) -> Outlook:
    """Return the squad in one line. Decisions count as decided, the rest by its chance."""
    away = sum(is_away(row) for row in rows)
    none = sum(row.training is Training.NONE for row in rows)
    return Outlook(
        day=squad.day,
        full=sum(row.training is Training.FULL for row in rows),
        with_limits=sum(row.training is Training.WITH_LIMITS for row in rows),
        none=none - away,
        away=away,
        matches=tuple(match_outlook(squad, rows, f) for f in squad.coming(COMING_MATCHES)),
    )


def is_away(row: SquadRow) -> bool:
    """Return whether an athlete does not train for another than a medical reason."""
    there = row.availability
    return there.absence is not None and not there.medical and row.training is Training.NONE


def match_outlook(squad: Squad, rows: Iterable[SquadRow], fixture: Fixture) -> MatchOutlook:
    """Return how many are available, possible (with their expected number) and out."""
    stands = [stands_for(squad, row, fixture) for row in rows]
    count = {wanted: sum(s.standing is wanted for s in stands) for wanted in Standing}
    return MatchOutlook(
        fixture=fixture,
        available=count[Standing.AVAILABLE],
        possible=count[Standing.POSSIBLE],
        expected_of_possible=sum(s.chance for s in stands if s.standing is Standing.POSSIBLE),
        out=count[Standing.OUT],
        being_assessed=count[Standing.BEING_ASSESSED],
    )


def stands_for(squad: Squad, row: SquadRow, fixture: Fixture) -> Stands:
    """Return how one athlete stands for a match: absences and decisions first."""
    if absent(squad.absences, row.athlete_id, fixture):
        return Stands(Standing.OUT)
    chance = chance_of(row, fixture)
    if chance is not None and chance.decided:
        return _by_chance(chance)
    if row.match in {Match.AVAILABLE, Match.LIMITED} or _only_away_today(row):
        return Stands(Standing.AVAILABLE, 1.0)
    if chance is not None:
        return _by_chance(chance)
    if fixture.on <= squad.day and row.match is Match.NOT_AVAILABLE:
        return Stands(Standing.OUT)
    return Stands(Standing.BEING_ASSESSED)


def _only_away_today(row: SquadRow) -> bool:
    return row.availability.absence is not None and not row.availability.medical


def absent(absences: Iterable[Absence], athlete_id: str, fixture: Fixture) -> bool:
    """Return whether an absence that is not medical covers the day of the match."""
    return any(
        a.athlete_id == athlete_id
        and a.on <= fixture.on
        and (a.until is None or fixture.on <= a.until)
        for a in absences
    )


def chance_of(row: SquadRow, fixture: Fixture) -> FixtureChance | None:
    """Return the chance of one athlete for a match, None where there is none to tell."""
    chances = row.likely.chances if row.likely is not None else ()
    return next((c for c in chances if c.fixture_id == fixture.fixture_id), None)


def _by_chance(chance: FixtureChance) -> Stands:
    """Return possible, or out where it is decided or not expected (under 1 in 10)."""
    if chance.decided:
        standing = Standing.AVAILABLE if chance.chance > 0.5 else Standing.OUT
        return Stands(standing, float(chance.chance > 0.5))
    if tenths(chance.chance) == 0:
        return Stands(Standing.OUT, chance.chance)
    return Stands(Standing.POSSIBLE, chance.chance)
