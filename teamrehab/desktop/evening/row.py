"""A row of the evening on screen: takes the keys, shows what they did, grows in place."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QGuiApplication,
    QInputMethodEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QFrame, QVBoxLayout
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.desk import Desk
from teamrehab.desktop.evening.cell_moves import stays
from teamrehab.desktop.evening.entry import (
    Entry,
    after_save,
    draft_of,
    press_entry,
    refused,
    shown_anew,
    typed_from,
)
from teamrehab.desktop.evening.line_widgets import OpenedLines, paint_ground
from teamrehab.desktop.evening.pressing import DOWN, LEFT, RIGHT
from teamrehab.desktop.evening.row_head import RowHead
from teamrehab.desktop.evening.row_keys import STEPS, answers_nothing, key_of
from teamrehab.desktop.evening.row_tests import RowTests
from teamrehab.desktop.evening.row_values import ID_NAMES, values
from teamrehab.desktop.evening.row_words import opened
from teamrehab.desktop.evening.spoken import spoken
from teamrehab.desktop.evening.tests_in_row import TestsInRow
from teamrehab.desktop.evening.typed import Cell, Draft, Tonight
from teamrehab.tasks.cases import new_id


class EveningRow(QFrame):
    """One line with its entry. ``desk`` makes the desk on which its tests are judged.

    ``twice``: a second session of the evening is meant, if it is saved as it is typed.

    ``entered`` follows the focus, ``stepped`` asks for another row, ``edited`` follows every
    key taken, ``save_asked`` an Enter that saves.
    """

    entered = Signal(object)
    stepped = Signal(int)
    edited = Signal()
    save_asked = Signal(object)

    def __init__(
        self, tonight: Tonight, desk: Callable[[Tonight], Desk | None], saved_at: str = ""
    ) -> None:
        super().__init__()
        self.entry = Entry(tonight=tonight, saved_at=saved_at)
        self.ids: dict[str, str] = {}
        self.is_active, self.is_refused, self.twice = False, False, False
        self._desk = desk
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.head, self.said = RowHead(), text("", Type.COMPLAINT)
        self.said.setWordWrap(True)
        self.opened = OpenedLines()
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(Space.APART, Space.TIGHT, Space.APART, Space.TIGHT)
        self.column.setSpacing(Space.HAIR)
        for part in (self.head, self.said, self.opened):
            self.column.addWidget(part)
        self._cells = TestsInRow(self.column)
        self.refresh()

    @property
    def tests(self) -> RowTests | None:
        """Return the test cells, None while they are closed."""
        return self._cells.tests

    @property
    def athlete_id(self) -> str:
        """Return of whom it is."""
        return self.entry.tonight.line.athlete_id

    @property
    def case_id(self) -> str:
        """Return whose row it is."""
        return self.entry.tonight.line.case_id

    @property
    def where(self) -> tuple[date, str]:
        """Return the evening and the case it is of."""
        return self.entry.tonight.on, self.case_id

    def id_of(self, name: str) -> str:
        """Return the id of one thing of this row, the same until the row is saved."""
        return self.ids.setdefault(name, new_id())

    def show_line(self, tonight: Tonight, saved_at: str) -> None:
        """Show the line as it stands now, after every save; what is typed stays."""
        self.entry = shown_anew(self.entry, tonight, saved_at)
        self.refresh()

    def set_active(self, active: bool) -> None:  # noqa: FBT001  as Qt's own
        """Show whether keys come here."""
        if active != self.is_active:
            self.is_active = active
            if not active and not self.is_refused:
                self._clear_said()
            self.refresh()
            self.update()

    def values(self) -> tuple[Any, ...]:
        """Return what is typed as values to note together.

        Raises:
            TypedError: a test cannot be read.
        """
        entry = self.entry
        tests = self._cells.values(painkiller=entry.typed.painkiller)
        corrected = None if entry.corrected is None else entry.corrected.value
        return values(entry.typed, entry.asked, self.id_of, tests, corrected)

    def saving(self) -> None:
        """Show that what is typed is on its way."""
        self.entry = replace(self.entry, saving=True)
        self.refresh()

    def was_kept(self, hour: str) -> None:
        """Show that what was typed is on the disk since ``hour``."""
        self.entry = after_save(self.entry, hour)
        self.ids, self.twice = {}, False
        self._cells.close()
        self.refresh()

    def was_refused(self, sentence: str) -> None:
        """Show why nothing was saved; all that was typed is still there."""
        self.is_refused = True
        self.entry = refused(self.entry, sentence)
        self.refresh()

    def say(self, sentence: str) -> None:
        """Answer a key with a sentence."""
        typed = replace(self.entry.typed, said=sentence, ready=False)
        self.entry = replace(self.entry, typed=typed)
        self.refresh()

    @property
    def draft(self) -> Draft | None:
        """Return what is typed and not saved, None where nothing is."""
        return draft_of(self.entry, self.ids)

    def retype(self, draft: Draft) -> None:
        """Type again what was kept of this row."""
        self.ids = dict(draft.ids)
        self.entry = typed_from(self.entry, draft)
        if draft.typed.tests or draft.typed.cell is Cell.TESTS:
            self._open_tests()
        self.refresh()

    def press(self, key: str) -> None:
        """Do what a key does: a name of ``pressing.NAMED`` or the sign typed."""
        before, session, self.is_refused = self.entry.typed.cell, self.entry.session, False
        self.entry = press_entry(replace(self.entry, tests=self._cells.readable), key)
        typed = self.entry.typed
        if typed.is_empty:
            self.ids, self.twice = {}, False
        else:
            self._give_ids(session)
        if typed.cell is Cell.TESTS and before is not Cell.TESTS:
            self._open_tests()
        if before is Cell.TESTS and typed.cell is not Cell.TESTS:
            self.setFocus(Qt.FocusReason.OtherFocusReason)
        if typed.is_empty and typed.cell is not Cell.TESTS:
            self._cells.close()
        self.refresh()
        self.edited.emit()
        if typed.ready:
            self.save_asked.emit(self)

    def refresh(self) -> None:
        """Show the row as it is."""
        entry = self.entry
        self.setAttribute(Qt.WidgetAttribute.WA_InputMethodEnabled, self._takes_words())
        seen = self.is_active and entry.typed.cell is Cell.TESTS
        self._cells.show(painkiller=entry.typed.painkiller, seen=seen)
        self.head.show_entry(entry, active=self.is_active)
        self.said.setText(entry.typed.said)
        self.said.setVisible(bool(entry.typed.said))
        beneath = entry.typed if entry.adding else entry.shown
        cut = self.head.cuts_plan(entry)
        lines = opened(beneath, entry.asked, cut=cut) if self.is_active else ()
        self.opened.show_lines(lines)
        self.setAccessibleName(spoken(entry))
        self.setAccessibleDescription(entry.typed.said)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste) and self._takes_words():
            self._type_words(QGuiApplication.clipboard().text())
            return
        if answers_nothing(event):
            return
        if not (key := key_of(event)):
            super().keyPressEvent(event)
        elif key in STEPS and self.entry.typed.cell not in (Cell.EXERCISES, Cell.TESTS):
            self.stepped.emit(STEPS[key])
        elif key in STEPS and self.entry.typed.cell is Cell.TESTS:
            self.focusNextPrevChild(key == DOWN)
        else:
            self.press(key)

    @override
    def focusNextPrevChild(self, next: bool) -> bool:
        """Take Tab cell by cell through a row that is typed, then to another row."""
        within = self.hasFocus() and stays(self.entry.typed, 1 if next else -1)
        if within:
            self.press(RIGHT if next else LEFT)
        return within or super().focusNextPrevChild(next)

    @override
    def inputMethodEvent(self, event: QInputMethodEvent) -> None:
        """Take letters that are put together from several keys."""
        self._type_words(event.commitString())
        event.accept()

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit(self)
        if self.entry.typed.cell is Cell.TESTS:
            self._cells.go_to_first()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show the plan where there is room for it now."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.refresh()

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        super().mousePressEvent(event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        paint_ground(self, active=self.is_active)
        super().paintEvent(event)

    def _give_ids(self, session: str) -> None:
        """Make the ids with the first key, so that a draft holds those its facts will have.

        ``session`` was being corrected before it; a correction keeps the id of its session.
        """
        if session != self.entry.session:
            self.ids.pop("session", None)
        if self.entry.session:
            self.ids["session"] = self.entry.session
        for name in ID_NAMES:
            self.id_of(name)

    def _takes_words(self) -> bool:
        return self.entry.typed.cell in (Cell.NOTE, Cell.WORDS)

    def _type_words(self, words: str) -> None:
        """Type each sign; lines become one."""
        for sign in " ".join(words.split()) if len(words) > 1 else words:
            self.press(sign)

    def _clear_said(self) -> None:
        """Let an answer to a key go with the cursor."""
        typed = replace(self.entry.typed, said="", asked="", letter_may_follow=False)
        self.entry = replace(self.entry, typed=typed)

    def _open_tests(self) -> None:
        if self.tests is None:
            desk = self._desk(self.entry.tonight)
            if desk is None:
                return
            tests = self._cells.make(desk, self.id_of, self.entry.typed.tests)
            tests.edited.connect(self._tests_edited)
        self._cells.show(painkiller=self.entry.typed.painkiller, seen=self.is_active)
        if self.is_active:
            self._cells.go_to_first()

    def _tests_edited(self) -> None:
        if self.tests is not None:
            typed = replace(self.entry.typed, tests=self.tests.texts, said="", safety=())
            self.entry = replace(self.entry, typed=typed)
            self._give_ids(self.entry.session)
            self.refresh()
            self.edited.emit()
