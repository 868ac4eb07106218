"""The squad table: sorted, searched, filtered, as narrow or wide as there is room."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QHeaderView, QTableView
from typing_extensions import override

from teamrehab.desktop.appearance import ROW_HEIGHT, Space
from teamrehab.desktop.marks import MATCH_FILL, TRAINING_FILL
from teamrehab.desktop.row_table import RowTableModel, SortedRows
from teamrehab.desktop.squad.columns import (
    BY_NEED,
    CLINICAL,
    short_match,
    short_training,
    squad_columns,
)
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
    "likely": 16,
    "bar": 17,
    "missing": 34,
    "last": 12,
}
"""Width of each column in characters of its font."""

_SHORT = {"training": 9, "match": 12, "problem": 14}
"""Width where there is little room: answers in a short word, a problem begun."""


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
        self._flagged: frozenset[str] = frozenset()
        self.rows = RowTableModel(
            squad_columns(self._is_flagged), lambda row: row.athlete_id, self
        )
        self.shown = SortedRows(self.rows, self)
        self.shown.setDynamicSortFilter(False)
        self.covered = self._short = False
        self.open = ""
        self._following = QTimer(self, singleShot=True, interval=_SETTLED_MS)
        self._following.timeout.connect(self._follow)
        self.setModel(self.shown)
        self._delegates = {
            "training": DiscCell(TRAINING_FILL, "training", short_training),
            "match": DiscCell(MATCH_FILL, "match", short_match),
        }
        self._likely = LikelyCell()
        self._dress()
        self.clicked.connect(self._open)
        self.activated.connect(self._open)

    def show_squad(self, squad: Squad, rows: Sequence[SquadRow]) -> None:
        """Show these rows; where the same athletes come again no row moves.

        A red flag raised or closed since does move its row.
        """
        self._catch_up()
        self._likely.show_weeks(squad.day, squad.coming(3))
        chosen = self.chosen()
        flagged = frozenset(h.case.athlete_id for h in squad.open_cases if h.open_red_flags)
        same = [r.athlete_id for r in rows] == [r.athlete_id for r in self.rows.rows]
        same = same and flagged == self._flagged
        self._flagged = flagged
        self.fit_columns()
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
        always = [c.key for c in self.rows.columns if c.key not in BY_NEED]
        wanted = [
            key
            for key in sorted(BY_NEED, key=self._need)
            if not (self.covered and key in CLINICAL)
        ]
        first = self._width(wanted[0])
        self._be_short(sum(map(self._width, always)) + first > self.viewport().width())
        room = self.viewport().width() - sum(map(self._width, always))
        keys = set(always)
        for key in wanted:
            if self._width(key) <= room:
                keys.add(key)
                room -= self._width(key)
        for number, column in enumerate(self.rows.columns):
            self.setColumnHidden(number, column.key not in keys)
            self.setColumnWidth(number, self._width(column.key))

    def _be_short(self, short: bool) -> None:  # noqa: FBT001  its only question
        """Say answers in a short word, or in full; names and returns need the room more."""
        self._short = short
        for delegate in self._delegates.values():
            delegate.short = short

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

    def _need(self, key: str) -> tuple[bool, int]:
        """Return how far behind a column waits for room; nothing before a red flag."""
        return not (self._flagged and key == "problem"), BY_NEED.index(key)

    def _is_flagged(self, row: SquadRow) -> bool:
        return row.athlete_id in self._flagged

    def _width(self, key: str) -> int:
        characters = _CHARACTERS | _SHORT if self._short else _CHARACTERS
        return characters[key] * self.fontMetrics().averageCharWidth() + Space.APART

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
        self._be_short(True)  # noqa: FBT003  its only question
        least = sum(map(self._width, ("number", "name", "training", "match", "likely")))
        self.setMinimumWidth(least + self.verticalScrollBar().sizeHint().width() + Space.NEAR)
