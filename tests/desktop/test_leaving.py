"""Leaving with something typed, by real keys: what is asked, what is kept, what is lost."""

from typing import Any

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.evening.place import Part
from teamrehab.desktop.leaving import Leaving
from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.measures import MorningResponse, SessionEntry
from tests.desktop.conftest import PASSPHRASE
from tests.desktop.test_keys import Hands, calf_case, note


class Leaver(Hands):
    """Locks the casebook, and answers what is asked with keys."""

    def lock(self, *keys):
        """Lock, press keys in the box that asks, and return what it said."""
        self._said, self.answered = "", list[bool]()
        QTimer.singleShot(0, self.window, lambda: self._answer(keys))
        self.window.do("lock")
        assert self.answered == [True] * len(keys) + [False]
        self.window.activateWindow()
        self.until(self.window.isActiveWindow)
        return self._said

    def _answer(self, keys):
        box: Any = QApplication.activeModalWidget()
        if isinstance(box, Leaving):
            self._said = f"{box.text()}\n{box.informativeText()}"
            self.answered = [box.isVisible()]
            for key in keys:
                self.qtbot.keyClick(box.focusWidget(), key)
                self.answered.append(box.isVisible())
            if box.isVisible():
                box.reject()

    def reopen(self):
        self.until(lambda: self.window.workplace is None)
        page = self.window.entrance.unlock_page
        self.until(lambda: self.window.entrance.unlock_page is not None)
        page = self.window.entrance.unlock_page
        page.passphrase.setText(PASSPHRASE)
        page.unlock.click()
        self.until(lambda: self.window.workplace is not None)
        self.until(lambda: self.window.workplace.boards.has_estimates)


KEEP = {"enter": ["\r"], "escape": ["\x1b"], "bare letters first": [*"wldn", "\r"]}
LEAVE = ["\t", " "]


@pytest.fixture
def hands(qtbot, unlocked):
    hands = Leaver(qtbot, unlocked)
    note(hands, *calf_case())
    yield hands
    if unlocked.workplace is not None:  # what a test left typed must not ask at its end
        unlocked.workplace.may_be_left = lambda: True


@pytest.mark.parametrize("keys", KEEP.values(), ids=KEEP)
def test_no_key_pressed_without_looking_leaves_a_typed_row(hands, keys):
    hands.go(Part.EVENING)
    hands.type("Y14")
    said = hands.lock(*keys)
    assert hands.window.session.is_open
    assert "Evening, Mon 5 Oct: Sam Okafor" in said
    hands.type("\n")
    hands.until(lambda: hands.facts(SessionEntry))


def test_a_typed_row_is_kept_told_so_and_there_again(hands):
    hands.go(Part.EVENING)
    hands.type("Y14")
    said = hands.lock(*LEAVE)
    assert "Kept as drafts" in said
    assert "Lost" not in said
    hands.reopen()
    evening = hands.window.workplace.after_training.evening
    hands.until(lambda: evening.has_unsaved)
    assert hands.facts(SessionEntry) == []


def test_a_team_session_typed_a_moment_ago_is_kept_too(hands):
    hands.go(Part.TEAM_SESSION)
    hands.type("75\n" + "6\n")
    said = hands.lock(*LEAVE)
    assert "Team session, Mon 5 Oct: " in said
    assert "Lost" not in said
    hands.reopen()
    group = hands.window.workplace.after_training.team_session
    hands.until(lambda: group.has_unsaved)


def test_a_morning_line_is_kept_too_and_offered_again(hands):
    hands.go(Part.MORNING)
    hands.type("3")
    said = hands.lock(*LEAVE)
    assert "Morning, Mon 5 Oct: Sam Okafor" in said
    assert "Lost" not in said
    hands.reopen()
    morning = hands.window.workplace.after_training.morning
    hands.until(lambda: morning.has_unsaved)
    assert hands.facts(MorningResponse) == []


def test_a_form_says_what_it_is_and_whose_and_no_letter_leaves_it(hands, qtbot):
    hands.look_at("a1")
    window = hands.window
    window.workplace.athlete.view.actions_bar.actions_by_act[Act.AVAILABILITY].trigger()
    dialog: Any = window.workplace.athlete.dialog
    hands.until(dialog.isActiveWindow)
    qtbot.keyClicks(dialog.form.training, "f")
    assert dialog.unsaved
    qtbot.keyClick(dialog, "\x1b")
    box = QApplication.activeModalWidget()
    assert isinstance(box, Leaving)
    assert "Availability and limits: Sam Okafor" in box.informativeText()
    for letter in "wlns":
        qtbot.keyClick(box, letter)
    assert box.isVisible()
    qtbot.keyClick(box, "\r")
    assert dialog.isVisible()
    qtbot.keyClick(dialog, "\x1b")
    box = QApplication.activeModalWidget()
    assert isinstance(box, Leaving)
    qtbot.mouseClick(box.leave, Qt.MouseButton.LeftButton)
    hands.until(lambda: window.workplace.athlete.dialog is None)
    assert len(hands.facts(AvailabilityStated)) == 1
