"""The grid of a team session: typed into as one types into a spreadsheet."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor, QFont, QKeyEvent, QKeySequence, QPainter, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
)
from typing_extensions import override

from teamrehab.desktop.appearance import ROW_HEIGHT, Space
from teamrehab.desktop.colours import colours_of
from teamrehab.desktop.group import typed
from teamrehab.desktop.group.columns import TYPED, WIDTHS, grid_columns
from teamrehab.desktop.group.typed import Cell, GridRow
from teamrehab.desktop.row_table import Index, RowTableModel
from teamrehab.language import _

_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_FIRST_TYPED = 2


class GroupTable(QTableView):
    """``changed`` follows every key that changed a row; ``pasted`` carries a text of lines.

    ``told`` carries why a key meant nothing. ``length`` is what is typed as the session's.
    """

    changed = Signal()
    pasted = Signal(str)
    told = Signal(str)

    def __init__(self, complaint: Callable[[GridRow], str], zone: str) -> None:
        super().__init__()
        self._complaint = complaint
        self.length = ""
        self._typing = False
        columns = grid_columns(complaint, zone)
        self.rows = RowTableModel(columns, lambda row: row.athlete.athlete_id, self)
        self.setModel(self.rows)
        self._ink = _Ink(self)
        self.setItemDelegate(self._ink)
        self._dress()

    def show_rows(self, rows: Sequence[GridRow]) -> None:
        """Show these rows; the cursor stays with its athlete."""
        at = self.currentIndex()
        who = self.rows.row_at(at).athlete.athlete_id if at.isValid() else ""
        self.rows.show_rows(rows)
        again = self.rows.index_of(who) if who else self.rows.index(0, 0)
        if again.isValid() and again.row() != self.currentIndex().row():
            column = at.column() if at.isValid() else self._column(Cell.EFFORT)
            self.setCurrentIndex(self.rows.index(again.row(), column))

    def begin(self) -> None:
        """Put the cursor into the first row that is not entered."""
        rows = enumerate(self.rows.rows)
        open_ = (number for number, row in rows if row.there is None)
        self.go_to(next(open_, 0))

    def go_to(self, row: int) -> None:
        """Put the cursor into a row, where the effort is typed, and the keys here."""
        self.setCurrentIndex(self.rows.index(row, self._column(Cell.EFFORT)))
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def change(self, change: Callable[[GridRow], GridRow]) -> None:
        """Change every row in the same way."""
        self.rows.show_rows([change(row) for row in self.rows.rows])
        self.changed.emit()

    def complaint_of(self, row: GridRow) -> str:
        """Return what is wrong with a row."""
        return self._complaint(row)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Type, rub out, paste or go down; arrows and the rest as in any table."""
        index = self.currentIndex()
        if event.matches(QKeySequence.StandardKey.Paste):
            self._paste(QApplication.clipboard().text())
        elif not index.isValid() or _is_command(event):
            super().keyPressEvent(event)
        elif event.key() in _ENTER:
            self._go_down()
        elif event.key() in (Qt.Key.Key_Backspace, Qt.Key.Key_Delete):
            self._rub_out(all_of_it=event.key() == Qt.Key.Key_Delete or not self._typing)
        elif event.key() == Qt.Key.Key_Escape:
            self._put(typed.as_saved(self.rows.row_at(index)))
        elif event.text().strip():
            self._type(event.text())
        else:
            super().keyPressEvent(event)

    @override
    def currentChanged(self, current: Index, previous: Index) -> None:
        self._typing = False
        super().currentChanged(current, previous)
        self.viewport().update()

    def _type(self, sign: str) -> None:
        row = self.rows.row_at(self.currentIndex())
        cell = self._cell() or Cell.THERE
        after = typed.press(row, cell, sign, self.length, first=not self._typing)
        if after is None:
            self.told.emit(_unknown(cell, sign))
            return
        self._typing = True
        self._put(after)

    def _rub_out(self, *, all_of_it: bool) -> None:
        cell, row = self._cell(), self.rows.row_at(self.currentIndex())
        if cell is not None:
            self._typing = True
            self._put(typed.rubbed_out(row, cell, all_of_it=all_of_it))

    def _put(self, row: GridRow) -> None:
        rows = list(self.rows.rows)
        rows[self.currentIndex().row()] = row
        self.rows.show_rows(rows)
        self.changed.emit()

    def _paste(self, text: str) -> None:
        alone = text.strip()
        if alone.isdecimal() and self._cell() in (Cell.MINUTES, Cell.EFFORT):
            self._typing = False
            for sign in alone:
                self._type(sign)
        elif alone:
            self.pasted.emit(text)

    def _go_down(self) -> None:
        at = self.currentIndex()
        below = self.rows.index(at.row() + 1, at.column())
        if below.isValid():
            self.setCurrentIndex(below)
        else:
            self._typing = False
            self.told.emit(_("The last athlete. Ctrl+Enter saves the session."))

    def _cell(self) -> Cell | None:
        key = self.rows.columns[self.currentIndex().column()].key
        return Cell(key) if key in TYPED else None

    def _column(self, cell: Cell) -> int:
        return _FIRST_TYPED + TYPED.index(cell.value)

    def _dress(self) -> None:
        self.setAccessibleName(_("Attendance, minutes and effort"))
        self.setSelectionMode(QTableView.SelectionMode.SingleSelection)
        self.setEditTriggers(QTableView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        height = round(ROW_HEIGHT * self.fontMetrics().height())
        self.verticalHeader().setDefaultSectionSize(height)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        letter = self.fontMetrics().averageCharWidth()
        for number, column in enumerate(self.rows.columns):
            self.setColumnWidth(number, WIDTHS[column.key] * letter + Space.APART)
        header.setSectionResizeMode(len(WIDTHS) - 1, QHeaderView.ResizeMode.Stretch)


class _Ink(QStyledItemDelegate):
    """Frames the cells that are typed into; greys what nobody typed, and marks a complaint."""

    def __init__(self, table: GroupTable) -> None:
        super().__init__(table)
        self._table = table

    @override
    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        super().paint(painter, option, index)
        if self._key(index) in TYPED:
            painter.setPen(QColor(colours_of(self._table.palette()).line))
            painter.drawLine(option.rect.topLeft(), option.rect.bottomLeft())
            if self._key(index) == TYPED[-1]:
                painter.drawLine(option.rect.topRight(), option.rect.bottomRight())

    @override
    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        super().initStyleOption(option, index)
        key, row = self._key(index), self._table.rows.row_at(index)
        palette = option.palette
        for role in (QPalette.ColorRole.Text, QPalette.ColorRole.HighlightedText):
            palette.setColor(role, QColor(self._colour(key, row)))
        option.palette = palette
        if key == "name" and index.row() == self._table.currentIndex().row():
            option.font.setWeight(QFont.Weight.DemiBold)

    def _key(self, index: Index) -> str:
        return self._table.rows.columns[index.column()].key

    def _colour(self, key: str, row: GridRow) -> str:
        colours = colours_of(self._table.palette())
        if key == "mark" or (key == "state" and not row.touched):
            return colours.muted
        if key == "state" and self._table.complaint_of(row):
            return colours.alarm
        return colours.ink


def _is_command(event: QKeyEvent) -> bool:
    """Return whether a key is meant for the window and not for a cell."""
    held = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
    return bool(event.modifiers() & held)


def _unknown(cell: Cell, sign: str) -> str:
    if cell is Cell.THERE:
        return _("“{sign}” means nothing here: Y there, N not there.").format(sign=sign)
    return _("“{sign}” means nothing here: digits, or Y there, N not there.").format(sign=sign)
