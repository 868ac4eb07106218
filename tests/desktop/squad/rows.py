"""Squads of rows for the table, without a casebook."""

from dataclasses import replace

from teamrehab.domain.athletes import Team
from teamrehab.domain.availability import Availability, Match, Training
from teamrehab.domain.days import Fixture
from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.history import Squad
from teamrehab.reports.findings import FixtureChance, LikelyReturn, SquadRow
from teamrehab.reports.outlook import outlook
from tests.builders import ONSET, athlete, day

MATCH = Fixture(fixture_id="m1", on=day(12), opponent="Saltreach")


def row(number, name="", **changes):
    surname = name or f"Player{number:03}"
    first = SquadRow(
        athlete_id=f"a{number}",
        number=number,
        name=f"Sam {surname}",
        surname=surname,
        position="wing",
        availability=Availability(),
    )
    return replace(first, **changes)


def hurt(number, name="", training=Training.NONE, match=Match.NOT_AVAILABLE, **changes):
    availability = Availability(training=training, match=match, medical=True)
    clinical = {
        "problem": "Calf strain",
        "side": "left",
        "days": number,
        "case_id": f"c{number}",
    }
    return row(number, name, availability=availability, **(clinical | changes))


def likely(first, median, last):
    return LikelyReturn(
        earliest=day(first),
        median=day(median),
        latest=day(last),
        chances=(
            FixtureChance(fixture_id="m1", on=MATCH.on, opponent="Saltreach", chance=0.42),
        ),
    )


def squad_of(rows):
    athletes = tuple(
        athlete(athlete_id=r.athlete_id, surname=r.surname, number=r.number) for r in rows
    )
    return Squad(
        day=ONSET, team=Team(name="Harbour Rovers"), athletes=athletes, fixtures=(MATCH,)
    )


MIXED = (
    row(1, "Abara"),
    hurt(2, "Çelik", likely=likely(10, 14, 23)),
    hurt(
        3, "Dumas", training=Training.WITH_LIMITS, match=Match.LIMITED, likely=likely(4, 6, 9)
    ),
    hurt(4, "Ekström", no_estimate=NoEstimate.TOO_YOUNG),
)


def show(view, rows):
    squad = squad_of(rows)
    view.show_squad(squad, tuple(rows), outlook(squad, rows))
