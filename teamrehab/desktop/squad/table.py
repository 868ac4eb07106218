"""The squad table: sorted, searched, filtered, as narrow or wide as there is room."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QHeaderView, QTableView
from typing_extensions import override

from teamrehab.desktop.appearance import ROW_HEIGHT, Space
from teamrehab.desktop.marks import MATCH_FILL, TRAINING_FILL
from teamrehab.desktop.row_table import RowTableModel, SortedRows
from teamrehab.desktop.squad.columns import BY_NEED, CLINICAL, squad_columns
from teamrehab.desktop.squad.drawn_cells import DiscCell, LikelyCell
from teamrehab.domain.history import Squad
from teamrehab.language import _
from teamrehab.reports.findings import SquadRow

_CHARACTERS = {
    "number": 4,
    "name": 20,
    "training": 12,
    "match": 14,
    "problem": 29,
    "stage": 19,
    "days": 5,
    "likely": 15,
    "bar": 17,
    "missing": 34,
    "last": 12,
}
"""Width of each column in characters of its font."""


_SETTLED_MS = 120
"""How long keys must rest on a row before its page is drawn: running down a list is cheap."""


_MOVING = frozenset(
    {
        Qt.Key.Key_Up,
        Qt.Key.Key_Down,
        Qt.Key.Key_PageUp,
        Qt.Key.Key_PageDown,
        Qt.Key.Key_Home,
        Qt.Key.Key_End,
    }
)


class SquadTable(QTableView):
    """``opened`` carries the athlete of the row that was clicked or entered.

    Once an athlete is open, the current row is: it follows the keys a moment later, and at
    once before another key or the mouse can act on the page.
    """

    opened = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.rows = RowTableModel(squad_columns(), lambda row: row.athlete_id, self)
        self.shown = SortedRows(self.rows, self)
        self.shown.setDynamicSortFilter(False)
        self.covered = False
        self.open = ""
        self._following = QTimer(self, singleShot=True, interval=_SETTLED_MS)
        self._following.timeout.connect(self._follow)
        self.setModel(self.shown)
        self._delegates = {
            "training": DiscCell(TRAINING_FILL, "training"),
            "match": DiscCell(MATCH_FILL, "match"),
        }
        self._likely = LikelyCell()
        self._dress()
        self.clicked.connect(self._open)
        self.activated.connect(self._open)

    def show_squad(self, squad: Squad, rows: Sequence[SquadRow]) -> None:
        """Show these rows; where the same athletes come again no row moves."""
        self._catch_up()
        self._likely.show_weeks(squad.day, squad.coming(3))
        chosen = self.chosen()
        same = [r.athlete_id for r in rows] == [r.athlete_id for r in self.rows.rows]
        self.rows.show_rows(rows)
        if not same:
            header = self.horizontalHeader()
            self.sortByColumn(header.sortIndicatorSection(), header.sortIndicatorOrder())
            self.choose(chosen)
        self.viewport().update()

    def chosen(self) -> str:
        """Return the athlete of the current row, "" without one."""
        index = self.currentIndex()
        return self.shown.row_at(index).athlete_id if index.isValid() else ""

    def choose(self, athlete_id: str) -> None:
        """Make the athlete's row the current one, if it is shown."""
        index = self.shown.index_of(athlete_id)
        if index.isValid():
            self.setCurrentIndex(index)
            self.scrollTo(index)

    def mark_open(self, athlete_id: str) -> None:
        """Have the open athlete's row be the chosen one; none where it is not shown."""
        self.open = athlete_id
        self._following.stop()
        if self.shown.index_of(athlete_id).isValid():
            self.choose(athlete_id)
        elif athlete_id:
            self.setCurrentIndex(QModelIndex())

    def cover(self, covered: bool) -> None:  # noqa: FBT001  a slot of a toggled button
        """Hide or show what somebody behind the desk must not read."""
        self.covered = covered
        self.fit_columns()

    def shown_columns(self) -> tuple[str, ...]:
        """Return the keys of the columns on screen."""
        columns = enumerate(self.rows.columns)
        return tuple(c.key for n, c in columns if not self.isColumnHidden(n))

    def fit_columns(self) -> None:
        """Show the columns that are needed most, as many as there is room for."""
        keys = [c.key for c in self.rows.columns if c.key not in BY_NEED]
        room = self.viewport().width() - sum(self._width(key) for key in keys)
        for key in BY_NEED:
            covered = self.covered and key in CLINICAL
            if not covered and self._width(key) <= room:
                keys.append(key)
                room -= self._width(key)
        for number, column in enumerate(self.rows.columns):
            self.setColumnHidden(number, column.key not in keys)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit_columns()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        before = self.chosen()
        super().keyPressEvent(event)
        if self.open and self.chosen() not in ("", before):
            self._following.start()

    @override
    def event(self, event: QEvent) -> bool:
        """Catch up before a key that acts on the page is taken as a shortcut."""
        if event.type() is QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            self._catch_up_before(event)
        return super().event(event)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        self._catch_up()
        super().focusOutEvent(event)

    def _catch_up_before(self, event: QKeyEvent) -> None:
        if event.key() not in _MOVING:
            self._catch_up()

    def _catch_up(self) -> None:
        if self._following.isActive():
            self._following.stop()
            self._follow()

    def _follow(self) -> None:
        if self.chosen() not in ("", self.open):
            self.opened.emit(self.chosen())

    def _open(self, index: QModelIndex) -> None:
        if index.isValid():
            self.opened.emit(self.shown.row_at(index).athlete_id)

    def _width(self, key: str) -> int:
        return _CHARACTERS[key] * self.fontMetrics().averageCharWidth() + Space.APART

    def _dress(self) -> None:
        self.setAccessibleName(_("Squad"))
        self.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QTableView.SelectionMode.SingleSelection)
        self.setEditTriggers(QTableView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.setSortingEnabled(True)
        self.verticalHeader().hide()
        height = round(ROW_HEIGHT * self.fontMetrics().height())
        self.verticalHeader().setDefaultSectionSize(height)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setStretchLastSection(False)
        for number, column in enumerate(self.rows.columns):
            self.setColumnWidth(number, self._width(column.key))
            if column.key in self._delegates:
                self.setItemDelegateForColumn(number, self._delegates[column.key])
            if column.key == "bar":
                self.setItemDelegateForColumn(number, self._likely)
            if column.key == "name":
                header.setSectionResizeMode(number, QHeaderView.ResizeMode.Stretch)
            if column.key == "training":
                self.sortByColumn(number, Qt.SortOrder.DescendingOrder)
