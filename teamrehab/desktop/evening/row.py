"""A row of the evening on screen: takes the keys, shows what they did, grows in place."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QGuiApplication,
    QInputMethodEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPaintEvent,
)
from PySide6.QtWidgets import QFrame, QVBoxLayout
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.desk import Desk
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.desktop.evening.entry import Entry, after_save, press_entry, refused
from teamrehab.desktop.evening.line_widgets import OpenedLines, paint_ground
from teamrehab.desktop.evening.pressing import BACKSPACE, DOWN, ENTER, ESCAPE, LEFT, RIGHT, UP
from teamrehab.desktop.evening.row_head import RowHead
from teamrehab.desktop.evening.row_tests import RowTests
from teamrehab.desktop.evening.row_values import ID_NAMES, values
from teamrehab.desktop.evening.row_words import opened
from teamrehab.desktop.evening.spoken import spoken
from teamrehab.desktop.evening.typed import Cell, Draft, Tonight
from teamrehab.tasks.cases import new_id

_KEYS = {
    Qt.Key.Key_Return: ENTER,
    Qt.Key.Key_Enter: ENTER,
    Qt.Key.Key_Backspace: BACKSPACE,
    Qt.Key.Key_Escape: ESCAPE,
    Qt.Key.Key_Left: LEFT,
    Qt.Key.Key_Right: RIGHT,
    Qt.Key.Key_Up: UP,
    Qt.Key.Key_Down: DOWN,
}
_STEPS = {UP: -1, DOWN: 1}
_OTHERS = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier


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
        self.tests: RowTests | None = None
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
        self.refresh()

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
        session_kept = self.entry.kept is not None or bool(tonight.line.noted)
        kept_at = "" if session_kept else self.entry.kept_at
        self.entry = replace(
            self.entry, tonight=tonight, saved_at=saved_at, kept=None, kept_at=kept_at
        )
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
        typed, tonight = self.entry.typed, self.entry.tonight
        if self.entry.replaces and self.entry.noted is not None:
            self.ids["session"] = self.entry.noted.value.session_id
        tests = () if self.tests is None else self._tests_values(self.tests)
        return values(typed, tonight, self.id_of, tests)

    def saving(self) -> None:
        """Show that what is typed is on its way."""
        self.entry = replace(self.entry, saving=True)
        self.refresh()

    def was_kept(self, hour: str) -> None:
        """Show that what was typed is on the disk since ``hour``."""
        self.entry = after_save(self.entry, hour)
        self.ids, self.twice = {}, False
        self._close_tests()
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
        if not self.entry.is_typed or self.entry.saving:
            return None
        plain = replace(self.entry.typed, said="", asked="", ready=False)
        return Draft(typed=plain, ids=dict(self.ids), replaces=self.entry.replaces)

    def retype(self, draft: Draft) -> None:
        """Type again what was kept of this row."""
        self.ids = dict(draft.ids)
        adding = self.entry.is_entered and not draft.typed.is_session
        self.entry = replace(
            self.entry, typed=draft.typed, replaces=draft.replaces, adding=adding
        )
        if draft.typed.tests or draft.typed.cell is Cell.TESTS:
            self._open_tests()
        self.refresh()

    def press(self, key: str) -> None:
        """Do what a key does: a name of ``pressing.NAMED`` or the sign typed."""
        before, self.is_refused = self.entry.typed.cell, False
        self.entry = press_entry(self.entry, key)
        typed = self.entry.typed
        if typed.is_empty:
            self.ids, self.twice = {}, False
        else:
            self._give_ids()
        if typed.cell is Cell.TESTS and before is not Cell.TESTS:
            self._open_tests()
        if before is Cell.TESTS and typed.cell is not Cell.TESTS:
            self.setFocus(Qt.FocusReason.OtherFocusReason)
        if typed.is_empty and typed.cell is not Cell.TESTS:
            self._close_tests()
        self.refresh()
        self.edited.emit()
        if typed.ready:
            self.save_asked.emit(self)

    def refresh(self) -> None:
        """Show the row as it is."""
        entry = self.entry
        self.setAttribute(Qt.WidgetAttribute.WA_InputMethodEnabled, self._takes_words())
        if self.tests is not None:
            self.tests.painkiller = entry.typed.painkiller
            self.tests.setVisible(self.is_active and entry.typed.cell is Cell.TESTS)
        self.head.show_entry(entry, active=self.is_active)
        self.said.setText(entry.typed.said)
        self.said.setVisible(bool(entry.typed.said))
        lines = opened(entry.shown, entry.tonight) if self.is_active else ()
        self.opened.show_lines(lines)
        self.setAccessibleName(spoken(entry))
        self.setAccessibleDescription(entry.typed.said)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste) and self._takes_words():
            self._type_words(QGuiApplication.clipboard().text())
            return
        named = _KEYS.get(Qt.Key(event.key()))
        if named == ENTER and event.isAutoRepeat():
            return  # a key held down answers no question
        key = named or event.text()
        if event.modifiers() & _OTHERS or not key or not (named or key.isprintable()):
            super().keyPressEvent(event)
        elif key in _STEPS and self.entry.typed.cell not in (Cell.EXERCISES, Cell.TESTS):
            self.stepped.emit(_STEPS[key])
        elif key in _STEPS and self.entry.typed.cell is Cell.TESTS:
            self.focusNextPrevChild(key == DOWN)
        else:
            self.press(key)

    @override
    def inputMethodEvent(self, event: QInputMethodEvent) -> None:
        """Take letters that are put together from several keys."""
        self._type_words(event.commitString())
        event.accept()

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit(self)
        if self.tests is not None and self.entry.typed.cell is Cell.TESTS:
            self.tests.go_to_first()

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        super().mousePressEvent(event)

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        paint_ground(self, active=self.is_active)
        super().paintEvent(event)

    def _give_ids(self) -> None:
        """Make the ids with the first key, so that a draft holds those its facts will have."""
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

    def _tests_values(self, tests: RowTests) -> tuple[Any, ...]:
        tests.painkiller = self.entry.typed.painkiller
        try:
            return tests.values()
        except TypedError as trouble:
            tests.show_trouble(trouble.found)
            raise

    def _open_tests(self) -> None:
        if self.tests is None:
            desk = self._desk(self.entry.tonight)
            if desk is None:
                return
            self.tests = RowTests(desk, self.id_of)
            self.tests.retype(self.entry.typed.tests)
            self.tests.edited.connect(self._tests_edited)
            self.column.addWidget(self.tests)
        self.tests.setVisible(self.is_active)
        if self.is_active:
            self.tests.go_to_first()

    def _close_tests(self) -> None:
        if self.tests is not None:
            self.column.removeWidget(self.tests)
            self.tests.hide()
            self.tests.deleteLater()
            self.tests = None

    def _tests_edited(self) -> None:
        if self.tests is not None:
            typed = replace(self.entry.typed, tests=self.tests.texts, said="")
            self.entry = replace(self.entry, typed=typed)
            self._give_ids()
            self.refresh()
            self.edited.emit()
