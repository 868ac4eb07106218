"""The closing page by real keys over a real casebook; what is proposed comes from a fake."""

from dataclasses import replace
from threading import Event
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.evening.closing_noting import subject
from teamrehab.desktop.evening.closing_view import ClosingView
from teamrehab.desktop.evening.closing_work import ClosingWork
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.injuries import Case, Clearance, LevelMoved, Remark, StageMoved
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Missed,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.reports.closing import EveningCount, Proposed, ProposedKind
from teamrehab.tasks.board import squad_board
from tests.desktop.athlete.conftest import IDS, TODAY, folder, session  # noqa: F401
from tests.desktop.test_every_window import check_language, check_names, pseudo  # noqa: F401
from tests.fakes import RefusedForTest

DECISIONS = (StageMoved, LevelMoved, AvailabilityStated, Clearance, EveningSigned, Case)
CONTROL = Qt.KeyboardModifier.ControlModifier


def proposed(kind, words, value=None, **changes):
    """Return a proposal for Sam Okafor."""
    values: dict[str, Any] = {
        "athlete_id": "a1",
        "case_id": "c1",
        "name": "Sam Okafor",
        "kind": kind,
        "words": words,
        "reason": "24 raises on the left, 28 on the right: 86 % of 80 % asked.",
        "moves": True,
        "value": value,
        "coach_before": "not training",
        "coach_after": "not training",
    }
    return Proposed(**(values | changes))


def level(number, ladder="calf"):
    value = LevelMoved(on=TODAY, ladder=ladder, level=number, proposed=number, **IDS)
    return proposed(ProposedKind.LEVEL, f"Calf raise: level {number}", value)


STAGE = proposed(
    ProposedKind.STAGE,
    "Open Hop and jump",
    StageMoved(on=TODAY, stage=3, proposed=3, **IDS),
    provisional=True,
    coach_after="with limits: no sprint",
    cautions=("Pain at 24 hours closes it again.",),
)
LIMITS = proposed(ProposedKind.AVAILABILITY, "State the limits anew")
SIGN_OFF = proposed(ProposedKind.SIGN_OFF, "Sign the clearance for team training")
STAY = proposed(ProposedKind.STAGE, "Stay in Strength", moves=False, reason="22 raises.")


def session_of(ladder, **changes):
    """Return tonight's session with all sets of the first level of a ladder."""
    looked_at = (ExerciseDone(exercise=ladder, level=1, sets=3, faults=()),)
    values: dict[str, Any] = {
        "session_id": "e1",
        "on": TODAY,
        "kind": SessionKind.REHAB,
        "symptom": Symptom(0),
        "done": Done.AS_PLANNED,
        "exercises": looked_at,
    }
    return SessionEntry(**(values | IDS | changes))


class Evening:
    """What the page is handed: proposals that go once they are noted, and a count."""

    def __init__(self, *proposals):
        self.proposals, self.accepted = list(proposals), []
        self.count = EveningCount(entered=5, missed=1)
        self.refusal: Exception | None = None
        self.work = ClosingWork(read=self.read, accept=self.accept)

    def read(self, board, day):
        noted = [fact.value for h in board.squad.open_cases for fact in h.facts]
        left = [p for p in self.proposals if p.value is None or p.value not in noted]
        return tuple(left), self.count

    def accept(self, book, history, decided, name):
        if self.refusal is not None:
            raise self.refusal
        self.accepted.append((history.case.case_id, name))
        return book.note(decided.value)


class Page:
    """The page with the keyboard on it, and what a person does to it."""

    def __init__(self, qtbot, opened, evening):
        self.qtbot, self.session, self.boards, self.fresh = qtbot, opened, 0, False
        self.view = ClosingView(opened, evening.work)
        qtbot.addWidget(self.view)
        opened.board_changed.connect(self._refresh)
        self.view.shown.connect(self._shown)
        self.view.resize(1366, 640)
        with qtbot.waitActive(self.view):
            self.view.show()
            self.view.activateWindow()
        self._refresh()
        self.wait(0)
        self.view.begin()
        qtbot.waitUntil(lambda: self.view.focusWidget() is not None)

    def _refresh(self):
        self.session.ask(lambda book: squad_board(book, TODAY), self._show)

    def _show(self, board):
        self.boards, self.fresh = self.boards + 1, False
        if self.boards == 1:
            self.view.show_evening(board, TODAY)
        else:
            self.view.show_board(board)

    def _shown(self):
        self.fresh = True

    def press(self, *keys, held=Qt.KeyboardModifier.NoModifier):
        """Press keys on whatever has the keyboard."""
        for key in keys:
            self.qtbot.keyClick(QApplication.focusWidget() or self.view, key, held)

    def dialog(self) -> Any:
        """Return the form that is open, with the keyboard on it."""
        dialog = self.view.asking.dialog
        assert dialog is not None
        dialog.activateWindow()
        self.qtbot.waitUntil(dialog.isActiveWindow)
        return dialog

    def noted(self, *kinds):
        """Return what stands of some kinds in the casebook."""
        found: list[Any] = []
        ask = lambda book: [f.value for kind in kinds for f in book.all_of(kind)]  # noqa: E731
        self.session.ask(ask, found.append)
        self.qtbot.waitUntil(lambda: bool(found))
        return found[0]

    def wait(self, boards=1):
        """Wait until that many boards came after the first, and the last is on screen."""
        self.qtbot.waitUntil(lambda: self.boards >= boards + 1 and self.fresh)


@pytest.fixture
def open_page(qtbot, session):  # noqa: F811
    return lambda evening: Page(qtbot, session, evening)


def test_a_level_is_accepted_with_one_key_and_leaves_the_list(open_page):
    evening = Evening(level(3), STAY)
    page = open_page(evening)
    page.press(Qt.Key.Key_A)
    page.wait()
    assert page.noted(LevelMoved) == [level(3).value]
    assert evening.accepted == [("c1", "Sam Okafor")]
    assert [line.proposed for line in page.view.list.lines] == [STAY]
    assert "Calf raise: level 3" in page.view.said.text()


def test_a_stage_is_opened_only_by_y_under_the_athletes_name(open_page):
    page = open_page(Evening(STAGE))
    page.press(Qt.Key.Key_A)
    assert page.view.question.words.text() == "Open Hop and jump for SAM OKAFOR?"
    assert "with limits: no sprint" in page.view.question.how.text()
    assert page.noted(StageMoved)[-1].stage == 2
    page.press(Qt.Key.Key_Y)
    page.wait()
    assert page.noted(StageMoved)[-1].stage == 3
    assert not page.view.question.is_open


@pytest.mark.parametrize(
    "key",
    [
        Qt.Key.Key_A,
        Qt.Key.Key_N,
        Qt.Key.Key_Return,
        Qt.Key.Key_Escape,
        Qt.Key.Key_Tab,
        Qt.Key.Key_Down,
        Qt.Key.Key_Space,
    ],
)
def test_any_other_key_than_y_leaves_it(open_page, key):
    page = open_page(Evening(STAGE, level(3)))
    page.press(Qt.Key.Key_A, key)
    assert not page.view.question.is_open
    assert [moved.stage for moved in page.noted(StageMoved)] == [2]
    assert page.noted(LevelMoved) == []
    assert page.view.list.current == STAGE


def test_plain_enter_decides_nothing_anywhere_on_the_page(open_page):
    page = open_page(Evening(level(3), STAGE, LIMITS, SIGN_OFF, STAY))
    before = page.noted(*DECISIONS)
    for _line in range(6):
        page.press(Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Down)
    assert "Enter changes nothing" in page.view.said.text()
    for _stop in range(20):
        page.press(Qt.Key.Key_Tab, Qt.Key.Key_Return)
    for letter in (Qt.Key.Key_O, Qt.Key.Key_C, Qt.Key.Key_I):
        page.view.begin()
        page.press(letter)
        dialog = page.dialog()
        for _stop in range(12):
            page.press(Qt.Key.Key_Return, Qt.Key.Key_Tab)
        assert page.view.asking.dialog is dialog
        dialog.done(0)
        page.view.activateWindow()
        page.qtbot.waitUntil(page.view.isActiveWindow)
    assert page.noted(*DECISIONS) == before


def test_what_must_be_filled_in_opens_its_form_with_the_athletes_name(open_page):
    page = open_page(Evening(LIMITS, SIGN_OFF))
    assert page.view.keys.accept.text() == "Open the form (A)"
    page.press(Qt.Key.Key_A)
    assert page.view.asking.dialog.windowTitle() == "Availability and limits"
    page.view.asking.dialog.done(0)
    page.press(Qt.Key.Key_Down, Qt.Key.Key_A)
    assert "clearance" in page.view.asking.dialog.windowTitle().lower()
    page.view.asking.dialog.done(0)
    assert page.noted(Clearance) == []


def test_deciding_otherwise_takes_a_reason(open_page):
    page = open_page(Evening(STAY))
    page.press(Qt.Key.Key_O)
    dialog = page.dialog()
    dialog.form.stage.show_value(4)
    page.qtbot.keyClick(dialog, Qt.Key.Key_Return, CONTROL)
    assert dialog.form.fields["Reason"].complaint
    page.qtbot.keyClicks(dialog.form.why, "slept badly")
    page.qtbot.keyClick(dialog, Qt.Key.Key_Return, CONTROL)
    page.wait()
    assert (page.noted(StageMoved)[-1].stage, page.noted(StageMoved)[-1].on) == (4, TODAY)


def test_another_level_than_proposed_takes_a_reason(open_page):
    page = open_page(Evening(level(2, ladder="raise_bent")))
    page.session.write(lambda book: book.note(session_of("raise_bent")), "c1")
    page.wait()
    page.press(Qt.Key.Key_O)
    dialog = page.dialog()
    assert dialog.form.level.value == 1
    page.qtbot.keyClicks(dialog.form.why, "slept badly")
    page.qtbot.keyClick(dialog, Qt.Key.Key_Return, CONTROL)
    page.wait(2)
    (moved,) = page.noted(LevelMoved)
    assert (moved.ladder, moved.level, moved.why) == ("raise_bent", 1, "slept badly")


def test_an_evening_with_its_own_work_is_decided_and_signed(open_page):
    evening = Evening()
    evening.work = ClosingWork()
    page = open_page(evening)
    page.session.write(lambda book: book.note(session_of("raise_bent", done=Done.PARTLY)), "c1")
    page.wait()
    up = next(
        p for p in proposals_on(page) if p.moves and "Bent-knee raise, standing" in p.words
    )
    while page.view.list.current != up:
        page.press(Qt.Key.Key_Down)
    page.press(Qt.Key.Key_A)
    page.wait(2)
    (moved,) = page.noted(LevelMoved)
    assert (moved.ladder, moved.level) == ("raise_bent", 2)
    assert subject(up) not in map(subject, proposals_on(page))
    assert page.view.panel.entered.text() == "1 row entered"
    page.press(Qt.Key.Key_Return, held=CONTROL)
    page.press(Qt.Key.Key_Y)
    page.wait(3)
    (signed,) = page.noted(EveningSigned)
    assert (signed.on, signed.signed_by, signed.entered) == (TODAY, "Ines Duarte", 1)


def proposals_on(page):
    return [line.proposed for line in page.view.list.lines]


def test_two_levels_are_accepted_one_after_the_other_but_none_twice(open_page):
    page = open_page(Evening(level(3), level(4)))
    page.press(Qt.Key.Key_A, Qt.Key.Key_A, Qt.Key.Key_A)
    page.wait(2)
    assert [moved.level for moved in page.noted(LevelMoved)] == [3, 4]


def test_a_refusal_is_told_and_the_proposal_can_be_accepted_again(open_page):
    evening = Evening(level(3))
    evening.refusal = RefusedForTest("The disk is full.")
    page = open_page(evening)
    page.press(Qt.Key.Key_A)
    page.qtbot.waitUntil(lambda: "The disk is full." in page.view.notice.words)
    evening.refusal = None
    page.press(Qt.Key.Key_A)
    page.wait()
    assert len(page.noted(LevelMoved)) == 1


def test_a_question_whose_proposal_is_gone_goes_too(open_page):
    evening = Evening(STAGE)
    page = open_page(evening)
    page.press(Qt.Key.Key_A)
    evening.proposals.clear()
    page.session.board_changed.emit()
    page.wait()
    assert not page.view.question.is_open
    page.press(Qt.Key.Key_Y)
    assert [moved.stage for moved in page.noted(StageMoved)] == [2]


def test_a_question_that_still_holds_outlives_a_new_board(open_page):
    page = open_page(Evening(STAGE, level(3)))
    page.press(Qt.Key.Key_A)
    page.session.board_changed.emit()
    page.wait()
    page.press(Qt.Key.Key_Y)
    page.wait(2)
    assert page.noted(StageMoved)[-1].stage == 3


@pytest.mark.parametrize("kind", ["level", "stage"])
def test_what_is_accepted_goes_with_the_case_the_list_was_made_from(open_page, kind):
    """Board and page answer at different times: a correction must not slip in between."""
    evening, gate, seen = Evening(level(3) if kind == "level" else STAGE), Event(), []
    gate.set()

    def slow(board, day):
        assert gate.wait(20)
        return evening.read(board, day)

    def seeing(book, history, decided, name):
        seen.append(history.of(SessionEntry))
        return evening.accept(book, history, decided, name)

    evening.work = ClosingWork(read=slow, accept=seeing)
    page = open_page(evening)
    gate.clear()
    before = page.noted(SessionEntry)
    page.session.write(lambda book: book.note(session_of("raises", symptom=Symptom(8))), "c1")
    page.qtbot.waitUntil(lambda: page.boards == 2)
    page.press(Qt.Key.Key_A)
    if kind == "stage":
        page.press(Qt.Key.Key_Y)
    page.qtbot.waitUntil(lambda: bool(seen))
    gate.set()
    page.wait(2)
    assert list(seen[0]) == before


def test_a_signature_is_asked_for_anew_when_the_rows_have_changed(open_page):
    evening = Evening()
    evening.count = EveningCount(entered=4, missed=0, open=("Mei Silva",))
    page = open_page(evening)
    page.press(Qt.Key.Key_Return, held=CONTROL)
    evening.count = EveningCount(entered=3, missed=0, open=("Mei Silva", "Jo Brandt"))
    page.session.board_changed.emit()
    page.wait()
    page.press(Qt.Key.Key_Y)
    assert page.noted(EveningSigned) == []


def test_signing_says_first_which_rows_are_not_entered(open_page):
    evening = Evening()
    evening.count = EveningCount(entered=4, missed=1, open=("Mei Silva",))
    page = open_page(evening)
    page.press(Qt.Key.Key_Return, held=CONTROL)
    assert "Mei Silva" in page.view.question.how.text()
    assert page.noted(EveningSigned) == []
    page.press(Qt.Key.Key_Y)
    page.wait()
    (signed,) = page.noted(EveningSigned)
    assert (signed.signed_by, signed.entered, signed.missed, signed.open) == (
        "Ines Duarte",
        4,
        1,
        1,
    )


def test_signing_names_who_is_stopped_and_a_second_press_of_the_same_keys_signs_nothing(
    open_page,
):
    page = open_page(Evening(replace(level(3), stopped=True, name="Mei Silva"), level(4)))
    page.press(Qt.Key.Key_Return, held=CONTROL)
    assert "Rehab stopped: Mei Silva" in page.view.question.how.text()
    page.press(Qt.Key.Key_Return, held=CONTROL)
    assert page.noted(EveningSigned) == []


OUT_ALREADY = replace(
    STAY,
    kind=ProposedKind.AVAILABILITY,
    words="Stop: not training already",
    reason="Open red flag: seek emergency medical care now.",
    stopped=True,
    flagged=True,
)


def test_a_red_flag_stands_first_though_nothing_is_left_to_decide_about_it(open_page):
    page = open_page(Evening(OUT_ALREADY, level(3), STAY))
    assert proposals_on(page) == [OUT_ALREADY, level(3), STAY]
    assert page.view.list.current == OUT_ALREADY


def test_a_stop_that_comes_while_the_signature_is_asked_for_is_not_signed_over(open_page):
    evening = Evening(level(3))
    page = open_page(evening)
    page.press(Qt.Key.Key_Return, held=CONTROL)
    evening.proposals.insert(0, OUT_ALREADY)
    page.session.board_changed.emit()
    page.wait()
    page.press(Qt.Key.Key_Y)
    assert page.noted(EveningSigned) == []


def test_an_evening_corrected_after_its_signature_is_signed_again(open_page):
    page = open_page(Evening())
    page.press(Qt.Key.Key_Return, held=CONTROL)
    page.press(Qt.Key.Key_Y)
    page.wait()
    panel = page.view.panel
    page.qtbot.waitUntil(lambda: "Signed by Ines Duarte" in panel.signed.text())
    assert not panel.stale.isVisible()
    later = Remark(remark_id="r1", on=TODAY, text="Slept badly.", **IDS)
    page.session.write(lambda book: book.note(later), "c1")
    page.qtbot.waitUntil(panel.stale.isVisible)
    page.press(Qt.Key.Key_Return, held=CONTROL)
    page.press(Qt.Key.Key_Y)
    page.qtbot.waitUntil(lambda: not panel.stale.isVisible())
    assert len(page.noted(EveningSigned)) == 1


def test_why_a_row_was_missed_stands_beside_the_count(open_page):
    page = open_page(Evening())
    missed = SessionMissed(session_id="e1", on=TODAY, reason=Missed.ILL, **IDS)
    page.session.write(lambda book: book.note(missed), "c1")
    page.wait()
    assert "Sam Okafor: not done: ill" in page.view.panel.missed.text()


def test_a_line_says_all_that_is_needed_to_decide_it(open_page):
    page = open_page(Evening(STAGE, STAY))
    said = page.view.list.lines[0].accessibleName()
    for words in ("Sam Okafor", "Open Hop and jump", "86 %", "Provisional", "24 hours"):
        assert words in said
    assert "with limits: no sprint (now: not training)." in said
    assert "Stay in Strength: 22 raises." in page.view.list.lines[1].accessibleName()


def test_the_marked_line_stays_in_view_when_a_question_takes_its_room(open_page):
    page = open_page(Evening(*(level(number) for number in range(1, 9)), STAGE))
    page.press(*[Qt.Key.Key_Down] * 8)
    page.press(Qt.Key.Key_A)
    line, seen = page.view.list.lines[8], page.view.list.viewport()
    page.qtbot.waitUntil(
        lambda: (
            line.mapTo(seen, line.rect().topLeft()).y() >= 0
            and line.mapTo(seen, line.rect().bottomLeft()).y() <= seen.height()
        )
    )
    assert page.view.question.is_open


def test_every_control_has_a_name_and_every_word_is_translated(open_page, pseudo):  # noqa: F811
    page = open_page(Evening(in_brackets(STAGE), in_brackets(STAY)))
    page.press(Qt.Key.Key_A)
    check_names(page.view)
    check_language(page.view)
    for letter in (Qt.Key.Key_C, Qt.Key.Key_I):
        page.view.begin()
        page.press(letter)
        check_names(page.view.asking.dialog)
        check_language(page.view.asking.dialog)
        page.view.asking.dialog.done(0)


def in_brackets(one):
    """Return a proposal as it is worded in the language that puts all in brackets."""
    return replace(
        one,
        words="⟦words⟧",
        reason="⟦reason⟧",
        coach_after="⟦after⟧",
        coach_before="⟦before⟧",
        cautions=("⟦caution⟧",),
    )


def test_keys_lead_to_the_athlete_the_sheet_and_back(open_page):
    page = open_page(Evening(STAGE))
    with page.qtbot.waitSignal(page.view.athlete_asked) as asked:
        page.press(Qt.Key.Key_P)
    assert asked.args == ["a1"]
    with page.qtbot.waitSignal(page.view.sheet_asked):
        page.press(Qt.Key.Key_S)
    with page.qtbot.waitSignal(page.view.back_asked):
        page.press(Qt.Key.Key_Escape)


def test_a_complaint_is_news_of_the_board_and_leaves_the_keyboard_where_it_was(open_page):
    page = open_page(Evening(STAGE))
    page.press(Qt.Key.Key_C)
    dialog = page.dialog()
    for keys in ("sil\r", "th\r", "r", "nnn", "n"):
        for key in keys:
            page.qtbot.keyClicks(dialog.focusWidget(), key)
    assert page.view.has_unsaved
    page.qtbot.keyClick(dialog, Qt.Key.Key_Return, CONTROL)
    page.wait()
    stated = page.noted(AvailabilityStated)[-1]
    assert (stated.athlete_id, stated.training, stated.match) == (
        "a2",
        Training.NONE,
        Match.UNDECIDED,
    )
    assert not page.view.has_unsaved
    assert "Noted" in page.view.said.text()
    page.view.activateWindow()
    page.qtbot.waitUntil(page.view.list.lines[0].hasFocus)
