"""A red flag is followed by everything that goes out, until a named doctor closes it."""

from dataclasses import replace
from datetime import timedelta

import pytest

from teamrehab.domain.availability import Match, Training
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.evening import evening_lines
from teamrehab.reports.sheet import coach_sheet
from teamrehab.reports.sheet_text import sheet_text
from tests.reports.squads import MONDAY, NOW, club, hurt, people, rows_of

WHO = people(1)[0]
FLAG = RedFlag(
    flag_id="f",
    case_id="c-a1",
    athlete_id="a1",
    on=MONDAY,
    what="calf warm and swollen",
    urgency=Urgency.SAME_DAY,
)
SEEN = replace(FLAG, closed_on=MONDAY, closed_by="Dr Ana Brandt")


def squad_with(*facts):
    """A squad of one who may train with the team as far as the case says."""
    free = {"training": Training.FULL, "match": Match.AVAILABLE}
    return club(1, open_cases=(hurt(WHO, 20, *facts, **free),))


def row_and_text(squad):
    rows = rows_of(squad, {})
    return rows[0], sheet_text(coach_sheet(squad, rows, now=NOW, signed="Ines Duarte"))


@pytest.mark.parametrize("urgency", Urgency)
def test_squad_sheet_and_evening_say_not_available_and_no_loading(urgency):
    squad = squad_with(replace(FLAG, urgency=urgency))
    row, told = row_and_text(squad)
    assert (row.training, row.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert "Not training (1)" in told
    assert "warm" not in told
    assert "red flag" not in told.casefold()
    (line,) = evening_lines(squad, load_protocols(), injury_catalogue(), MONDAY, NOW)
    assert line.stopped
    assert line.plan_words == "no loading: review first"


def test_all_of_it_ends_when_a_named_doctor_has_closed_it_and_not_before():
    row, told = row_and_text(squad_with(SEEN))
    assert (row.training, row.match) == (Training.FULL, Match.AVAILABLE)
    assert "Not training (0)" in told
    nobody = replace(SEEN, closed_by=" ")
    row, _told = row_and_text(squad_with(nobody))
    assert row.training is Training.NONE


def test_a_flag_that_is_days_old_holds_as_one_of_today():
    old = replace(FLAG, on=MONDAY - timedelta(days=10))
    row, _told = row_and_text(squad_with(old))
    assert row.training is Training.NONE
