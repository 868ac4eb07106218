"""Ctrl+Z takes the last save back, as a correcting entry, and says so."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction

from teamrehab.domain.athletes import Athlete
from tests.builders import athlete

CTRL = Qt.KeyboardModifier.ControlModifier


def undo_action(window):
    return next(a for a in window.findChildren(QAction) if a.data() == "undo")


def numbers(window):
    return {row.surname: row.number for row in window.workplace.boards.board.rows}


def save(window, value, said):
    window.session.write(lambda book: book.note(value), "", said=said)


def undo(qtbot, window):
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    qtbot.keyClick(window, Qt.Key.Key_Z, CTRL)


def test_nothing_can_be_taken_back_before_something_was_saved(unlocked):
    assert not undo_action(unlocked).isEnabled()


def test_the_last_save_is_taken_back_and_then_the_one_before(qtbot, unlocked):
    save(unlocked, replace(athlete(), number=77), "number of Okafor")
    save(unlocked, Athlete(athlete_id="a3", surname="Menon", first_name="Ravi"), "Menon")
    qtbot.waitUntil(lambda: numbers(unlocked).keys() >= {"Menon"})
    assert undo_action(unlocked).text() == "&Undo: Menon"

    undo(qtbot, unlocked)
    qtbot.waitUntil(lambda: "Menon" not in numbers(unlocked))
    assert "Menon" in unlocked.statusBar().currentMessage()
    assert numbers(unlocked)["Okafor"] == 77

    undo(qtbot, unlocked)
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 8)
    assert not undo_action(unlocked).isEnabled()


def test_a_save_that_was_corrected_elsewhere_is_left_and_said_to_be(qtbot, unlocked):
    save(unlocked, replace(athlete(), number=77), "number")
    unlocked.session.ask(
        lambda book: book.note(replace(athlete(), number=78)), lambda _receipt: None
    )
    qtbot.waitUntil(undo_action(unlocked).isEnabled)
    undo(qtbot, unlocked)
    qtbot.waitUntil(unlocked.notice.isVisible)
    assert not undo_action(unlocked).isEnabled()


@pytest.mark.usefixtures("unlocked")
def test_what_was_saved_in_one_sitting_is_not_offered_in_the_next(qtbot, window):
    save(window, replace(athlete(), number=77), "number")
    qtbot.waitUntil(lambda: undo_action(window).isEnabled())
    window.do("lock")
    qtbot.waitUntil(lambda: window.session is None)
    assert not undo_action(window).isEnabled()
