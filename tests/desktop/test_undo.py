"""Ctrl+Z takes the last save back, as a correcting entry, and says so."""

from dataclasses import replace
from threading import Event

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import QApplication, QLabel, QPlainTextEdit, QSpinBox

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.injuries import RedFlag, Urgency
from tests.builders import ONSET, athlete, case
from tests.records.test_faults import fail_once_at_commit

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
    said = "Taken back at 20:00: Menon, as a correcting entry."
    qtbot.waitUntil(lambda: unlocked.statusBar().currentMessage() == said)
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


def test_two_quick_presses_take_two_saves_back_and_none_twice(qtbot, unlocked):
    for number in (76, 77):
        save(unlocked, replace(athlete(), number=number), f"number {number}")
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 77)
    undo(qtbot, unlocked)
    undo(qtbot, unlocked)
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 8)
    assert not unlocked.notice.isVisible()


def test_a_save_under_way_is_the_one_taken_back_and_not_the_one_before(qtbot, unlocked):
    save(unlocked, replace(athlete(), number=77), "number of Okafor")
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 77)
    held = Event()
    unlocked.session.ask(lambda _book: held.wait(5), lambda _done: None)
    save(unlocked, Athlete(athlete_id="a3", surname="Menon", first_name="Ravi"), "Menon")
    undo(qtbot, unlocked)
    held.set()
    said = "Taken back at 20:00: Menon, as a correcting entry."
    qtbot.waitUntil(lambda: unlocked.statusBar().currentMessage() == said)
    qtbot.waitUntil(lambda: numbers(unlocked) == {"Okafor": 77, "Silva": 9})


def test_a_page_that_fails_on_the_answer_keeps_no_other_page_from_the_news(qtbot, unlocked):
    def fail(_receipt):
        raise RuntimeError("the page is gone")

    with qtbot.captureExceptions() as failures:
        unlocked.session.write(lambda book: book.note(replace(athlete(), number=77)), "", fail)
        qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 77)
    assert [str(error) for _kind, error, _trace in failures] == ["the page is gone"]


def test_a_save_the_disk_kept_from_being_taken_back_is_offered_again(qtbot, unlocked):
    save(unlocked, replace(athlete(), number=77), "number")
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 77)
    unlocked.session.ask(
        lambda book: fail_once_at_commit(book, after=False), lambda _done: None
    )
    undo(qtbot, unlocked)
    qtbot.waitUntil(unlocked.notice.isVisible)
    undo(qtbot, unlocked)
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 8)


def test_it_is_said_that_the_red_flag_of_a_save_stays(qtbot, unlocked):
    flag = RedFlag(
        flag_id="r1",
        case_id="c1",
        athlete_id="a1",
        on=ONSET,
        what="night pain",
        urgency=Urgency.SAME_DAY,
    )
    unlocked.session.write(lambda book: book.note(case()), "c1")
    unlocked.session.write(lambda book: book.note(replace(athlete(), number=77), flag), "c1")
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 77)
    undo(qtbot, unlocked)
    qtbot.waitUntil(unlocked.notice.isVisible)
    said = " ".join(label.text() for label in unlocked.notice.findChildren(QLabel))
    assert "named doctor closes" in said
    assert "night pain" not in said
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 8)


def test_a_text_field_keeps_ctrl_z_until_it_has_nothing_of_its_own_to_undo(qtbot, unlocked):
    save(unlocked, replace(athlete(), number=77), "number")
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 77)
    unlocked.activateWindow()
    field = unlocked.workplace.squad.search
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    qtbot.keyClicks(field, "Sil")
    qtbot.keyClick(field, Qt.Key.Key_Z, CTRL)
    assert (field.text(), undo_action(unlocked).isEnabled()) == ("", True)
    qtbot.keyClick(field, Qt.Key.Key_Z, CTRL)
    qtbot.waitUntil(lambda: numbers(unlocked)["Okafor"] == 8)


def test_a_number_field_and_a_note_keep_ctrl_z_in_the_same_way(qtbot, unlocked):
    for field in (QSpinBox(unlocked), QPlainTextEdit(unlocked)):
        field.show()
        field.setFocus()
        qtbot.waitUntil(field.hasFocus)
        assert not keeps_undo(field)
        qtbot.keyClicks(field, "7")
        assert keeps_undo(field)


def keeps_undo(field):
    event = QKeyEvent(QEvent.Type.ShortcutOverride, Qt.Key.Key_Z, CTRL)
    event.ignore()
    QApplication.sendEvent(field, event)
    return event.isAccepted()
