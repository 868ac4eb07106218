"""What is asked for inside an open casebook: imports, keys, athletes, settings, the check."""

from typing import Any

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.athlete_dialog import AthleteDialog
from teamrehab.desktop.import_dialog import ImportDialog
from teamrehab.desktop.intakes import fixtures_intake, roster_intake
from teamrehab.desktop.key_dialog import KeyDialog
from teamrehab.domain.athletes import Athlete, Role
from teamrehab.domain.days import Fixture
from teamrehab.domain.history import Standing
from teamrehab.domain.settings import ClubSettings
from teamrehab.records import open_casebook, people_of
from tests.builders import clock

ROSTER = """No,Surname,First name,Born
1,Okafor,Sam,2001-03-01
2,Menon,Ravi,2000-02-31
3,Łukasik,Jan,04/05/2003
"""

FIXTURES = """BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//test//
BEGIN:VEVENT
UID:m1
DTSTART:20261010T150000Z
SUMMARY:Harbour Rovers - Hill United
END:VEVENT
END:VCALENDAR
"""


def shown(qtbot, unlocked, kind, *arguments):
    dialog = kind(unlocked.session, *arguments, unlocked)
    qtbot.addWidget(dialog)
    dialog.open()
    return dialog


@pytest.fixture
def roster(tmp_path):
    file = tmp_path / "roster.csv"
    file.write_text(ROSTER, encoding="utf-8")
    return file


def known(qtbot, unlocked, kind):
    found: list[tuple[Standing[Any], ...]] = []
    unlocked.session.ask(lambda book: book.all_of(kind), found.append)
    qtbot.waitUntil(lambda: bool(found))
    return [standing.value for standing in found[0]]


def test_nothing_of_a_roster_is_written_before_it_was_looked_at(qtbot, unlocked, roster):
    dialog = shown(qtbot, unlocked, ImportDialog, roster_intake(), roster)
    qtbot.waitUntil(dialog.keep.isEnabled)
    assert [row.surname for row in dialog.rows.rows] == ["Okafor"]
    lines = dialog.problems.toPlainText().splitlines()
    assert [line.split(":")[0] for line in lines] == ["Line 3", "Line 4"]
    assert "2000-02-31" in lines[0]
    assert len(known(qtbot, unlocked, Athlete)) == 2
    dialog.reject()
    assert len(known(qtbot, unlocked, Athlete)) == 2


def test_a_column_that_was_not_read_and_a_number_that_stands_twice_are_shown(
    qtbot, unlocked, tmp_path
):
    file = tmp_path / "roster.csv"
    file.write_text("No,Surname,Boots\n1,Okafor,43\n1,Menon,44\n", encoding="utf-8")
    dialog = shown(qtbot, unlocked, ImportDialog, roster_intake(), file)
    qtbot.waitUntil(dialog.keep.isEnabled)
    assert len(dialog.rows.rows) == 2
    unread, twice = dialog.problems.toPlainText().splitlines()
    assert "Boots" in unread
    assert "line 2 has the same number" in twice
    assert not dialog.problems.isHidden()
    assert dialog.problems_heading.text() == "2 things to look at first."
    dialog.reject()


def test_how_dates_are_written_can_be_said_where_the_file_leaves_it_open(
    qtbot, unlocked, roster
):
    dialog = shown(qtbot, unlocked, ImportDialog, roster_intake(), roster)
    qtbot.waitUntil(dialog.keep.isEnabled)
    dialog.order.show_value("month")
    dialog.order.activated.emit(0)
    qtbot.waitUntil(lambda: len(dialog.rows.rows) == 2)
    assert dialog.rows.rows[1].born.isoformat() == "2003-04-05"


def test_a_roster_taken_in_is_on_the_board_and_in_the_casebook(qtbot, unlocked, roster):
    dialog = shown(qtbot, unlocked, ImportDialog, roster_intake(), roster)
    qtbot.waitUntil(dialog.keep.isEnabled)
    dialog.order.show_value("day")
    dialog.order.activated.emit(0)
    qtbot.waitUntil(lambda: len(dialog.rows.rows) == 2)
    with qtbot.waitSignals([dialog.taken_in, unlocked.session.board_changed]):
        dialog.keep.click()
    board = unlocked.workplace.boards
    qtbot.waitUntil(lambda: len(board.board.rows) == 3)
    numbers = {row.surname: row.number for row in board.board.rows}
    assert numbers == {"Okafor": 1, "Silva": 9, "Łukasik": 3}


def test_a_file_that_cannot_be_read_is_a_sentence_and_takes_nothing_in(
    qtbot, unlocked, tmp_path
):
    file = tmp_path / "roster.xlsx"
    file.write_bytes(b"PK\x03\x04 this is no workbook")
    dialog = shown(qtbot, unlocked, ImportDialog, roster_intake(), file)
    qtbot.waitUntil(lambda: bool(dialog.notice.words))
    assert not dialog.keep.isEnabled()
    dialog.reject()


def test_fixtures_are_taken_in(qtbot, unlocked, tmp_path):
    file = tmp_path / "season.ics"
    file.write_text(FIXTURES.replace("\n", "\r\n"), encoding="utf-8")
    dialog = shown(qtbot, unlocked, ImportDialog, fixtures_intake(), file)
    qtbot.waitUntil(dialog.keep.isEnabled)
    dialog.keep.click()
    qtbot.waitUntil(lambda: bool(unlocked.workplace.boards.board.outlook.matches))
    assert [f.fixture_id for f in known(qtbot, unlocked, Fixture)] == ["m1"]


def test_a_colleague_with_a_key_of_their_own_opens_the_casebook(
    qtbot, unlocked, casebook_folder
):
    dialog = shown(qtbot, unlocked, KeyDialog, ["Ines Duarte"])
    dialog.name.setText("Ines Duarte")
    assert "There is a key with this name" in dialog.troubles()["name"]
    dialog.give.click()
    assert dialog.fields["role"].complaint
    dialog.name.setText("Teo Brandt")
    dialog.role.show_value(Role.DOCTOR)
    dialog.passphrase.setText("another four words of mine")
    dialog.again.setText("another four words of mine")
    with qtbot.waitSignal(dialog.accepted):
        dialog.give.click()
    assert people_of(casebook_folder) == ("Ines Duarte", "Teo Brandt")
    unlocked.do("lock")
    qtbot.waitUntil(lambda: unlocked.session is None)
    theirs = "another four words of mine"
    with open_casebook(
        casebook_folder, passphrase=theirs, clock=clock(), person="Teo Brandt"
    ) as book:
        assert book.me.role is Role.DOCTOR


def test_an_athlete_is_added_by_hand_and_bad_input_is_named(qtbot, unlocked):
    dialog = shown(qtbot, unlocked, AthleteDialog)
    dialog.born.setText("1st of May")
    dialog.number.setText("9999")
    dialog.add.click()
    assert dialog.fields["Surname"].complaint
    assert "2004-12-31" in dialog.fields["Born"].complaint
    assert "9999" in dialog.fields["Number"].complaint
    assert dialog.born.text() == "1st of May"
    dialog.born.setText("2003-05-01")
    dialog.number.setText("77")
    dialog.surname.setText("Dvořák")
    with qtbot.waitSignal(dialog.accepted):
        dialog.add.click()
    qtbot.waitUntil(
        lambda: "Dvořák" in {row.surname for row in unlocked.workplace.boards.board.rows}
    )


def test_settings_are_saved_and_a_slip_of_the_finger_is_not(qtbot, unlocked):
    page = unlocked.workplace.casebook
    form = page.settings
    assert form.settings() == ClubSettings()
    form.numbers["retest_days"].setText("700")
    with qtbot.assertNotEmitted(form.saved):
        form.save.click()
    assert form.fields["retest_days"].complaint == "700 typed; 1 to 90 can stand."
    form.numbers["retest_days"].setText("10")
    form.same_day.setChecked(True)
    form.save.click()
    qtbot.waitUntil(lambda: page.saved.text() == "Saved.")
    wanted = ClubSettings(retest_days=10, cleared_same_day=True)
    qtbot.waitUntil(lambda: unlocked.workplace.boards.board.squad.settings == wanted)


def test_every_setting_of_a_club_can_be_set(qtbot, unlocked):
    form = unlocked.workplace.casebook.settings
    values = {name: number for number, name in enumerate(form.numbers, start=2)}
    wanted = ClubSettings(cleared_same_day=True, **values)
    assert set(values) | {"cleared_same_day"} == set(ClubSettings.__slots__)
    form.show_settings(wanted)
    assert form.settings() == wanted


def test_the_check_says_how_much_it_read(qtbot, unlocked):
    page = unlocked.workplace.casebook
    page.check.click()
    qtbot.waitUntil(page.check.isEnabled)
    assert page.found.text().endswith("everything is whole.")


def test_the_casebook_page_says_whose_it_is_and_where(unlocked, casebook_folder):
    page = unlocked.workplace.casebook
    words = [label.text() for label in page.findChildren(type(page.people))]
    assert "Harbour Rovers" in words
    assert str(casebook_folder) in words
    assert page.people.text() == "Ines Duarte, Physio"


def test_a_name_half_typed_is_not_lost_by_esc(qtbot, unlocked):
    dialog = shown(qtbot, unlocked, AthleteDialog)
    qtbot.keyClicks(dialog.surname, "Adeyemi-Ros")
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    qtbot.keyClick(dialog.question, Qt.Key.Key_Escape)
    assert dialog.isVisible()
    assert dialog.surname.text() == "Adeyemi-Ros"
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    qtbot.mouseClick(dialog.question.leave, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible()
