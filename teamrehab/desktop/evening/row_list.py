"""The rows of an evening below each other, one of them with the keys."""

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QScrollArea, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Type, prose
from teamrehab.desktop.athlete.desk import Desk
from teamrehab.desktop.evening.row import EveningRow
from teamrehab.desktop.evening.typed import Tonight
from teamrehab.language import _

_SEEN_AROUND = 60
"""Pixels of its neighbours that are seen above and below the active row."""


class RowList(QScrollArea):
    """``chosen`` follows the focus, ``edited`` every key taken, ``save_asked`` an Enter."""

    chosen = Signal(object)
    edited = Signal()
    save_asked = Signal(object)

    def __init__(self, desk: Callable[[Tonight], Desk | None]) -> None:
        super().__init__()
        self._desk = desk
        self.rows: list[EveningRow] = []
        self.active: EveningRow | None = None
        self.nobody = prose(_("Nobody is in rehab: there is nothing to enter."), Type.LEAD)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        inside = QWidget()
        self._column = QVBoxLayout(inside)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self.verticalScrollBar().rangeChanged.connect(self._leave_room)
        self._leave_room(0, 0)
        self._column.addWidget(self.nobody)
        self._column.addStretch(1)
        self.setWidget(inside)

    def show_lines(self, lines: Sequence[tuple[Tonight, str]]) -> list[EveningRow]:
        """Show these lines, each with the hour it was saved; return the rows that are new.

        Known rows keep their place, and those with something typed stay.
        """
        told = {tonight.line.case_id: (tonight, saved_at) for tonight, saved_at in lines}
        for row in list(self.rows):
            if row.case_id in told:
                row.show_line(*told.pop(row.case_id))
            elif not row.entry.is_typed:
                self._remove(row)
        new = [EveningRow(tonight, self._desk, hour) for tonight, hour in told.values()]
        for row in new:
            self._add(row)
        self.nobody.setVisible(not self.rows)
        return new

    def clear(self) -> None:
        """Show no row."""
        for row in list(self.rows):
            self._remove(row)

    def row_at(self, where: tuple[date, str]) -> EveningRow | None:
        """Return the row of an evening and a case, None where it is not shown."""
        return next((row for row in self.rows if row.where == where), None)

    def begin(self) -> None:
        """Put the cursor into the first row that is not entered, else into the first."""
        unfinished = [row for row in self.rows if _is_unfinished(row)]
        for row in (unfinished or self.rows)[:1]:
            self.go_to(row)

    def go_to(self, row: EveningRow) -> None:
        """Give a row the keys."""
        self._activate(row)
        row.setFocus(Qt.FocusReason.OtherFocusReason)

    def go_on(self, row: EveningRow) -> bool:
        """Go to the next row that is not entered, round to the first; False: there is none."""
        place = self.rows.index(row)
        following = [*self.rows[place + 1 :], *self.rows[:place]]
        for other in following:
            if _is_unfinished(other):
                self.go_to(other)
                return True
        return False

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Scroll by pages; arrows with Alt are for the page."""
        if event.modifiers() & Qt.KeyboardModifier.AltModifier:
            event.ignore()
        else:
            super().keyPressEvent(event)

    @property
    def bar_width(self) -> int:
        """Return how wide the bar is that stands beside the rows when they are many."""
        return self.verticalScrollBar().sizeHint().width()

    def _leave_room(self, _least: int, most: int) -> None:
        """Keep the cells where they are when the bar comes and goes."""
        self._column.setContentsMargins(0, 0, 0 if most else self.bar_width, 0)

    def _step(self, step: int) -> None:
        if self.active is None:
            return
        place = self.rows.index(self.active) + step
        if 0 <= place < len(self.rows):
            self.go_to(self.rows[place])

    def _add(self, row: EveningRow) -> None:
        row.installEventFilter(self)
        row.entered.connect(self._activate)
        row.stepped.connect(self._step)
        row.edited.connect(self._edited)
        row.save_asked.connect(self.save_asked)
        self.rows.append(row)
        self._column.insertWidget(self._column.count() - 1, row)
        row.show()  # at once, so that it can have the keys

    def _remove(self, row: EveningRow) -> None:
        self.rows.remove(row)
        if self.active is row:
            self.active = None
        self._column.removeWidget(row)
        row.hide()
        row.deleteLater()

    def _activate(self, row: EveningRow) -> None:
        if row is not self.active:
            before, self.active = self.active, row
            if before is not None:
                before.set_active(active=False)
            row.set_active(active=True)
            self.chosen.emit(row)
        self._bring_to_sight()

    def _edited(self) -> None:
        self.edited.emit()
        self._bring_to_sight()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep a row in sight that grows: what asks something must be seen to ask."""
        if event.type() == QEvent.Type.Resize and watched is self.active:
            self._bring_to_sight()
        return super().eventFilter(watched, event)

    def _bring_to_sight(self) -> None:
        """Scroll once the row has its new height."""
        QTimer.singleShot(0, self, self._scroll)

    def _scroll(self) -> None:
        """Show the row in use with what lies around it; of one too high its name stays."""
        row = self.active
        if row is None:
            return
        room = self.viewport().height() - row.height()
        self.ensureWidgetVisible(row, 0, max(min(_SEEN_AROUND, room // 2), 0))
        if room < 0:
            self.verticalScrollBar().setValue(row.y())
            typed_in = QApplication.focusWidget()
            if typed_in is not None and row.isAncestorOf(typed_in):
                self.ensureWidgetVisible(typed_in, 0, _SEEN_AROUND // 2)


def _is_unfinished(row: EveningRow) -> bool:
    return not row.entry.saving and (row.entry.is_typed or not row.entry.is_entered)
