"""After training in the whole window: what a passer-by cannot read, and what a save says."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from teamrehab.desktop.evening.place import Part
from teamrehab.domain.measures import MorningResponse, SessionEntry
from tests.desktop.test_keys import Hands, calf_case, closing, note


@pytest.fixture
def hands(qtbot, unlocked):
    hands = Hands(qtbot, unlocked)
    note(hands, *calf_case())
    return hands


def press_f8(hands):
    hands.qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F8)


def words_on_screen(window):
    """Return all that stands in labels and in the status line now."""
    labels = [one.text() for one in window.findChildren(QLabel) if one.isVisible()]
    return " ".join((*labels, window.statusBar().currentMessage()))


@pytest.mark.parametrize("part", list(Part))
def test_f8_hides_everybody_and_shows_all_again_with_the_cursor_where_it_was(hands, part):
    hands.go(part)
    cursor = QApplication.focusWidget()
    assert part is Part.TEAM_SESSION or "Okafor" in words_on_screen(hands.window)
    place = hands.window.workplace.after_training
    press_f8(hands)
    assert place.is_covered
    assert not place.pages.isVisible()
    assert "Okafor" not in words_on_screen(hands.window)
    press_f8(hands)
    assert place.pages.isVisible()
    assert QApplication.focusWidget() is cursor


def test_keys_do_nothing_to_a_row_behind_the_cover_and_its_words_are_kept(hands):
    hands.go(Part.EVENING)
    hands.type("Y1")
    press_f8(hands)
    hands.type("9")
    hands.hold(Qt.Key.Key_B)
    assert QApplication.activeModalWidget() is None
    press_f8(hands)
    row = hands.window.workplace.after_training.evening.rows[0]
    assert (row.entry.typed.symptom, row.entry.typed.effort) == (1, None)
    hands.type("4\n")
    hands.until(lambda: hands.facts(SessionEntry))


def test_a_squad_covered_before_covers_after_training_too_and_names_nobody(hands):
    hands.go(Part.EVENING)
    hands.type("Y14\n")
    hands.until(lambda: "Okafor" in hands.window.statusBar().currentMessage())
    hands.window.do("squad")
    hands.qtbot.keyClick(hands.window.workplace.squad.table, Qt.Key.Key_F8)
    assert hands.window.statusBar().currentMessage() == ""
    hands.window.do("after")
    place = hands.window.workplace.after_training
    hands.until(place.curtain.isVisible)
    assert "Okafor" not in words_on_screen(hands.window)
    hands.type("Y14\n")
    assert len(hands.facts(SessionEntry)) == 1


def test_the_status_line_says_of_whom_and_what_was_saved(hands):
    status = hands.window.statusBar().currentMessage
    hands.go(Part.EVENING)
    hands.type("Y14\n")
    hands.until(lambda: status() == "Saved at 20:00: the evening of Okafor")
    closing(hands)
    hands.type("A")
    hands.until(lambda: status() == "Saved at 20:00: the level of Sam Okafor")
    hands.go(Part.MORNING)
    hands.type("0\n")
    hands.until(lambda: hands.facts(MorningResponse))
    hands.until(lambda: status() == "Saved at 20:00: the morning of Okafor")


def test_a_row_typed_and_not_saved_is_named_before_the_evening_is_signed(hands):
    hands.go(Part.EVENING)
    hands.type("Y14")
    hands.hold(Qt.Key.Key_Return)
    view = hands.window.workplace.after_training.closing
    words = "Typed and not saved: Sam Okafor. Esc goes back to the rows, Enter saves there."
    hands.until(lambda: view.panel.warnings.text() == words)
    hands.hold(Qt.Key.Key_Return)
    assert "Sign without what is typed?" in words_on_screen(hands.window)
    hands.type("N")
    hands.qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    hands.type("\n")
    hands.until(lambda: hands.facts(SessionEntry))
    closing(hands)
    hands.until(lambda: view.panel.warnings.text() == "")


@pytest.mark.parametrize("part", list(Part))
def test_a_wide_screen_has_as_much_room_left_as_right(hands, part):
    hands.go(part)
    hands.window.resize(2560, 1440)
    place = hands.window.workplace.after_training
    hands.until(lambda: place.width() > 2400)
    left = place.pages.mapTo(place, place.pages.rect().topLeft()).x()
    right = place.width() - left - place.pages.width()
    assert left > 300
    assert abs(left - right) <= 1
