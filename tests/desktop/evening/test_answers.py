"""An answer of the casebook that comes late finds its row, whatever is shown by then."""

import gc
import threading
from dataclasses import replace
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.evening.evening_work import evening_work
from teamrehab.domain.measures import SafetyCheck, SessionEntry, Symptom
from teamrehab.records import NotSavedError
from teamrehab.tasks.moving import move_row
from tests.desktop.evening.conftest import EVENING, NAMES

ALT, CONTROL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
BEFORE = EVENING - timedelta(days=1)


class Blocked:
    """A casebook that answers when it is let, and refuses if it is told to."""

    def __init__(self, *, refuses=False):
        self.gate, self.refuses = threading.Event(), refuses

    def save(self, book, row):
        self._wait(book)
        return evening_work().save(book, row)

    def move(self, book, fact_ids, to):
        self._wait(book)
        return move_row(book, fact_ids, to)

    def _wait(self, book):
        assert self.gate.wait(20)
        if self.refuses:
            raise NotSavedError(book.folder)


def go(tonight, key):
    """Press an arrow with Alt where the cursor is."""
    tonight.qtbot.keyClick(tonight.view.window().focusWidget(), key, ALT)


@pytest.mark.parametrize("comes_back", [False, True])
def test_a_row_left_at_once_for_another_evening_is_saved_and_ticks(evening, comes_back):
    disk = Blocked()
    tonight = evening(save=disk.save)
    news: list[str] = []
    tonight.session.noted.connect(news.append)
    tonight.type("y14\n")
    go(tonight, Qt.Key.Key_Left)
    assert tonight.view.day == BEFORE
    if comes_back:
        go(tonight, Qt.Key.Key_Right)
        assert tonight.row("Abara").head.status.text() == "being saved"
        assert tonight.row("Abara").entry.typed.effort == 4
    disk.gate.set()
    tonight.qtbot.waitUntil(lambda: news == ["c1"])
    tonight.settle()
    tonight.view.show_day(EVENING)
    assert tonight.row("Abara").head.status.text() == "saved 19:00"
    assert not tonight.view.has_unsaved
    assert tonight.view.drafts.known == {}
    assert [s.on for s in tonight.facts(SessionEntry)] == [EVENING]


def test_a_refusal_is_told_on_another_evening_and_the_row_is_typed_again(evening):
    disk = Blocked(refuses=True)
    tonight = evening(save=disk.save)
    told: list[str] = []
    tonight.view.told.connect(told.append)
    tonight.type("y14\n")
    go(tonight, Qt.Key.Key_Left)
    disk.gate.set()
    tonight.qtbot.waitUntil(lambda: bool(told))
    assert told[-1].startswith("The row of Abara of Sun 25 Oct was not saved")
    assert tonight.view.header.remark.text().endswith("Typed and not saved: Sun 25 Oct.")
    go(tonight, Qt.Key.Key_Right)
    typed = tonight.row("Abara").entry.typed
    assert (typed.symptom, typed.effort) == (1, 4)
    assert tonight.facts(SessionEntry) == []


def test_a_row_refused_while_the_page_was_left_is_typed_again_after_a_restart(evening):
    disk = Blocked(refuses=True)
    tonight = evening(save=disk.save)
    tonight.type("y14\n")
    tonight.view.hide()
    disk.gate.set()
    tonight.reopen()
    tonight.qtbot.waitUntil(lambda: tonight.row("Abara").entry.is_typed)
    assert tonight.row("Abara").entry.typed.felt == Symptom(1)


@pytest.mark.parametrize("refuses", [False, True])
def test_a_move_left_at_once_for_another_evening_is_told(evening, refuses):
    disk = Blocked(refuses=refuses)
    tonight = evening(move=disk.move)
    told: list[str] = []
    tonight.view.told.connect(told.append)
    tonight.type("y25\n")
    tonight.settle()
    tonight.type("^")
    tonight.qtbot.keyClick(tonight.row("Abara"), Qt.Key.Key_M, CONTROL)
    tonight.qtbot.keyClicks(tonight.view.moving.part.name, "castell")
    tonight.qtbot.keyClick(tonight.view.moving.part.name, Qt.Key.Key_Return)
    tonight.view.show_day(BEFORE)
    disk.gate.set()
    tonight.qtbot.waitUntil(lambda: bool(told))
    owner = "a1" if refuses else "a4"
    assert [s.athlete_id for s in tonight.facts(SessionEntry)] == [owner]
    assert told[-1].startswith(
        "The entry of Abara of Sun 25 Oct was not moved" if refuses else "Moved to 4 Castell"
    )


def test_a_move_that_is_asked_about_is_given_up_with_its_evening(evening):
    tonight = evening()
    tonight.type("y25\n")
    tonight.settle()
    tonight.type("^")
    tonight.qtbot.keyClick(tonight.row("Abara"), Qt.Key.Key_M, CONTROL)
    tonight.view.show_day(BEFORE)
    tonight.view.show_day(EVENING)
    tonight.settle()
    tonight.qtbot.wait(1)
    tonight.view.list.go_to(tonight.row("Abara"))
    tonight.qtbot.keyClick(tonight.row("Abara"), Qt.Key.Key_M, CONTROL)
    tonight.qtbot.keyClick(tonight.view.moving.part.name, Qt.Key.Key_Escape)
    assert [s.athlete_id for s in tonight.facts(SessionEntry)] == ["a1"]


def test_a_row_has_the_ids_of_its_facts_from_the_first_key(evening):
    tonight = evening()
    tonight.type("y")
    row = tonight.row("Abara")
    ids = row.draft.ids
    tonight.type("14\n")
    tonight.settle()
    (session,) = tonight.facts(SessionEntry)
    assert session.session_id == ids["session"]
    assert row.draft is None


def test_a_row_that_was_emptied_begins_with_other_ids(evening):
    tonight = evening()
    tonight.type("y")
    before = tonight.row("Abara").draft.ids["session"]
    tonight.type("!y")
    assert tonight.row("Abara").draft.ids["session"] != before


def test_a_draft_goes_with_the_save_of_its_row_and_not_after_it(evening):
    dropped: list[str] = []
    work = evening_work()

    def keep(book, place, text):
        if not text:
            dropped.append(place)
        work.keep(book, place, text)

    tonight = evening(keep=keep)
    tonight.type("y1")
    tonight.view.drafts.keep()
    assert list(tonight.drafts()) == [f"evening/{EVENING.isoformat()}/c1"]
    tonight.type("4\n")
    tonight.settle()
    assert tonight.drafts() == {}
    assert dropped == []


def correct_meanwhile(tonight):
    """Correct what stands from another page, of which this one is told nothing."""
    (before,) = tonight.facts(SessionEntry)
    newer = replace(before, symptom=Symptom(3), painkiller=True)
    done: list[object] = []
    tonight.session.ask(lambda book: book.note(newer), done.append)
    tonight.qtbot.waitUntil(lambda: bool(done))


def test_a_newer_entry_of_somebody_else_is_shown_before_it_is_replaced(evening):
    tonight = evening()
    tonight.type("y14\n")
    tonight.settle()
    tonight.type("^yy")
    correct_meanwhile(tonight)
    row = tonight.row("Abara")
    for _cell in ("symptom", "effort"):
        tonight.qtbot.keyClick(row, Qt.Key.Key_Right)
    tonight.type("6\n")
    tonight.qtbot.waitUntil(lambda: "Symptom 3" in row.said.text())
    assert (row.entry.typed.effort, row.head.status.text()) == (6, "correction, not saved")
    assert [s.effort for s in tonight.facts(SessionEntry)] == [4]
    tonight.view.list.go_to(row)
    tonight.type("\n")
    assert "Symptom 3" in row.said.text()
    tonight.type("\n")
    tonight.settle()
    (session,) = tonight.facts(SessionEntry)
    assert (session.effort, session.symptom) == (6, Symptom(1))


def test_a_correction_of_an_entry_that_was_undone_leaves_one_entry(evening):
    tonight = evening()
    tonight.type("y14\n")
    tonight.settle()
    tonight.type("^yy")
    row = tonight.row("Abara")
    for _cell in ("symptom", "effort"):
        tonight.qtbot.keyClick(row, Qt.Key.Key_Right)
    tonight.type("6")
    undone: list[object] = []
    tonight.session.undo(undone.append)
    tonight.qtbot.waitUntil(lambda: "taken back" in row.said.text())
    assert tonight.facts(SessionEntry) == []
    tonight.type("\n\n")
    tonight.settle()
    assert [s.effort for s in tonight.facts(SessionEntry)] == [6]
    assert [fact.versions for fact in row.entry.tonight.line.noted] == [1]


def test_the_answers_of_a_sharp_session_move_with_it_after_a_correction_too(evening):
    tonight = evening()
    tonight.type("y6s4\nynyn\n")
    tonight.settle()
    tonight.later(minutes=5)
    tonight.view.list.go_to(tonight.row("Abara"))
    tonight.type("yy")
    for _cell in ("symptom", "effort"):
        tonight.qtbot.keyClick(tonight.row("Abara"), Qt.Key.Key_Right)
    tonight.type("5\n")
    tonight.settle()
    tonight.view.list.go_to(tonight.row("Abara"))
    tonight.qtbot.keyClick(tonight.row("Abara"), Qt.Key.Key_M, CONTROL)
    tonight.qtbot.keyClicks(tonight.view.moving.part.name, "castell")
    tonight.qtbot.keyClick(tonight.view.moving.part.name, Qt.Key.Key_Return)
    tonight.qtbot.waitUntil(lambda: tonight.row("Castell").entry.is_entered)
    (session,), (check,) = tonight.facts(SessionEntry), tonight.facts(SafetyCheck)
    assert (session.athlete_id, session.effort) == ("a4", 5)
    assert check.athlete_id == "a4"
    assert "What Sam Castell did of the plan did not move" in tonight.row("Abara").said.text()
    assert tonight.row("Castell").entry.tonight.line.stopped


def test_pages_that_were_closed_are_collected_without_harm(evening):
    """Rows held by what answers for them once took the whole program down here."""
    tonight = evening()
    for _time in range(4):
        tonight.type("y14\ny3")
        tonight.settle()
        tonight.reopen()
        gc.collect()
        tonight.type("!")
        gc.collect()
    assert len(tonight.view.rows) == len(NAMES[:5])
