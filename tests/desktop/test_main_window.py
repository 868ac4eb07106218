"""The window from start to lock, with a real casebook."""

import threading
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QApplication

from teamrehab.desktop import preferences
from teamrehab.desktop.appearance import Scheme
from teamrehab.desktop.band import Place
from teamrehab.domain.athletes import Role
from teamrehab.records import NotSavedError, open_casebook
from tests.builders import clock
from tests.desktop.conftest import PASSPHRASE
from tests.fakes import FakeCasebook, RefusedForTest


def locked(qtbot, window):
    qtbot.waitUntil(lambda: window.session is None)


def test_a_new_casebook_opens_at_once_and_is_remembered(qtbot, window, tmp_path):
    window.do("new")
    page = window.entrance.create_page
    page.team.setText("Harbour Rovers")
    page.name.setText("Ines Duarte")
    page.role.show_value(Role.DOCTOR)
    page.passphrase.setText(PASSPHRASE)
    page.again.setText(PASSPHRASE)
    page.folder.setText(str(tmp_path / "new"))
    page.make.click()
    qtbot.waitUntil(lambda: window.workplace is not None)
    assert window.session.about.me.name == "Ines Duarte"
    assert window.session.about.me.role is Role.DOCTOR
    assert page.passphrase.text() == page.again.text() == ""
    window.do("lock")
    locked(qtbot, window)
    assert window.entrance.unlock_page.folder == tmp_path / "new"
    assert window._preferences.recent == (str(tmp_path / "new"),)


def test_a_wrong_passphrase_is_told_beside_the_field_and_the_right_one_opens(
    qtbot, window, casebook_folder
):
    window.open_folder(casebook_folder)
    page = window.entrance.unlock_page
    page.unlock.click()
    assert page.field.complaint == "Type the passphrase."
    page.passphrase.setText("not this one")
    page.unlock.click()
    assert page.passphrase.text() == ""
    qtbot.waitUntil(lambda: "Wrong passphrase" in page.field.complaint)
    assert window.session is None
    page.passphrase.setText(PASSPHRASE)
    qtbot.keyClick(page.passphrase, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.workplace is not None)


def test_a_folder_that_is_no_casebook_is_refused_in_a_sentence(qtbot, window, tmp_path):
    window.open_folder(tmp_path / "nowhere")
    qtbot.waitUntil(lambda: "is not a casebook" in window.entrance.notice.words)
    assert window.session is None
    assert window.entrance.pages.currentWidget() is window.entrance.start_page
    assert not (tmp_path / "nowhere").exists()


def test_a_casebook_open_elsewhere_is_told_apart_from_a_wrong_passphrase(
    qtbot, window, casebook_folder
):
    with open_casebook(casebook_folder, passphrase=PASSPHRASE, clock=clock()):
        window.open_folder(casebook_folder)
        page = window.entrance.unlock_page
        page.passphrase.setText(PASSPHRASE)
        page.unlock.click()
        qtbot.waitUntil(lambda: "already open" in page.field.complaint)


def test_what_needs_a_casebook_can_be_chosen_only_inside(qtbot, unlocked):
    assert all(action.isEnabled() for action in unlocked._inside)
    unlocked.do("lock")
    locked(qtbot, unlocked)
    assert not any(action.isEnabled() for action in unlocked._inside)


def test_the_title_and_the_window_list_name_nobody(unlocked):
    assert unlocked.windowTitle() == "teamrehab"
    assert [w.windowTitle() for w in QApplication.topLevelWidgets() if w.isVisible()] == [
        "teamrehab"
    ]


def test_the_status_line_says_who_how_protected_and_the_last_backup(unlocked):
    words = [label.text() for label in unlocked.status]
    assert words[:2] == ["Signed in: Ines Duarte", "Encrypted"]
    assert words[2].startswith("Last verified backup: ")


def test_the_board_comes_first_without_and_then_with_estimates(qtbot, unlocked):
    boards = unlocked.workplace.boards
    seen = []
    boards.changed.connect(lambda _board: seen.append(boards.has_estimates))
    boards.refresh()
    qtbot.waitUntil(lambda: len(seen) == 2)
    assert seen == [False, True]
    assert [row.surname for row in boards.board.rows] == ["Okafor", "Silva"]


def test_a_board_asked_for_again_is_not_overtaken_by_the_older_one(qtbot, unlocked):
    boards = unlocked.workplace.boards
    for _ in range(5):
        boards.refresh()
    seen = []
    boards.changed.connect(lambda _board: seen.append(boards.has_estimates))
    qtbot.waitUntil(lambda: boards.has_estimates and bool(seen))
    qtbot.wait(50)
    assert seen == [False, True]


def test_trouble_inside_is_a_message_in_the_window_until_put_away(unlocked, tmp_path):
    unlocked.session.failed.emit(NotSavedError(tmp_path))
    assert unlocked.notice.words.startswith("Not saved")
    assert QApplication.activeModalWidget() is None


def test_closing_the_window_makes_a_verified_backup_first(qtbot, unlocked, casebook_folder):
    before = set((casebook_folder / "backups").iterdir())
    session = unlocked.session
    session.write(lambda book: book.note(book.me), "")
    unlocked.close()
    assert unlocked.isVisible()
    qtbot.waitUntil(lambda: not unlocked.isVisible())
    assert len(set((casebook_folder / "backups").iterdir()) - before) == 1
    assert not session.is_open


@pytest.mark.parametrize("fails", [False, True])
def test_closed_while_a_casebook_is_still_opening_it_ends_in_order(qtbot, window, fails):
    gate = threading.Event()
    book = FakeCasebook()

    def slow():
        gate.wait(10)
        if fails:
            raise RefusedForTest("no")
        return book

    window.enter(slow)
    window.close()
    assert window.isVisible()
    gate.set()
    qtbot.waitUntil(lambda: not window.isVisible())
    assert book.closed is not fails
    assert window.workplace is None


def test_another_casebook_can_be_chosen_while_one_is_open(qtbot, unlocked):
    unlocked.do("new")
    locked(qtbot, unlocked)
    assert unlocked.entrance.pages.currentWidget() is unlocked.entrance.create_page
    assert unlocked.entrance.create_page.passphrase.text() == ""


def test_places_change_by_key_and_by_band(qtbot, unlocked):
    pages = unlocked.workplace.pages
    unlocked.do("casebook")
    assert pages.currentWidget() is unlocked.workplace.casebook
    button = unlocked.workplace.band.button(Place.SQUAD)
    button.click()
    assert pages.currentWidget() is unlocked.workplace.split


def test_light_and_dark_are_remembered(window):
    window._choose_scheme(Scheme.DARK)
    store = QSettings(window._store.fileName(), QSettings.Format.IniFormat)
    assert preferences.read(store).scheme is Scheme.DARK


def test_help_opens_and_lists_every_key_of_the_menus(window):
    window.do("keys")
    dialog = next(
        w for w in QApplication.topLevelWidgets() if w.isVisible() and w is not window
    )
    said = " ".join(label.text() for label in dialog.findChildren(type(window.status[0])))
    for action in window.menuBar().actions():
        for inner in action.menu().actions():
            assert inner.shortcut().toString() in said
    dialog.close()


def test_the_athlete_stands_beside_the_squad_only_once_chosen(unlocked):
    place = unlocked.workplace
    assert not place.athlete.isVisible()
    place.squad.opened.emit("a2")
    assert place.athlete.isVisible()
    assert place.squad.isVisible()


def test_covering_hides_the_athlete_and_uncovering_brings_back_only_who_was_there(unlocked):
    place = unlocked.workplace
    place.squad.covered.emit(True)
    place.squad.covered.emit(False)
    assert not place.athlete.isVisible()
    place.show_athlete("a2")
    place.squad.covered.emit(True)
    assert not place.athlete.isVisible()
    place.squad.covered.emit(False)
    assert place.athlete.isVisible()


def test_while_covered_no_athlete_is_opened(unlocked):
    place = unlocked.workplace
    place.squad.cover.click()
    place.show_athlete("a2")
    assert not place.athlete.isVisible()
    place.squad.cover.click()
    assert place.athlete.isVisible()


def test_a_window_left_open_over_night_shows_the_new_day(qtbot, unlocked, monkeypatch):
    boards = unlocked.workplace.boards
    first = boards.board.squad.day
    boards._turn_day()
    assert boards.has_estimates
    about = replace(unlocked.session.about, clock=clock(first + timedelta(days=1)))
    monkeypatch.setattr(unlocked.session, "_about", about)
    boards._turn_day()
    qtbot.waitUntil(lambda: boards.board.squad.day == first + timedelta(days=1))


def test_the_divider_stands_where_it_was_left(qtbot, unlocked, casebook_folder):
    place = unlocked.workplace
    place.show_athlete("a2")
    qtbot.wait(10)
    whole = sum(place.split.sizes())
    place.split.setSizes([whole - 520, 520])
    left = place.split.sizes()
    unlocked.do("lock")
    locked(qtbot, unlocked)
    page = unlocked.entrance.unlock_page
    page.passphrase.setText(PASSPHRASE)
    page.unlock.click()
    qtbot.waitUntil(lambda: unlocked.workplace is not None)
    unlocked.workplace.show_athlete("a2")
    qtbot.wait(10)
    assert unlocked.workplace.split.sizes() == pytest.approx(left, abs=3)


def test_a_backup_that_failed_is_read_before_the_window_goes(qtbot, unlocked, monkeypatch):
    def full(*_arguments):
        raise NotSavedError(Path("full"))

    monkeypatch.setattr("teamrehab.records.casebook.back_up_what_is_new", full)
    unlocked.close()
    locked(qtbot, unlocked)
    assert unlocked.isVisible()
    assert "backup" in unlocked.notice.words
    unlocked.close()
    assert not unlocked.isVisible()
