"""What the coach's sheet says of matches: today's answer, and each coming match in words."""

from dataclasses import replace

from teamrehab.domain.availability import Match
from teamrehab.domain.days import Fixture
from teamrehab.domain.history import Squad
from teamrehab.language import _
from teamrehab.reports.disclosure import clearance_limits, fit_for_coach
from teamrehab.reports.findings import ChanceInWords, SquadRow
from teamrehab.reports.outlook import COMING_MATCHES, absent, chance_of
from teamrehab.reports.wording import (
    assessed_words,
    chance_words,
    day_words,
    match_sentence,
    match_words,
)

_PLAYS = {Match.AVAILABLE, Match.LIMITED}


def match_answer(squad: Squad, row: SquadRow) -> str:
    """Return the answer for matches, with the limits of signatures that fit for a coach."""
    there = row.availability
    words = match_sentence(replace(there, match_role=fit_for_coach(there.match_role)))
    if row.match is not Match.LIMITED:
        return words
    signed = clearance_limits(squad, row.athlete_id)
    return "; ".join((words, *(limit for limit in signed if limit not in words)))


def match_chances(squad: Squad, row: SquadRow) -> tuple[ChanceInWords, ...]:
    """Return each coming match in words, () where today's answer holds for all of them.

    That is so for who plays and for who is away, unless a person decided about a match.
    """
    matches = squad.coming(COMING_MATCHES)
    decided = any(c.decided for f in matches if (c := chance_of(row, f)) is not None)
    if decided or (row.availability.medical and row.match not in _PLAYS):
        return tuple(_chance(squad, row, fixture) for fixture in matches)
    return ()


def _chance(squad: Squad, row: SquadRow, fixture: Fixture) -> ChanceInWords:
    """Return one match in words: absences, then decisions, then today's answer or a chance."""
    label = day_words(fixture.on)
    if absent(squad.absences, row.athlete_id, fixture):
        return ChanceInWords(label=label, words=_("away"), decided=True)
    chance = chance_of(row, fixture)
    if chance is not None and (chance.decided or row.match not in _PLAYS):
        words = chance_words(chance.chance, decided=chance.decided)
        return ChanceInWords(label=label, words=words, decided=chance.decided)
    if row.match in _PLAYS or _out_today(squad, row, fixture):
        return ChanceInWords(label=label, words=match_answer(squad, row), decided=True)
    if not row.availability.medical:
        return ChanceInWords(label=label, words=match_words(Match.AVAILABLE), decided=True)
    return ChanceInWords(label=label, words=assessed_words(None))


def _out_today(squad: Squad, row: SquadRow, fixture: Fixture) -> bool:
    return fixture.on <= squad.day and row.match is Match.NOT_AVAILABLE
