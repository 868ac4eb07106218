from dataclasses import replace
from datetime import date

import pytest

from teamrehab.domain.athletes import Athlete, Team
from teamrehab.domain.days import Fixture
from teamrehab.tasks.importing import (
    doubts_about_fixtures,
    doubts_about_roster,
    preview_fixtures,
    preview_roster,
    take_in_fixtures,
    take_in_roster,
)
from teamrehab.tasks.refusals import RefusedError
from tests.builders import ONSET
from tests.records.books import new_book

TODAY = ONSET


@pytest.fixture
def casebook(tmp_path):
    with new_book(tmp_path / "book") as made:
        yield made


@pytest.fixture
def roster(tmp_path, casebook):
    def take_in(*rows, headings="Number,Surname,First name,Born,Position"):
        path = tmp_path / "roster.csv"
        path.write_text("\n".join([headings, *rows]), encoding="utf-8")
        return take_in_roster(casebook, preview_roster(path, TODAY))

    return take_in


@pytest.fixture
def fixtures(tmp_path, casebook):
    def take_in(*events):
        path = tmp_path / "fixtures.ics"
        body = "".join(f"BEGIN:VEVENT\n{event}\nEND:VEVENT\n" for event in events)
        path.write_text(f"BEGIN:VCALENDAR\n{body}END:VCALENDAR\n", encoding="utf-8")
        return take_in_fixtures(casebook, preview_fixtures(path, casebook.team, TODAY))

    return take_in


def squad(casebook):
    return {s.value.surname: s.value for s in casebook.all_of(Athlete)}


def test_a_calendar_event_that_tells_something_medical_is_no_match(casebook, tmp_path):
    path = tmp_path / "fixtures.ics"
    events = [
        f"BEGIN:VEVENT\nUID:m{n}\nDTSTART:20261010T130000Z\nSUMMARY:{said}\nEND:VEVENT\n"
        for n, said in enumerate(("Riverside v Away Club", "Sam: hamstring scan"))
    ]
    path.write_text(f"BEGIN:VCALENDAR\n{''.join(events)}END:VCALENDAR\n", encoding="utf-8")
    found = preview_fixtures(path, casebook.team, TODAY)
    assert [f.opponent for f in found.fixtures] == ["Away Club"]
    assert [p.what.value for p in found.problems] == ["hamstring, scan"]


def test_new_athletes_are_noted_in_one_transaction_with_ids_of_their_own(casebook, roster):
    done = roster("8,Okafor,Sam,2001-03-01,wing", "9,Bae,Ji-an,,back")
    assert (done.new, done.changed, done.unchanged) == (2, 0, 0)
    assert len(done.receipt.fact_ids) == 2
    assert len({a.athlete_id for a in squad(casebook).values()} - {""}) == 2


def test_the_same_roster_again_writes_nothing(roster):
    rows = ("8,Okafor,Sam,2001-03-01,wing", "9,Bae,Ji-an,,back")
    roster(*rows)
    again = roster(*rows)
    assert (again.new, again.changed, again.unchanged, again.receipt) == (0, 0, 2, None)


def test_a_known_name_and_birth_date_is_an_update_whatever_the_number(casebook, roster):
    roster("8,Okafor,Sam,2001-03-01,wing")
    before = squad(casebook)["Okafor"]
    done = roster("14,OKAFOR,sam,01.03.2001,back")
    after = squad(casebook)["OKAFOR"]
    assert (done.new, done.changed) == (0, 1)
    assert (after.athlete_id, after.number, after.position) == (before.athlete_id, 14, "back")


def test_a_known_number_and_surname_is_an_update_and_fills_in_what_was_missing(
    casebook, roster
):
    roster("8,Okafor,S.,,wing")
    roster("8,Okafor,Sam,2001-03-01,")
    after = squad(casebook)["Okafor"]
    assert (after.first_name, after.born, after.position) == ("Sam", date(2001, 3, 1), "wing")


def test_the_same_shirt_and_surname_with_another_birth_date_is_another_person(casebook, roster):
    roster("8,Okafor,Sam,2001-03-01,wing")
    assert roster("8,Okafor,Ada,2004-03-01,wing").new == 1
    assert len(casebook.all_of(Athlete)) == 2


def test_two_rows_for_one_known_shirt_update_one_athlete_only(casebook, roster):
    roster("8,Okafor,Sam,,wing")
    done = roster("8,Okafor,Sam,,back", "8,Okafor,Ada,,wing")
    assert (done.new, done.changed) == (1, 1)
    assert {a.value.first_name for a in casebook.all_of(Athlete)} == {"Sam", "Ada"}


def test_who_is_missing_from_a_later_roster_stays(casebook, roster):
    roster("8,Okafor,Sam,,wing", "9,Bae,Ji-an,,back")
    roster("9,Bae,Ji-an,,back")
    assert set(squad(casebook)) == {"Okafor", "Bae"}


def test_good_rows_are_taken_in_beside_bad_ones(casebook, roster):
    roster("8,Okafor,Sam,2001-02-30,wing", "9,Bae,Ji-an,,back")
    assert set(squad(casebook)) == {"Bae"}


def test_what_a_roster_or_a_calendar_does_not_give_is_said(casebook, tmp_path):
    table = tmp_path / "roster.csv"
    table.write_text("Surname,Boots,Agent\nOkafor,43,none\n", encoding="utf-8")
    (said,) = doubts_about_roster(preview_roster(table, TODAY))
    assert said == "2 columns were not recognised and are not read: Boots, Agent."
    table.write_text("Surname,Boots\nOkafor,43\n", encoding="utf-8")
    (said,) = doubts_about_roster(preview_roster(table, TODAY))
    assert said == "The column Boots was not recognised and is not read."
    path = tmp_path / "fixtures.ics"
    event = f"BEGIN:VEVENT\n{MATCH}\nEND:VEVENT\n".replace("2026", "2031")
    path.write_text(f"BEGIN:VCALENDAR\n{event}END:VCALENDAR\n", encoding="utf-8")
    (said,) = doubts_about_fixtures(preview_fixtures(path, casebook.team, TODAY))
    assert said == "1 match is more than a year away and is not read."


def test_a_file_that_cannot_be_read_is_a_refusal(tmp_path):
    with pytest.raises(RefusedError, match="could not be opened"):
        preview_roster(tmp_path / "none.csv", TODAY)
    with pytest.raises(RefusedError, match="could not be opened"):
        preview_fixtures(tmp_path / "none.ics", Team(name="x"), TODAY)


MATCH = "UID:m1\nDTSTART:20261010T130000Z\nSUMMARY:Riverside v Away Club\nSEQUENCE:1"


def only(casebook):
    ((fact),) = casebook.all_of(Fixture)
    return fact.value


def test_a_match_comes_back_from_the_casebook_as_it_was_read(casebook, fixtures):
    assert fixtures(MATCH).new == 1
    assert (only(casebook).opponent, only(casebook).on) == ("Away Club", date(2026, 10, 10))
    assert fixtures(MATCH).unchanged == 1


def test_a_higher_or_equal_revision_changes_a_match_and_a_lower_one_does_not(
    casebook, fixtures
):
    fixtures(MATCH)
    assert fixtures(MATCH.replace("20261010", "20261011")).changed == 1
    assert fixtures(MATCH.replace("20261010", "20261012").replace(":1", ":0")).unchanged == 1
    assert only(casebook).on == date(2026, 10, 11)


def test_a_cancelled_match_is_kept_as_cancelled(casebook, fixtures):
    fixtures(MATCH)
    fixtures(MATCH.replace("SEQUENCE:1", "SEQUENCE:2\nSTATUS:CANCELLED"))
    assert only(casebook) == replace(only(casebook), cancelled=True, revision=2)
    assert casebook.squad(TODAY).coming(3) == ()
