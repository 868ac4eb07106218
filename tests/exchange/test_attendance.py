"""A list pasted from a spreadsheet: every line is read or named, nothing raises."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.exchange.attendance import preview_attendance
from tests.builders import athlete

SQUAD = (
    athlete(),
    athlete(athlete_id="a2", surname="Zieliński", first_name="Łukasz", number=9),
    athlete(athlete_id="a3", surname="Silva", first_name="Ana", number=10),
    athlete(athlete_id="a4", surname="Silva", first_name="Rui", number=11),
    athlete(athlete_id="a5", surname="van Dorn", first_name="Kit", number=None),
    athlete(athlete_id="a6", surname="Moreau", first_name="Léa", number=12),
)


def read(text):
    """Return what each athlete is said to have done."""
    found = preview_attendance(text, SQUAD)
    assert not found.problems, [str(one) for one in found.problems]
    return {row.athlete.athlete_id: (row.minutes, row.effort) for row in found.rows}


def refused(text):
    """Return (line, sentence) of every problem."""
    return [(one.line, str(one)) for one in preview_attendance(text, SQUAD).problems]


@pytest.mark.parametrize(
    "text",
    [
        "8\tOkafor\t75\t6\n9\tZieliński\t60\t7",
        "8;Sam Okafor;75;6\r\n9;ZIELINSKI Lukasz;60;7\r\n",
        "Okafor,75,6\nzielinski,60,7",
        "Okafor\tSam\t75\t6\nZielinski\tŁukasz\t60\t7",
        "8\t75\t6\n9\t60\t7",
        "Okafor, Sam;75 min;6\nŁ. Zieliński;60';7.0",
        "No;Name;Min;RPE\n8;Okafor;75;6\n9;;60;7",
        "RPE (0-10)\tPlayer\tDuration\n6\tokafor\t75\n7\tlukasz zielinski\t60",
        "Apellidos;Nombre;Minutos;Esfuerzo\nOkafor;Sam;75;6\nZielinski;Lukasz;60;7",
        '"Okafor"\t"75"\t"6"\n\n\t\t\n"Zielinski"\t60\t7\n',
    ],
)
def test_a_list_is_understood_by_its_headings_or_by_what_it_holds(text):
    assert read(text) == {"a1": (75, 6), "a2": (60, 7)}


def test_minutes_or_effort_may_be_missing_and_a_dash_says_nothing():
    text = "Name\tMinutes\tRPE\nOkafor\t75\t\nZielinski\t-\t7\nMoreau\t0\t\nvan Dorn\t\t"
    assert read(text) == {
        "a1": (75, None),
        "a2": (None, 7),
        "a6": (0, None),
        "a5": (None, None),
    }
    silent = [row for row in preview_attendance(text, SQUAD).rows if row.says_nothing]
    assert [row.athlete.surname for row in silent] == ["van Dorn"]


def test_a_number_or_a_first_name_settles_a_surname_that_two_have():
    assert read("11;Silva;75;6\n;A. Silva;60;5") == {"a4": (75, 6), "a3": (60, 5)}
    ((line, sentence),) = refused("Okafor;75;6\nSilva;60;5")
    assert line == 2
    assert "Ana Silva, Rui Silva" in sentence


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("77;Okafor;75;6", "no athlete of the squad has this number"),
        ("8;Nobody;75;6", "no athlete of the squad is called so"),
        ("9;Okafor;75;6", "number 9 is Łukasz Zieliński"),
        ("8;Okafor;1:15;6", "1:15 - a whole number from 0 to 300"),
        ("8;Okafor;301;6", "301"),
        ("8;Okafor;75;11", "11 - a whole number from 0 to 10"),
        ("8;Okafor;75;7.5", "7.5"),
        (";;75;6", "a number or a name is needed"),
        ("12;Moreau;75;6", "stands on line 2 already"),
    ],
)
def test_a_line_that_cannot_stand_is_named_with_its_number_value_and_remedy(line, said):
    ((number, sentence),) = refused(f"Number;Name;Minutes;Effort\n12;Moreau;50;4\n{line}\n")
    assert number == 3
    assert said in sentence
    assert sentence.startswith("Line 3: ")
    assert sentence.rstrip().endswith(".")


def test_one_quotation_mark_too_many_swallows_no_line_below_it():
    assert read('"Okafor\t\t\nZielinski\t60\t7\nMoreau\t50\t4')["a6"] == (50, 4)


def test_a_column_that_is_not_read_is_named():
    found = preview_attendance("Name;Minutes;Distance\nOkafor;75;6100", SQUAD)
    assert found.not_recognised == ("Distance",)


def test_a_surname_that_reads_like_a_heading_is_still_an_athlete():
    squad = (*SQUAD, athlete(athlete_id="a7", surname="No", first_name="", number=5))
    found = preview_attendance("5;No;90;7\n8;Okafor;75;6", squad)
    assert [row.athlete.athlete_id for row in found.rows] == ["a7", "a1"]


CELLS = st.one_of(
    st.sampled_from(
        ["8", "Okafor", "Silva", "75", "6", "-", "", '"', "Name", "Minutes", "RPE"]
    ),
    st.text(max_size=8),
)
LISTS = st.builds(
    lambda rows, sign: "\n".join(sign.join(row) for row in rows),
    st.lists(st.lists(CELLS, max_size=5), max_size=8),
    st.sampled_from("\t;,"),
)


@given(st.one_of(st.text(), LISTS))
def test_any_text_is_answered_and_every_line_is_a_row_or_a_problem_or_the_headings(text):
    found = preview_attendance(text, SQUAD)
    rows, problems = {row.line for row in found.rows}, {one.line for one in found.problems}
    seen = {
        number
        for number, line in enumerate(re.split(r"\r\n|\r|\n", text), start=1)
        if any(sign.isalnum() for sign in line)
    }
    assert not rows & problems
    assert len(found.rows) == len(rows)
    assert len(found.problems) == len(problems)
    assert len(seen - rows - problems) <= 1
