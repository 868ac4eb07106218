"""A day that a clinician expects: an opinion, never a range, on every way it goes out."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.availability import Match, Training
from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.injuries import RedFlag, ReturnDecision, Urgency
from teamrehab.reports.paper.coach_sheet import draw_coach_sheet
from teamrehab.reports.sheet import coach_sheet, issued
from teamrehab.reports.sheet_text import sheet_text
from teamrehab.reports.squad_text import squad_values
from teamrehab.reports.wording_clinical import likely_words
from tests.reports.squads import MONDAY, NOW, club, estimate, hurt, limited, people, rows_of
from tests.reports.test_paper import text_of

WHO = people(1)[0]
ILL = {"c-a1": NoEstimate.ILLNESS}
SAID = "expected by the medical staff: Thu 17 Dec"
TO_THE_COACH = "expected about Thu 17 Dec"


def opinion(day, case_id="c-a1", **more):
    return ReturnDecision(case_id=case_id, athlete_id="a1", on=MONDAY, expected=day, **more)


THURSDAY = opinion(date(2026, 12, 17))


def row_of(*cases, estimates):
    (row,) = rows_of(club(1, open_cases=cases), estimates)
    return row


def test_without_an_estimate_the_opinion_is_a_day_and_never_a_range():
    row = row_of(hurt(WHO, 3, THURSDAY), estimates=ILL)
    assert (row.likely.expected, row.likely.earliest, row.likely.median, row.likely.latest) == (
        date(2026, 12, 17),
        None,
        None,
        None,
    )
    assert row.likely.chances == ()
    assert likely_words(row.likely, row.no_estimate) == SAID
    assert squad_values([row])[0]["likely_return"] == SAID


def test_beside_a_range_the_opinion_comes_first_and_the_range_stays_as_it_was():
    alone = row_of(hurt(WHO, 3), estimates={"c-a1": estimate(3, 20)}).likely
    both = row_of(hurt(WHO, 3, THURSDAY), estimates={"c-a1": estimate(3, 20)}).likely
    assert replace(both, expected=None) == alone
    assert likely_words(both, None).startswith(f"{SAID}; ")


@given(st.integers(-40, -1))
def test_a_day_that_has_passed_counts_no_more(ago):
    past = opinion(MONDAY + timedelta(days=ago))
    assert row_of(hurt(WHO, 50, past), estimates=ILL).likely is None


def test_an_opinion_about_one_case_never_covers_another_of_which_nothing_is_known():
    other = hurt(WHO, 2)
    renamed = replace(other, case=replace(other.case, case_id="c-other"))
    known = {**ILL, "c-other": NoEstimate.UNCONFIRMED}
    assert row_of(hurt(WHO, 3, THURSDAY), renamed, estimates=known).likely is None
    longer = {**ILL, "c-other": estimate(20, 40)}
    row = row_of(hurt(WHO, 3, THURSDAY), renamed, estimates=longer)
    assert (row.case_id, row.likely.expected) == ("c-other", None)
    assert row.likely.earliest is not None


def test_an_open_red_flag_and_a_later_decided_day_silence_the_opinion():
    flag = RedFlag(
        flag_id="f",
        case_id="c-a1",
        athlete_id="a1",
        on=MONDAY,
        what="warm",
        urgency=Urgency.SAME_DAY,
    )
    flagged = row_of(hurt(WHO, 3, THURSDAY, flag), estimates={"c-a1": NoEstimate.RED_FLAG})
    assert flagged.likely is None
    later = opinion(date(2026, 12, 17), not_before=date(2026, 12, 20))
    row = row_of(hurt(WHO, 3, later), estimates=ILL)
    assert (row.likely.not_before, row.likely.expected) == (date(2026, 12, 20), None)


def sheet_of(*facts, **changes):
    squad = club(1, open_cases=(hurt(WHO, 3, *facts, **changes),))
    return squad, coach_sheet(squad, rows_of(squad, ILL), now=NOW, signed="Ines Duarte")


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"training": Training.FULL, "match": Match.UNDECIDED},
    ],
)
def test_the_coach_reads_the_day_on_the_sheet_in_its_text_and_on_paper(changes):
    _squad, sheet = sheet_of(THURSDAY, **changes)
    assert sheet.lines[0].expected == date(2026, 12, 17)
    assert TO_THE_COACH in sheet_text(sheet)
    assert TO_THE_COACH in text_of(draw_coach_sheet(sheet))


def test_who_trains_with_limits_has_the_day_beside_them_on_paper():
    case = limited(WHO)
    squad = club(1, open_cases=(replace(case, facts=(*case.facts, *_standing(THURSDAY))),))
    sheet = coach_sheet(squad, rows_of(squad, ILL), now=NOW, signed="Ines Duarte")
    assert sheet.with_limits[0].expected == date(2026, 12, 17)
    assert TO_THE_COACH in sheet_text(sheet)
    assert TO_THE_COACH in text_of(draw_coach_sheet(sheet))


def _standing(value):
    return hurt(WHO, 3, value).facts[-1:]


def test_the_next_sheet_says_that_the_day_came_moved_or_went():
    def changed(before, after):
        squad, first = sheet_of(*before)
        last = issued(first, squad, rows_of(squad, ILL))
        later, _sheet = sheet_of(*after)
        later = replace(later, last_sheet=last)
        return coach_sheet(later, rows_of(later, ILL), now=NOW).changed

    friday = opinion(date(2026, 12, 18))
    name = WHO.name
    assert changed((), (THURSDAY,)) == (f"{name}: return {TO_THE_COACH}",)
    assert changed((THURSDAY,), (friday,)) == (
        f"{name}: return expected about Fri 18 Dec (was {TO_THE_COACH})",
    )
    assert changed((THURSDAY,), ()) == (f"{name}: return being assessed (was {TO_THE_COACH})",)
    assert changed((THURSDAY,), (THURSDAY,)) == ()
