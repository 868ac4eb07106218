"""A save that stops an athlete says what the coach reads, and one key states it."""

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.athlete.availability_form import AvailabilityForm
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.measures import HeelRaiseTest
from tests.builders import case, stated
from tests.desktop.evening.conftest import EVENING

CTRL = Qt.KeyboardModifier.ControlModifier
LIMITS: dict[str, Any] = {"training": Training.WITH_LIMITS, "match": Match.NOT_AVAILABLE}


def with_limits(tonight):
    """Let everybody train with limits, as stated a week before."""
    ids = [(row.case_id, row.athlete_id) for row in tonight.view.rows]
    said = [stated(case(case_id=c, athlete_id=a), 10, **LIMITS) for c, a in ids]
    done: list[Any] = []
    tonight.session.write(lambda book: book.note(*said), "", done.append)
    tonight.qtbot.waitUntil(lambda: bool(done))
    tonight.settle()


def stop(tonight, answers="nnyn"):
    """Type a symptom of 6 in the row of the cursor, answer, and save."""
    tonight.type("y64\n" + answers + "\n")
    tonight.settle()


def test_a_stopped_row_says_what_the_coach_still_reads_and_so_does_the_page(evening):
    tonight = evening()
    with_limits(tonight)
    stop(tonight)
    words = "training with limits, match not available"
    assert tonight.row("Abara").head.marks.text() == f"Coach reads: {words}. Ctrl+B"
    assert tonight.view.header.remark.text() == (
        f"Stopped, not stated for the coach: Abara ({words}). Ctrl+B: availability of Abara."
    )
    assert tonight.row("Brandt").head.marks.text() == ""


def test_one_key_from_the_next_row_opens_the_form_of_who_was_just_stopped(evening):
    tonight = evening()
    with_limits(tonight)
    stop(tonight)
    assert tonight.view.list.active is tonight.row("Brandt")
    tonight.qtbot.keyClick(tonight.view.window().focusWidget(), Qt.Key.Key_B, CTRL)
    dialog = tonight.view.stating.dialog
    assert dialog is not None
    form = dialog.form
    assert isinstance(form, AvailabilityForm)
    assert "Abara" in form.save_words
    assert tonight.view.stating.unsaved == ()
    tonight.qtbot.waitUntil(dialog.isActiveWindow)
    tonight.qtbot.keyClick(dialog, Qt.Key.Key_Return, CTRL)
    tonight.qtbot.waitUntil(lambda: tonight.view.stating.dialog is None)
    tonight.settle()
    newest = [s for s in tonight.facts(AvailabilityStated) if s.on == EVENING]
    assert [(s.athlete_id, s.training, s.match) for s in newest] == [
        ("a1", Training.NONE, Match.NOT_AVAILABLE)
    ]
    assert "Coach" not in tonight.row("Abara").head.marks.text()
    assert tonight.view.header.remark.text().startswith("Abara is stopped, and that is stated.")


def test_a_red_flag_that_already_keeps_the_athlete_out_waits_for_a_word_too(evening):
    tonight = evening()
    with_limits(tonight)
    stop(tonight, "yyny")
    assert tonight.row("Abara").head.marks.text().startswith("Coach reads: training none")


def test_the_key_is_for_the_row_of_the_cursor_where_that_one_is_stopped(evening):
    tonight = evening()
    with_limits(tonight)
    stop(tonight)
    stop(tonight)
    assert tonight.view.header.remark.text().endswith("Ctrl+B: availability of Brandt.")
    tonight.type("^^")
    assert tonight.view.list.active is tonight.row("Abara")
    assert tonight.view.header.remark.text().endswith("Ctrl+B: availability of Abara.")


def test_the_key_never_opens_the_form_of_a_row_nobody_typed_in(evening):
    tonight = evening()  # of everybody it is stated already that they do not train
    told: list[str] = []
    tonight.view.told.connect(told.append)
    tonight.qtbot.keyClick(tonight.view.window().focusWidget(), Qt.Key.Key_B, CTRL)
    assert QApplication.activeModalWidget() is None
    assert told == [
        "Nobody is stopped without a statement. F2 shows the athlete's availability."
    ]
    stop(tonight)
    assert tonight.view.header.remark.text() == (
        "Abara is stopped, and that is stated. Ctrl+B: availability of Abara."
    )
    tonight.qtbot.keyClick(tonight.view.window().focusWidget(), Qt.Key.Key_B, CTRL)
    dialog = tonight.view.stating.dialog
    assert dialog is not None
    assert "Abara" in dialog.form.save_words
    dialog.reject()


def test_tests_and_a_note_leave_the_row_with_their_save_and_due_words_are_marked(evening):
    tonight = evening()
    tonight.type("jcalm\n")
    row = tonight.row("Abara")
    assert row.head.marks.text() == "note"
    tonight.type("t")
    tests = row.tests
    tonight.qtbot.keyClicks(tests.raises.count.left, "20")
    tonight.qtbot.keyClicks(tests.raises.count.right, "21")
    tonight.qtbot.keyClicks(tests.raises.symptom, "0")
    tests.raises.range.choose(True)
    tonight.type("\ny14kk\n")
    tonight.settle()
    assert len(tonight.facts(HeelRaiseTest)) == 1
    assert row.head.marks.text() == "no painkiller"
