"""A team session typed with real keys, and pasted: what is saved, and what never is."""

import threading
from datetime import date
from typing import Any

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.group.view import TeamSessionView
from teamrehab.desktop.session import Session
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.availability import Absence, AbsenceReason, Training
from teamrehab.domain.days import Exposure
from teamrehab.records import Cost, create_casebook, open_casebook
from teamrehab.tasks.board import squad_board
from tests.builders import athlete, case, clock, day, stated

TODAY = day(3)
PASSPHRASE = "four words that nobody owns"
SIZE = 60
ENTER, CTRL = Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier


def squad():
    return [
        athlete(athlete_id=f"a{n:02}", surname=f"Surname{n:02}", first_name="Kim", number=n)
        for n in range(1, SIZE + 1)
    ]


@pytest.fixture
def folder(tmp_path):
    """A closed casebook with sixty athletes: the second in rehab, the third away."""
    book = create_casebook(
        tmp_path / "club",
        team=Team(name="Harbour Rovers"),
        founder=StaffMember(staff_id="s1", name="Ines Duarte"),
        passphrase=PASSPHRASE,
        clock=clock(TODAY),
        cost=Cost(memory_kib=64, passes=1, lanes=1),
    )
    with book:
        away = Absence(
            absence_id="n1", athlete_id="a03", on=day(2), reason=AbsenceReason.NATIONAL_TEAM
        )
        rehab = case(athlete_id="a02")
        book.note(*squad(), rehab, stated(rehab, training=Training.FULL), away)
    return tmp_path / "club"


class Opened:
    """The grid over a real casebook, with what a person does to it."""

    def __init__(self, qtbot, folder):
        self.qtbot, self.keys = qtbot, 0
        self.session = Session(
            lambda: open_casebook(folder, passphrase=PASSPHRASE, clock=clock(TODAY))
        )
        qtbot.waitUntil(lambda: self.session.is_open)
        self.view = TeamSessionView(self.session)
        qtbot.addWidget(self.view)
        self.told: list[str] = []
        self.view.told.connect(self.told.append)
        self.session.board_changed.connect(self.refresh)
        self.refresh()
        self.view.show()
        self.until(lambda: len(self.rows) == SIZE)

    def refresh(self):
        self.session.ask(lambda book: squad_board(book, TODAY), self.view.show_board)

    @property
    def rows(self):
        return self.view.table.rows.rows

    def until(self, holds):
        self.qtbot.waitUntil(holds)

    def press(self, *keys):
        """Press keys in the grid, or type the signs of a word there."""
        for key in keys:
            table = self.view.table
            if isinstance(key, str):
                self.qtbot.keyClicks(table, key)
                self.keys += len(key)
            else:
                self.qtbot.keyClick(table, key)
                self.keys += 1

    def type_length(self, minutes):
        self.qtbot.keyClicks(self.view.header.length, minutes)
        self.qtbot.keyClick(self.view.header.length, ENTER)
        self.keys += len(minutes) + 1

    def save(self):
        self.qtbot.keyClick(self.view.table, ENTER, CTRL)
        self.keys += 1

    def saved(self) -> dict[str, Any]:
        found: list[Any] = []
        self.session.ask(lambda book: book.all_of(Exposure), found.append)
        self.until(lambda: bool(found))
        return {fact.value.athlete_id: fact.value for fact in found[0]}

    def drafts(self) -> dict[str, str]:
        found: list[dict[str, str]] = []
        self.session.ask(lambda book: book.drafts(), found.append)
        self.until(lambda: bool(found))
        return found[0]

    def cell(self, row, key):
        columns = [column.key for column in self.view.table.rows.columns]
        return self.view.table.rows.index(row, columns.index(key)).data()

    def close(self):
        self.view.close()
        self.session.finish()


@pytest.fixture
def opened(qtbot, folder):
    opened = Opened(qtbot, folder)
    yield opened
    opened.close()


def exposure(number, minutes, effort, on: date = TODAY, session=1):
    return Exposure(
        athlete_id=f"a{number:02}",
        on=on,
        match=False,
        minutes=minutes,
        effort=effort,
        session=session,
    )


def test_two_keys_an_athlete_save_minutes_and_effort_and_untouched_rows_save_nothing(opened):
    opened.type_length("75")
    opened.press("6", ENTER, "y", ENTER, "n", ENTER, "+", ENTER)
    opened.save()
    assert opened.keys == 3 + 4 * 2 + 1
    opened.until(lambda: not opened.view.has_unsaved)
    assert list(opened.saved().values()) == [
        exposure(1, 75, 6),
        exposure(2, 75, None),
        exposure(3, 0, None),
        exposure(4, 75, 10),
    ]
    assert opened.cell(0, "load") == str(75 * 6)
    assert opened.cell(0, "state").startswith("✓ saved at")
    assert opened.cell(4, "state") == "not entered"


def test_each_row_says_who_is_in_rehab_and_who_is_away(opened):
    assert opened.cell(1, "mark").startswith("in rehab")
    assert opened.cell(2, "mark") == "away: with the national team"
    assert opened.cell(0, "mark") == ""


def test_arrows_and_digits_work_as_in_a_spreadsheet(opened):
    opened.type_length("75")
    opened.press("6", Qt.Key.Key_Left, "60", ENTER, "45", Qt.Key.Key_Backspace, "8")
    assert [(row.minutes, row.effort) for row in opened.rows[:2]] == [("60", "6"), ("48", "")]
    opened.press(Qt.Key.Key_Escape)
    assert opened.rows[1].there is None


def test_a_length_corrected_later_follows_where_minutes_were_the_sessions(opened):
    opened.type_length("75")
    opened.press("6", ENTER, "6", Qt.Key.Key_Left, "50")
    opened.qtbot.keyClick(opened.view.header.length, Qt.Key.Key_Backspace)
    opened.qtbot.keyClicks(opened.view.header.length, "0")
    assert [row.minutes for row in opened.rows[:2]] == ["70", "50"]


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (("6",), "Minutes are missing"),
        (("6", Qt.Key.Key_Left, "301"), "301"),
        (("11", Qt.Key.Key_Left, "60"), "11"),
        (("6", Qt.Key.Key_Left, "0"), "An effort in 0 minutes"),
    ],
)
def test_what_cannot_stand_is_named_in_its_row_and_nothing_is_saved(opened, keys, said):
    opened.press(*keys)
    opened.save()
    assert said in opened.cell(0, "state")
    assert opened.cell(0, "load") == ""
    assert opened.view.has_unsaved
    assert opened.saved() == {}


def test_a_letter_where_digits_belong_changes_nothing_and_is_told(opened):
    opened.press("q")
    assert not opened.view.has_unsaved
    assert "digits" in opened.told[-1]


def test_saved_values_are_shown_and_corrected_and_never_doubled(opened):
    opened.type_length("75")
    opened.press("6", ENTER)
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    opened.press(Qt.Key.Key_Up, "7")
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    assert opened.saved() == {"a01": exposure(1, 75, 7)}
    assert opened.cell(0, "state").startswith("corrected at")


def test_a_second_session_of_the_day_stands_beside_the_first(opened):
    opened.type_length("75")
    opened.press("6", ENTER)
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    opened.view.header.session.setCurrentIndex(1)
    opened.until(lambda: opened.rows[0].saved is None)
    opened.press(Qt.Key.Key_Up, "3", ENTER)
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    found: list[Any] = []
    opened.session.ask(lambda book: book.all_of(Exposure), found.append)
    opened.until(lambda: bool(found))
    assert [(f.value.session, f.value.effort) for f in found[0]] == [(1, 6), (2, 3)]


def test_what_is_typed_goes_with_the_header_when_another_session_was_meant(opened):
    opened.type_length("90")
    opened.press("8", ENTER)
    opened.view.header.kind.choose(True)
    opened.view.header.chosen.emit()
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    assert opened.saved()["a01"].match


def pasted_rows():
    """Sixty lines as a spreadsheet copies them; three of them bad."""
    lines = [f"{n}\tSURNAME{n:02}\t{60 + n % 20}\t{n % 10 + 1}" for n in range(1, SIZE + 1)]
    lines[9] = "10\tSurname10\tabout an hour\t5"
    lines[29] = "30\tSomebody Else\t70\t6"
    lines[49] = "50\tSurname50\t70\t11"
    return "\r\n".join(["No.\tPlayer\tMin\tRPE", *lines]) + "\r\n"


def test_another_session_cannot_be_chosen_while_one_is_being_saved(opened):
    """Its rows would be those typed for the first, and saved a second time."""
    gate = threading.Event()
    opened.type_length("75")
    opened.press("6", ENTER)
    opened.session.ask(lambda _book: gate.wait(20), lambda _answer: None)
    opened.save()
    opened.qtbot.keyClick(opened.view.header.session, Qt.Key.Key_Down)
    assert opened.view.occasion.session == 1
    assert opened.told[-1].startswith("The team session is being saved")
    gate.set()
    opened.until(lambda: opened.told[-1] == "The team session is saved.")
    assert not opened.view.has_unsaved
    assert opened.saved() == {"a01": exposure(1, 75, 6)}
    opened.qtbot.keyClick(opened.view.header.session, Qt.Key.Key_Down)
    assert opened.view.occasion.session == 2


def test_a_paste_of_sixty_rows_with_three_bad_ones_fills_57_and_names_three(opened):
    QApplication.clipboard().setText(pasted_rows())
    opened.qtbot.keyClick(opened.view.table, Qt.Key.Key_V, CTRL)
    assert opened.told[-1].startswith("57 rows are filled in")
    said = opened.view.not_read.words.splitlines()
    assert said[0] == "3 lines were not read:"
    assert [line.split(":")[0] for line in said[1:]] == ["Line 11", "Line 31", "Line 51"]
    assert "about an hour" in said[1]
    assert "Somebody Else | 70 | 6" in said[2]
    assert opened.saved() == {}
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    saved = opened.saved()
    assert len(saved) == 57
    assert saved["a25"] == exposure(25, 65, 6)
    assert not {"a10", "a30", "a50"} & saved.keys()


def test_a_number_pasted_into_a_cell_is_that_cells(opened):
    QApplication.clipboard().setText("7\n")
    opened.qtbot.keyClick(opened.view.table, Qt.Key.Key_V, CTRL)
    assert opened.rows[0].effort == "7"


def test_what_was_typed_and_not_saved_is_there_again_after_a_crash(qtbot, opened, folder):
    opened.type_length("75")
    opened.press("6", ENTER, "n")
    opened.until(lambda: "a02" in opened.drafts().get("team session", ""))
    opened.session.finish()  # the page is never told, as in a crash
    again = Opened(qtbot, folder)
    again.until(lambda: again.view.has_unsaved)
    assert [(row.there, row.minutes, row.effort) for row in again.rows[:3]] == [
        (True, "75", "6"),
        (False, "0", ""),
        (None, "", ""),
    ]
    assert again.saved() == {}
    again.save()
    again.until(lambda: not again.view.has_unsaved)
    assert again.drafts() == {}
    again.close()


def test_a_day_that_turns_while_a_row_is_typed_leaves_the_row_on_its_day(opened):
    opened.type_length("75")
    opened.press("6", ENTER)
    opened.session.ask(lambda book: squad_board(book, day(4)), opened.view.show_board)
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    assert opened.saved() == {"a01": exposure(1, 75, 6)}


NONE_STATED = "Training: none is stated for Kim Surname05."


def asked_about_the_fifth(opened):
    """Type a session of somebody who may not train, press save, and be asked."""
    resting = case(case_id="c5", athlete_id="a05")
    opened.session.write(lambda book: book.note(resting, stated(resting)), "c5")
    opened.type_length("75")
    opened.view.table.go_to(3)
    opened.press("6", ENTER, "5", ENTER)
    opened.until(lambda: opened.rows[4].mark.startswith("in rehab"))
    opened.save()
    assert NONE_STATED in opened.view.state.text()
    assert opened.saved() == {}


def test_who_may_not_train_is_named_before_it_is_saved_that_they_did(opened):
    asked_about_the_fifth(opened)
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    assert set(opened.saved()) == {"a04", "a05"}


def test_a_question_typed_over_is_asked_again(opened):
    asked_about_the_fifth(opened)
    opened.press("4")
    assert NONE_STATED not in opened.view.state.text()
    opened.save()
    assert NONE_STATED in opened.view.state.text()
    assert opened.saved() == {}


def test_keys_held_down_answer_no_question(opened):
    asked_about_the_fifth(opened)
    held = QKeyEvent(QEvent.Type.KeyPress, ENTER, CTRL, "", True)
    QApplication.sendEvent(opened.view.table, held)
    assert opened.saved() == {}


def test_nobody_is_asked_about_who_was_not_there(opened):
    resting = case(case_id="c5", athlete_id="a05")
    opened.session.write(lambda book: book.note(resting, stated(resting)), "c5")
    opened.until(lambda: opened.rows[4].mark.startswith("in rehab"))
    opened.view.table.go_to(4)
    opened.press("n")
    opened.save()
    opened.until(lambda: not opened.view.has_unsaved)
    assert opened.saved() == {"a05": exposure(5, 0, None)}


def test_lines_not_read_are_walked_by_keys_and_stay_until_they_are_put_away(opened):
    lines = [f"{n}\tSurname{n:02}\t{'x' if n < 15 else 60}\t5" for n in range(1, SIZE + 1)]
    QApplication.clipboard().setText("\n".join(["No.\tPlayer\tMin\tRPE", *lines]))
    opened.qtbot.keyClick(opened.view.table, Qt.Key.Key_V, CTRL)
    told, field = opened.view.not_read.words, opened.view.not_read.field
    assert len(told.splitlines()) == 15
    opened.qtbot.keyClick(opened.view.table, Qt.Key.Key_Tab)
    assert opened.view.window().focusWidget() is field
    bar = field.verticalScrollBar()
    assert bar.value() == 0 < bar.maximum()
    for _line in told.splitlines():
        opened.qtbot.keyClick(field, Qt.Key.Key_Down)
    assert bar.value() == bar.maximum()
    opened.save()
    opened.until(lambda: "The team session is saved." in opened.told)
    assert opened.view.not_read.words == told
    opened.qtbot.keyClick(field, Qt.Key.Key_Tab)
    opened.qtbot.keyClick(opened.view.window().focusWidget(), Qt.Key.Key_Space)
    assert opened.view.not_read.isHidden()
