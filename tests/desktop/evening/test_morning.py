"""The morning typed with real keys: what is saved, what is asked, what settles."""

import threading
from dataclasses import replace
from functools import partial
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

from teamrehab.desktop.evening.morning_view import MorningView
from teamrehab.desktop.session import Session
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.injuries import Nature, ProtocolChosen, RedFlag, StageMoved
from teamrehab.domain.measures import (
    Feeling,
    MorningResponse,
    SafetyCheck,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.protocols import load_protocols
from teamrehab.records import Cost, create_casebook, open_casebook
from teamrehab.tasks.board import squad_board
from tests.builders import athlete, case, clock, day
from tests.records.test_faults import fail_once_at_commit

TODAY, YESTERDAY = day(20), day(19)
PASSPHRASE = "four words that nobody owns"
ENTER, ALT = Qt.Key.Key_Return, Qt.KeyboardModifier.AltModifier


def ids(number):
    return {"case_id": f"c{number}", "athlete_id": f"a{number}"}


def trained(number, on=YESTERDAY):
    return SessionEntry(
        session_id=f"s{number}",
        on=on,
        kind=SessionKind.REHAB,
        effort=4,
        symptom=Symptom(1),
        **ids(number),
    )


def felt(number, on, score):
    return MorningResponse(
        response_id=f"m{number}{on}", on=on, symptom=Symptom(score), **ids(number)
    )


def course():
    """Four injuries and an illness; the second and third trained yesterday."""
    version = load_protocols()["calf_strain"].version
    people = [
        athlete(athlete_id=f"a{n}", surname=f"Surname{n}", first_name="Kim", number=n)
        for n in range(1, 6)
    ]
    cases = [case(**ids(n)) for n in range(1, 5)]
    ill = case(**ids(5), nature=Nature.ILLNESS)
    chosen = ProtocolChosen(on=day(1), protocol="calf_strain", version=version, **ids(2))
    opened = StageMoved(on=YESTERDAY, stage=2, proposed=2, **ids(2))
    return [*people, *cases, ill, chosen, trained(2), trained(3), felt(2, day(18), 1), opened]


class Opened:
    """The morning over a real casebook, with what a person does to it."""

    def __init__(self, qtbot, folder):
        self.qtbot, self.folder = qtbot, folder
        self._open()

    def _open(self):
        now = clock(TODAY, hour=8)
        self.session = Session(
            lambda: open_casebook(self.folder, passphrase=PASSPHRASE, clock=now)
        )
        self.until(lambda: self.session.is_open)
        self.view = MorningView(self.session)
        self.qtbot.addWidget(self.view)
        self.boards = 0
        self.session.board_changed.connect(self.refresh)
        self.refresh()
        with self.qtbot.waitActive(self.view):
            self.view.show()
            self.view.activateWindow()
        self.until(lambda: self.boards == 1)
        self.view.begin()

    def crash(self):
        """Lose the casebook with the page still open: nothing more is kept; come back."""
        self.session.finish()
        self.view.close()
        self._open()

    def refresh(self):
        self.session.ask(lambda book: squad_board(book, TODAY), self._show)

    def _show(self, board):
        if isValid(self.view):
            self.view.show_board(board)
            self.boards += 1

    def until(self, holds):
        self.qtbot.waitUntil(holds)

    def press(self, *keys):
        """Press keys where the cursor is, or type the signs of a word there."""
        for key in keys:
            at = QApplication.focusWidget()
            press = self.qtbot.keyClicks if isinstance(key, str) else self.qtbot.keyClick
            press(at, key)

    def boards_more(self, count):
        self.until(lambda: self.boards >= count)

    def saved(self, kind) -> list[Any]:
        found: list[Any] = []
        self.session.ask(lambda book: book.all_of(kind), found.append)
        self.until(lambda: bool(found))
        return [fact.value for fact in found[0]]

    def today(self) -> dict[str, Any]:
        return {one.case_id: one for one in self.saved(MorningResponse) if one.on == TODAY}

    def row(self, number):
        return next(row for row in self.view.rows if row.line.case_id == f"c{number}")

    def words(self, number):
        return self.row(number).cells[-1].text()

    def at(self):
        return [row.hasFocus() for row in self.view.rows].index(True)


@pytest.fixture
def opened(qtbot, tmp_path):
    book = create_casebook(
        tmp_path / "club",
        team=Team(name="Harbour Rovers"),
        founder=StaffMember(staff_id="s1", name="Ines Duarte"),
        passphrase=PASSPHRASE,
        clock=clock(YESTERDAY),
        cost=Cost(memory_kib=64, passes=1, lanes=1),
    )
    with book:
        book.note(*course())
    opened = Opened(qtbot, tmp_path / "club")
    yield opened
    opened.view.close()
    opened.session.finish()


def test_there_is_a_line_an_injury_and_who_trained_yesterday_comes_first(opened):
    assert [row.line.case_id for row in opened.view.rows] == ["c2", "c3", "c1", "c4"]
    assert [cell.text() for cell in opened.row(2).cells[3:5]] == [
        "symptom 1",
        "symptom 1 (Fri 23 Oct)",
    ]
    assert opened.words(1) == "not entered"


def test_a_digit_and_enter_save_and_go_to_the_next_unfinished_line(opened):
    opened.press("1", ENTER, "0", ENTER, Qt.Key.Key_Down, "2", "t", "k", ENTER)
    opened.boards_more(4)
    opened.until(lambda: opened.words(4).startswith("✓"))
    today = opened.today()
    assert {key: one.symptom for key, one in today.items()} == {
        "c2": Symptom(1),
        "c3": Symptom(0),
        "c4": Symptom(2, Feeling.TIGHTNESS),
    }
    assert today["c2"].painkiller is None
    assert today["c4"].painkiller is True
    assert opened.at() == 2
    assert opened.words(1) == "not entered"


def test_a_morning_is_pain_only_where_the_letter_is_typed(opened):
    opened.press("1", ENTER, "1", "p", ENTER)
    opened.until(lambda: opened.words(3).startswith("✓"))
    assert [opened.row(n).cells[5].text() for n in (2, 3)] == ["symptom 1", "pain 1"]
    assert [opened.today()[f"c{n}"].symptom.feeling for n in (2, 3)] == [
        Feeling.NOT_SAID,
        Feeling.PAIN,
    ]


def test_enter_on_an_untouched_line_saves_nothing(opened):
    opened.press(ENTER, ENTER, ENTER, ENTER, ENTER)
    assert opened.today() == {}
    assert not opened.view.has_unsaved


def test_a_letter_counts_only_right_after_the_digit(opened):
    opened.press("p")
    assert opened.row(2).typed.is_empty
    assert "means nothing here" in opened.row(2).said.text()
    opened.press("+", "c")
    assert opened.row(2).typed.symptom == Symptom(10, Feeling.CRAMP)
    opened.press(Qt.Key.Key_Backspace, Qt.Key.Key_Backspace)
    assert opened.row(2).typed.is_empty


@pytest.mark.parametrize("keys", ["3", "4", "1s"])
def test_a_rise_a_high_or_a_sharp_one_is_asked_about_before_it_is_saved(opened, keys):
    opened.press(*keys, ENTER)
    assert opened.row(2).questions.isVisible()
    opened.press("y", "n", "y")
    opened.press(ENTER)
    assert opened.today() == {}
    opened.press("n", ENTER)
    opened.until(lambda: opened.words(2).startswith("✓"))
    (check,) = opened.saved(SafetyCheck)
    assert (check.same_spot, check.swollen_or_warm) == (True, False)
    assert (check.can_push_off, check.chest_or_breath) == (True, False)
    assert opened.saved(RedFlag) == []
    assert opened.at() == 1


def test_a_swollen_leg_raises_a_red_flag_in_the_same_save(opened):
    opened.press("5", ENTER, "y", "y", "y", "n")
    assert opened.row(2).questions.meaning.text().startswith("Doctor the same day.")
    opened.press(ENTER)
    opened.until(lambda: opened.words(2).startswith("✓"))
    (flag,) = opened.saved(RedFlag)
    assert (flag.case_id, flag.on) == ("c2", TODAY)
    opened.until(lambda: opened.words(2).endswith("red flag open"))


def test_questions_given_up_lead_back_to_the_line_and_save_nothing(opened):
    opened.press("5", ENTER, "y", Qt.Key.Key_Backspace, Qt.Key.Key_Backspace)
    assert not opened.row(2).questions.isVisible()
    assert opened.row(2).typed.symptom == Symptom(5)
    assert opened.at() == 0
    assert opened.today() == {}


def test_a_good_morning_settles_what_was_opened_yesterday(opened):
    opened.press("1", ENTER)
    opened.until(lambda: "settled" in opened.words(2))
    assert "Strength, opened yesterday: settled" in opened.words(2)


def test_a_bad_morning_offers_to_take_it_back_and_only_a_then_y_does(opened):
    opened.press("3", ENTER, "y", "n", "y", "n", ENTER)
    opened.until(lambda: "turned out badly" in opened.words(2))
    opened.press(Qt.Key.Key_Up, ENTER, Qt.Key.Key_Up)
    opened.row(2).setFocus()
    opened.press("a", ENTER, "q")
    assert "Kim Surname2" in opened.row(2).said.text()
    assert [move.stage for move in opened.saved(StageMoved)] == [2]
    opened.press("y")
    opened.until(lambda: "taken back" in opened.words(2))
    assert [move.stage for move in opened.saved(StageMoved)] == [2, 1]


def test_typing_again_corrects_a_saved_morning_after_it_is_asked(opened):
    opened.press("1", ENTER)
    opened.until(lambda: opened.words(2).startswith("✓"))
    opened.press(Qt.Key.Key_Up, "2", ENTER)
    assert opened.row(2).said.text().startswith("Saved as symptom 1. Change it to symptom 2?")
    opened.press(Qt.Key.Key_Escape)
    assert opened.today()["c2"].symptom == Symptom(1)
    opened.press("2", ENTER, "y")
    opened.until(lambda: opened.row(2).cells[5].text() == "symptom 2")
    assert [one.symptom for one in opened.saved(MorningResponse) if one.on == TODAY] == [
        Symptom(2)
    ]


def test_the_day_moves_back_one_day_and_no_further_and_what_is_typed_waits_on_its_day(opened):
    opened.press("1")
    for _again in range(2):
        opened.qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Left, ALT)
        assert opened.view.day == YESTERDAY
    assert opened.view.remark.text() == "Typed and not saved: Sun 25 Oct."
    opened.press("1", ENTER)
    opened.until(lambda: len(opened.saved(MorningResponse)) == 2)
    assert [one.on for one in opened.saved(MorningResponse)] == [day(18), YESTERDAY]
    opened.qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Right, ALT)
    assert (opened.view.day, opened.view.remark.text()) == (TODAY, "")
    assert opened.row(2).typed.symptom == Symptom(1)


def test_a_typed_morning_survives_a_crash_and_goes_with_its_save(opened):
    opened.press("2", "t")
    opened.view.drafts.keep()
    opened.crash()
    opened.until(lambda: opened.row(2).typed.symptom == Symptom(2, Feeling.TIGHTNESS))
    assert opened.today() == {}
    opened.press("k", ENTER)
    opened.until(lambda: opened.words(2).startswith("✓"))
    (saved,) = opened.today().values()
    assert (saved.symptom, saved.painkiller) == (Symptom(2, Feeling.TIGHTNESS), True)
    opened.crash()
    opened.until(lambda: opened.words(2).startswith("✓"))
    assert not opened.view.has_unsaved


def test_a_stop_is_marked_with_its_reason_and_what_the_coach_reads(opened):
    limits = AvailabilityStated(
        on=YESTERDAY, training=Training.WITH_LIMITS, match=Match.NOT_AVAILABLE, **ids(2)
    )
    opened.session.write(lambda book: book.note(limits), "c2", lambda _receipt: None)
    assert opened.row(2).stop.text() == ""
    opened.press("4", ENTER, "n", "n", "y", "n", ENTER)
    opened.until(lambda: opened.words(2).endswith("rehab stopped"))
    told = opened.row(2).stop.text()
    assert told.endswith(
        "Coach reads: training with limits, match not available. Ctrl+B states it."
    )
    assert opened.view.remark.text().endswith("availability of Surname2.")
    assert opened.row(3).stop.text() == ""


def test_a_day_that_turns_while_a_line_is_typed_leaves_the_line_on_its_day(opened):
    opened.press("1")
    opened.session.ask(lambda book: squad_board(book, day(21)), opened._show)
    opened.boards_more(2)
    assert opened.view.day == TODAY
    opened.press(ENTER)
    opened.until(lambda: not opened.view.has_unsaved)
    assert opened.today()["c2"].symptom == Symptom(1)


def without_case(opened, number):
    """Show the board as if a case had ended."""
    board = opened.view._board
    left = tuple(h for h in board.squad.open_cases if h.case.case_id != f"c{number}")
    opened.view.show_board(replace(board, squad=replace(board.squad, open_cases=left)))


@pytest.mark.parametrize("refuses", [False, True])
def test_a_line_whose_case_ends_while_it_is_saved_stays_until_the_answer(opened, refuses):
    gate = threading.Event()
    told: list[str] = []
    opened.view.told.connect(told.append)
    if refuses:
        spoil = partial(fail_once_at_commit, after=False)
        opened.session.ask(spoil, lambda _done: None)
    opened.session.ask(lambda _book: gate.wait(20), lambda _answer: None)
    opened.press("1", ENTER)
    row = next(row for row in opened.view.rows if row.pending)
    without_case(opened, row.line.case_id[1:])
    assert row in opened.view.rows
    gate.set()
    opened.until(lambda: bool(told))
    if refuses:
        assert "was not saved" in told[0]
        assert not row.pending
        assert row.typed.score == 1
    else:
        assert opened.today()[row.line.case_id].symptom == Symptom(1)
