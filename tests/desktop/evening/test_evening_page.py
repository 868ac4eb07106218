"""An evening typed with real keys: on the disk before the tick, and nothing beside it."""

import threading
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QInputMethodEvent
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.evening.evening_work import evening_work
from teamrehab.desktop.evening.typed import Cell
from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.injuries import LevelMoved, RedFlag, Remark, StageMoved, Urgency
from teamrehab.domain.measures import (
    HeelRaiseTest,
    Missed,
    SafetyCheck,
    SessionEntry,
    SessionMissed,
    Symptom,
)
from teamrehab.records import NotSavedError, open_casebook
from tests.builders import day
from tests.desktop.evening.conftest import EVENING

CLINICAL = (SessionEntry, SessionMissed, SafetyCheck, RedFlag, Remark, HeelRaiseTest)


def test_five_athletes_are_five_times_four_keys_and_all_on_the_disk(evening):
    tonight = evening()
    for _athlete in range(5):
        tonight.type("y14\n")
    tonight.settle()
    assert [row.entry.is_entered for row in tonight.view.rows] == [True] * 5
    assert tonight.view.header.count.text() == "5 of 5 entered"
    assert tonight.row("Abara").head.status.text() == "saved 19:00"
    tonight.session.finish()
    with open_casebook(tonight.folder, passphrase="", clock=tonight.clock) as book:
        noted = [fact.value for fact in book.all_of(SessionEntry)]
    assert [(s.athlete_id, s.symptom, s.effort) for s in noted] == [
        (f"a{n}", Symptom(1), 4) for n in range(1, 6)
    ]


def test_a_row_ticks_only_when_the_casebook_has_acknowledged_it(evening):
    gate = threading.Event()

    def slow(book, row):
        gate.wait(10)
        return evening_work().save(book, row)

    tonight = evening(save=slow)
    tonight.type("y14\n")
    first = tonight.row("Abara")
    assert (first.entry.is_entered, first.head.status.text()) == (False, "being saved")
    assert tonight.view.list.active is tonight.row("Brandt")
    tonight.type("y2")
    gate.set()
    tonight.settle()
    assert first.head.status.text() == "saved 19:00"
    assert tonight.row("Brandt").entry.typed.symptom == 2


def test_a_row_nobody_typed_in_leaves_no_fact_and_enter_in_it_changes_nothing(evening):
    tonight = evening()
    tonight.type("\n\n\nv\n^\n")
    tonight.settle()
    assert [len(tonight.facts(kind)) for kind in CLINICAL] == [0] * len(CLINICAL)
    assert tonight.view.header.count.text() == "0 of 5 entered"
    assert not tonight.view.has_unsaved


def test_enter_anywhere_on_the_page_moves_no_stage_level_or_availability(evening):
    tonight = evening()
    before = tonight.facts(AvailabilityStated)
    for keys in ("y14\n\n\n", "p14\n\n", "m09\n", "nd\n", "x\n"):
        tonight.type(keys)
    tonight.settle()
    assert tonight.facts(AvailabilityStated) == before
    assert tonight.facts(StageMoved) == tonight.facts(LevelMoved) == []


def test_a_refused_save_is_told_in_the_row_and_keeps_what_was_typed(evening):
    refuse = [True]

    def save(book, row):
        if refuse:
            raise NotSavedError(book.folder)
        return evening_work().save(book, row)

    tonight = evening(save=save)
    tonight.type("y14\n")
    tonight.settle()
    row = tonight.row("Abara")
    assert row.said.text()
    assert (row.entry.typed.symptom, row.entry.is_entered) == (1, False)
    assert tonight.facts(SessionEntry) == []
    refuse.clear()
    tonight.type("^\n")
    tonight.settle()
    assert len(tonight.facts(SessionEntry)) == 1


def test_a_saved_row_asks_before_it_is_corrected_and_leaves_one_session(evening):
    tonight = evening()
    tonight.type("y14\n")
    tonight.settle()
    tonight.type("^7")
    row = tonight.row("Abara")
    assert row.said.text().startswith("Saved at 19:00. Y again starts a correction.")
    tonight.type("y")
    assert row.head.status.text() == "correction, not saved"
    tonight.type("m")
    tonight.qtbot.keyClick(row, Qt.Key.Key_Left)
    tonight.type("6\n")
    tonight.settle()
    (session,) = tonight.facts(SessionEntry)
    assert (session.effort, session.symptom) == (6, Symptom(1))


def test_a_correction_that_changes_nothing_writes_nothing(evening):
    tonight = evening()
    tonight.type("y14\n")
    tonight.settle()
    before = tonight.row("Abara").entry.noted.fact_id
    tonight.type("^yy\n")
    tonight.settle()
    assert tonight.row("Abara").entry.noted.fact_id == before
    assert tonight.row("Abara").said.text() == "Nothing was changed: what was saved stays."


def test_an_entry_in_the_wrong_row_moves_to_another_athlete_in_one_step(evening):
    tonight = evening()
    tonight.type("y25\n")
    tonight.settle()
    tonight.type("^")
    tonight.qtbot.keyClick(
        tonight.row("Abara"), Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier
    )
    part = tonight.view.moving.part
    tonight.qtbot.keyClicks(part.name, "cast")
    assert len(part.matches) == 2
    tonight.qtbot.keyClick(part.name, Qt.Key.Key_Return)
    assert tonight.view.moving.part is part
    tonight.qtbot.keyClicks(part.name, "ell")
    assert part.found.text() == "Enter moves it to 4 Castell Sam, LEFT. Esc leaves it."
    tonight.qtbot.keyClick(part.name, Qt.Key.Key_Return)
    tonight.qtbot.waitUntil(lambda: tonight.row("Castell").entry.is_entered)
    tonight.settle()
    (session,) = tonight.facts(SessionEntry)
    assert (session.athlete_id, session.case_id, session.effort) == ("a4", "c4", 5)
    assert not tonight.row("Abara").entry.is_entered


def test_what_was_typed_and_not_saved_is_there_after_a_crash(evening):
    tonight = evening()
    tonight.type("y14\ny3")
    tonight.settle()
    tonight.view.drafts.keep()
    tonight.reopen()
    row = tonight.row("Brandt")
    tonight.qtbot.waitUntil(lambda: row.entry.is_typed)
    assert row.head.status.text() == "typed, not saved"
    tonight.type("4\n")
    tonight.settle()
    assert {s.athlete_id: s.symptom for s in tonight.facts(SessionEntry)} == {
        "a1": Symptom(1),
        "a2": Symptom(3),
    }
    tonight.reopen()
    assert not tonight.view.has_unsaved


def test_a_draft_that_had_reached_the_disk_is_not_typed_again(evening):
    kept: dict[str, str] = {}
    tonight = evening(
        keep=lambda _book, place, text: kept.update({place: text} if text else {}),
        drafts=lambda _book: dict(kept),
    )
    tonight.type("y1")
    tonight.row("Abara").id_of("session")
    tonight.view.drafts.keep()
    tonight.type("4\n")
    tonight.settle()
    tonight.reopen()
    tonight.settle()
    assert kept
    assert not tonight.view.has_unsaved
    assert len(tonight.facts(SessionEntry)) == 1


def test_a_high_symptom_asks_four_questions_and_raises_the_flag_with_the_save(evening):
    tonight = evening()
    tonight.type("y64\n")
    row = tonight.row("Abara")
    assert (row.entry.saving, row.entry.typed.cell) == (False, Cell.SAFETY)
    tonight.type("\nyyn")
    assert "Enter" not in tonight.view.hint.text()
    tonight.type("y")
    assert "Enter</span>&nbsp;saves" in tonight.view.hint.text()
    shown = [label.text() for label in row.opened.labels if not label.isHidden()]
    assert shown[0] == "Symptom 6: 4 or more."
    assert shown[-1].endswith("Enter saves and raises a red flag: emergency now.")
    tonight.type("\n")
    tonight.settle()
    (flag,) = tonight.facts(RedFlag)
    assert flag.urgency is Urgency.EMERGENCY
    assert row.entry.tonight.line.stopped
    assert row.head.plan.text() == "no loading: review first"
    assert row.head.before.text() == row.entry.tonight.line.stopped


def test_a_session_somebody_else_noted_meanwhile_is_asked_about_and_both_can_stand(evening):
    tonight = evening()
    tonight.type("y1")
    row = tonight.row("Abara")
    other = SessionEntry(
        session_id="other",
        case_id="c1",
        athlete_id="a1",
        on=EVENING,
        kind=row.entry.tonight.plan.kind,
        effort=7,
    )
    tonight.session.write(lambda book: book.note(other), "c1")
    tonight.qtbot.waitUntil(lambda: row.entry.noted is not None)
    tonight.type("4\n")
    tonight.settle()
    assert row.said.text().endswith("Enter again notes a second session.")
    tonight.type("^\n")
    tonight.settle()
    assert sorted(s.effort for s in tonight.facts(SessionEntry)) == [4, 7]
    assert row.head.status.text() == "saved 19:00, 2 entries"


def test_an_earlier_evening_says_that_it_is_entered_late(evening):
    tonight = evening()
    tonight.qtbot.keyClick(
        tonight.view.list.active, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier
    )
    assert tonight.view.header.day.text() == "Saturday 24 Oct, after training"
    assert tonight.view.header.remark.text() == "Entered the morning after."
    tonight.type("x\n")
    tonight.settle()
    (missed,) = tonight.facts(SessionMissed)
    assert (missed.on, missed.reason) == (EVENING - timedelta(days=1), Missed.NOT_SEEN)
    tonight.view.show_day(EVENING + timedelta(days=1))
    assert tonight.view.day == EVENING - timedelta(days=1)


def test_what_is_typed_on_one_evening_waits_while_another_is_entered(evening):
    tonight = evening()
    tonight.type("y2")
    tonight.view.show_day(EVENING - timedelta(days=1))
    assert not tonight.view.has_unsaved
    assert tonight.view.header.remark.text().endswith("Typed and not saved: Sun 25 Oct.")
    tonight.view.show_day(EVENING)
    assert tonight.row("Abara").entry.typed.symptom == 2


def test_the_evening_stays_what_it_was_when_the_clubs_day_turns_while_one_types(evening):
    tonight = evening()
    tonight.type("y2")
    tonight.later(hours=10)
    tonight.settle()
    assert tonight.view.day == EVENING
    assert "turned at 04:00" in tonight.view.header.remark.text()
    tonight.type("3\n")
    tonight.settle()
    assert [s.on for s in tonight.facts(SessionEntry)] == [EVENING]


def test_tests_are_typed_in_the_row_and_ask_about_a_painkiller(evening):
    tonight = evening()
    tonight.type("y14")
    tonight.type("t")
    row = tonight.row("Abara")
    tonight.type("27")
    tonight.qtbot.keyClicks(row.tests.raises.count.right, "30")
    row.tests.raises.range.choose(True)
    tonight.qtbot.keyClick(row.tests.raises.count.right, Qt.Key.Key_Return)
    assert "90" in row.tests.answer.symmetry.text() or "111" in row.tests.answer.symmetry.text()
    tonight.type("\n")
    assert "painkiller in the last 24 h" in row.said.text()
    tonight.type("kk\n")
    tonight.settle()
    (test,) = tonight.facts(HeelRaiseTest)
    assert (test.left.repetitions, test.right.repetitions, test.painkiller) == (27, 30, False)
    assert test.on == EVENING


def test_a_symptom_in_a_test_is_asked_about_as_one_in_a_session(evening):
    tonight = evening()
    tonight.type("y14\n")
    tonight.settle()
    tonight.type("^t27")
    row = tonight.row("Abara")
    tonight.qtbot.keyClicks(row.tests.raises.count.right, "30")
    row.tests.raises.range.choose(True)
    tonight.qtbot.keyClicks(row.tests.raises.symptom, "7p")
    tonight.qtbot.keyClick(row.tests.raises.symptom, Qt.Key.Key_Return)
    tonight.type("kk\n")
    assert row.entry.typed.cell is Cell.SAFETY
    assert row.opened.labels[0].text() == "Symptom 7: 4 or more."
    tonight.type("ynyn\n")
    tonight.settle()
    assert [test.symptom.score for test in tonight.facts(HeelRaiseTest)] == [7]
    assert len(tonight.facts(SafetyCheck)) == 1


def test_a_note_is_added_to_a_saved_row_without_touching_its_session(evening):
    tonight = evening()
    tonight.type("y14\n")
    tonight.settle()
    before = tonight.row("Abara").entry.noted.fact_id
    tonight.type("^jtape")
    assert tonight.row("Abara").opened.labels[0].text() == "Note: tape_"
    tonight.type("\n\n")
    tonight.settle()
    assert [remark.text for remark in tonight.facts(Remark)] == ["tape"]
    assert tonight.row("Abara").entry.noted.fact_id == before


def test_a_note_takes_composed_letters_and_what_is_pasted(evening):
    tonight = evening()
    row = tonight.row("Abara")
    tonight.type("j")
    composed = QInputMethodEvent()
    composed.setCommitString("é")
    QApplication.sendEvent(row, composed)
    QGuiApplication.clipboard().setText("y 14\nNil")
    tonight.qtbot.keyClick(row, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert (row.entry.typed.note, row.entry.typed.done) == ("éy 14 Nil", None)
    tonight.type("\n!!")


def test_eight_athletes_fit_on_a_small_laptop_without_scrolling(evening):
    tonight = evening(athletes=8)
    tonight.type("y1")
    QApplication.processEvents()
    assert len(tonight.view.rows) == 8
    assert tonight.view.list.verticalScrollBar().maximum() == 0


def test_the_side_is_large_where_one_types_and_alike_names_are_marked(evening):
    tonight = evening()
    row = tonight.row("Abara")
    assert (row.head.side.text(), tonight.row("Brandt").head.side.text()) == ("RIGHT", "left")
    alike = [
        r.entry.tonight.line.surname
        for r in tonight.view.rows
        if "alike" in r.head.below.text()
    ]
    assert alike == ["Castel", "Castell"]


def test_a_row_is_heard_as_one_sentence(evening):
    tonight = evening()
    tonight.type("y3t")
    heard = tonight.row("Abara").accessibleName()
    assert heard.startswith("1 Abara Sam, RIGHT. Plan:")
    assert heard.endswith("Done: as planned. Symptom 3 t. typed, not saved.")
    tonight.type("z")
    assert tonight.row("Abara").accessibleDescription().startswith("Effort: z")


@pytest.mark.parametrize("keys", ["y14\n", "xv"])
def test_the_last_key_closes_the_evening_from_any_row(evening, keys):
    tonight = evening()
    tonight.type(keys)
    with tonight.qtbot.waitSignal(tonight.view.closing_asked):
        tonight.qtbot.keyClick(
            tonight.view.list.active, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier
        )
    tonight.settle()


def test_a_session_after_the_case_began_is_needed(evening):
    tonight = evening()
    tonight.view.show_day(day(-3))
    assert tonight.view.rows == []


def test_tab_goes_cell_by_cell_in_a_typed_row_and_then_to_the_next(evening):
    tonight = evening()
    tonight.type("y1")
    row = tonight.row("Abara")
    seen = [row.entry.typed.cell]
    for _press in range(2):
        tonight.qtbot.keyClick(row, Qt.Key.Key_Tab)
        seen.append(row.entry.typed.cell)
    assert seen == [Cell.EFFORT, Cell.MINUTES, Cell.MINUTES]
    assert tonight.view.list.active is tonight.row("Brandt")
    tonight.qtbot.keyClick(tonight.row("Brandt"), Qt.Key.Key_Tab)
    assert tonight.view.list.active is tonight.row("Castel")


def test_what_the_last_row_asks_is_scrolled_into_sight(evening):
    tonight = evening(athletes=8)
    tonight.view.resize(1000, 420)
    last = tonight.view.rows[-1]
    tonight.view.list.go_to(last)
    tonight.type("y14\n")
    tonight.settle()
    tonight.view.list.go_to(last)
    tonight.qtbot.keyClick(last, Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    part = tonight.view.moving.part
    seen = tonight.view.list.viewport()
    tonight.qtbot.waitUntil(
        lambda: seen.rect().contains(part.mapTo(seen, part.rect().bottomLeft()))
    )
