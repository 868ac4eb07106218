"""How the lists of facts on the athlete page look and answer to keys."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHeaderView, QTableView

from teamrehab.desktop.appearance import ROW_HEIGHT, Space
from teamrehab.desktop.row_table import RowTableModel

_ROWS = 8
"""Rows that are seen without scrolling."""


class FactTable(QTableView):
    """A quiet list, one fact a row; ``deleting`` follows the Delete key."""

    deleting = Signal()

    def __init__(self, model: RowTableModel[object], name: str, *, wide: int) -> None:
        super().__init__()
        self.setModel(model)
        self.setAccessibleName(name)
        self.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QTableView.SelectionMode.SingleSelection)
        self.setEditTriggers(QTableView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        height = round(ROW_HEIGHT * self.fontMetrics().height())
        self.verticalHeader().setDefaultSectionSize(height)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(wide, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(wide + 1, QHeaderView.ResizeMode.Fixed)
        self.setColumnWidth(wide + 1, 14 * self.fontMetrics().averageCharWidth())
        delete = QShortcut(QKeySequence(QKeySequence.StandardKey.Delete), self)
        delete.setContext(Qt.ShortcutContext.WidgetShortcut)
        delete.activated.connect(self.deleting)

    def fit(self, rows: int) -> None:
        """Be as high as so many rows, up to eight, and have one of them chosen."""
        header = self.horizontalHeader().sizeHint().height()
        shown = min(rows, _ROWS) * self.verticalHeader().defaultSectionSize()
        self.setFixedHeight(header + shown + Space.TIGHT)
        if rows and not self.currentIndex().isValid():
            self.setCurrentIndex(self.model().index(0, 0))
