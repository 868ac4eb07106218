"""The row that is highlighted is the athlete whose page is open, in the whole window."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from teamrehab.desktop.squad.filters import Keep


@pytest.fixture
def place(qtbot, unlocked):
    """The squad beside the page of Okafor, found by name and opened with Enter."""
    unlocked.resize(1366, 768)
    with qtbot.waitActive(unlocked):
        unlocked.activateWindow()
    workplace = unlocked.workplace
    qtbot.keyClick(workplace.squad, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(workplace.squad.search, "okafor")
    qtbot.keyClick(workplace.squad.search, Qt.Key.Key_Return)
    assert page_of(workplace).endswith("Okafor")
    workplace.squad.search.clear()
    return workplace


def page_of(place):
    return place.athlete.view.heading.name.text()


def move_to_the_other_row(qtbot, place):
    table = place.squad.table
    key = Qt.Key.Key_Down if table.currentIndex().row() == 0 else Qt.Key.Key_Up
    qtbot.keyClick(table, key)


def test_arrow_keys_take_the_page_along_with_the_row(qtbot, place):
    move_to_the_other_row(qtbot, place)
    assert page_of(place).endswith("Okafor"), "running down a list draws no page a row"
    qtbot.waitUntil(lambda: page_of(place).endswith("Silva"))


def test_a_test_asked_for_right_after_an_arrow_key_is_for_the_row_highlighted(qtbot, place):
    move_to_the_other_row(qtbot, place)
    qtbot.keyClick(place.squad.table, Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier)
    dialog = place.athlete.dialog
    assert "Sam Silva" in dialog.save.text()
    assert dialog.findChildren(QLabel)[0].text() == "Sam Silva"
    dialog.done(0)


def test_an_open_athlete_who_is_filtered_away_is_named_and_no_row_is_highlighted(qtbot, place):
    squad = place.squad
    qtbot.keyClicks(squad.search, "silva")
    assert squad.table.shown.rowCount() == 1
    assert not squad.table.selectionModel().hasSelection()
    assert squad.elsewhere.isVisible()
    assert "Sam Okafor" in squad.elsewhere.text()
    squad.search.clear()
    assert squad.table.chosen() == "a1"
    assert not squad.elsewhere.isVisible()
    squad.filters.choose(Keep.OUT)
    assert "Sam Okafor" in squad.elsewhere.text()
