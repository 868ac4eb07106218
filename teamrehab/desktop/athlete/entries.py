"""What was tested and done, newest first; each entry can be corrected or taken back."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QHeaderView, QTableView, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import ROW_HEIGHT, Space, Type, text
from teamrehab.desktop.athlete.entry_words import Entry, kind_words, result_words
from teamrehab.desktop.buttons import plain_button
from teamrehab.desktop.row_table import Column, RowTableModel
from teamrehab.domain.history import Standing
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    RunTest,
    SessionEntry,
)
from teamrehab.language import _
from teamrehab.reports.wording import day_words

SHOWN = (HeelRaiseTest, HopTest, FunctionCheck, RunTest, SessionEntry)

Row = tuple[Standing[Entry], str]
"""A fact and the name of who noted it."""


class Entries(QWidget):
    """``correcting`` and ``withdrawing`` carry the standing fact of the row chosen."""

    correcting = Signal(object)
    withdrawing = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.table = QTableView()
        self.model: RowTableModel[Row] = RowTableModel(_columns(), lambda r: r[0].fact_id, self)
        self.correct = plain_button(_("&Correct... (Enter)"), self._correct)
        self.withdraw = plain_button(_("Entered in error... (Del)"), self._withdraw)
        self.nothing = text(_("No entry yet."), Type.SMALL)
        self._dress()
        line = QHBoxLayout()
        line.addWidget(self.correct)
        line.addWidget(self.withdraw)
        line.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.nothing)
        column.addWidget(self.table)
        column.addLayout(line)

    def show_entries(self, facts: Sequence[Standing[Any]], names: Mapping[str, str]) -> None:
        """Show tests and sessions among ``facts``; ``names`` are those of staff ids."""
        entries = [fact for fact in facts if isinstance(fact.value, SHOWN)]
        newest_first = sorted(entries, key=lambda fact: fact.value.on, reverse=True)
        self.model.show_rows([(fact, names.get(fact.author, "")) for fact in newest_first])
        for widget in (self.table, self.correct, self.withdraw):
            widget.setVisible(bool(entries))
        self.nothing.setVisible(not entries)
        self.table.setMinimumHeight(self._height_for(min(len(entries), 8)))
        if entries and not self.table.currentIndex().isValid():
            self.table.setCurrentIndex(self.model.index(0, 0))

    def _height_for(self, rows: int) -> int:
        header = self.table.horizontalHeader().sizeHint().height()
        return header + rows * self.table.verticalHeader().defaultSectionSize() + Space.TIGHT

    def _dress(self) -> None:
        table = self.table
        table.setModel(self.model)
        table.setAccessibleName(_("Tests and sessions, newest first"))
        table.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QTableView.SelectionMode.SingleSelection)
        table.setEditTriggers(QTableView.EditTrigger.NoEditTriggers)
        table.setShowGrid(False)
        table.setTabKeyNavigation(False)
        table.verticalHeader().hide()
        height = round(ROW_HEIGHT * self.fontMetrics().height())
        table.verticalHeader().setDefaultSectionSize(height)
        header = table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(3, QHeaderView.ResizeMode.Fixed)
        table.setColumnWidth(3, 14 * self.fontMetrics().averageCharWidth())
        table.activated.connect(self._activated)
        delete = QShortcut(QKeySequence(QKeySequence.StandardKey.Delete), table)
        delete.setContext(Qt.ShortcutContext.WidgetShortcut)
        delete.activated.connect(self._withdraw)

    def _chosen(self) -> Standing[Any] | None:
        index = self.table.currentIndex()
        return self.model.row_at(index)[0] if index.isValid() else None

    def _activated(self, _index: QModelIndex) -> None:
        self._correct()

    def _correct(self) -> None:
        if (fact := self._chosen()) is not None:
            self.correcting.emit(fact)

    def _withdraw(self) -> None:
        if (fact := self._chosen()) is not None:
            self.withdrawing.emit(fact)


def entry_sentence(fact: Standing[Any]) -> str:
    """Return an entry in one line: "Heel raises, Tue 24 Nov: 22 left, 28 right"."""
    return _("{kind}, {day}: {result}").format(
        kind=kind_words(fact.value),
        day=day_words(fact.value.on),
        result=result_words(fact.value),
    )


def _day_order(day: date) -> int:
    return day.toordinal()


def _columns() -> tuple[Column[Row], ...]:
    return (
        Column(
            key="day",
            title=lambda: _("Day"),
            text=lambda row: day_words(row[0].value.on),
            sort=lambda row: _day_order(row[0].value.on),
        ),
        Column(key="kind", title=lambda: _("What"), text=lambda row: kind_words(row[0].value)),
        Column(
            key="result", title=lambda: _("Result"), text=lambda row: result_words(row[0].value)
        ),
        Column(key="by", title=lambda: _("Noted by"), text=_noted_by),
    )


def _noted_by(row: Row) -> str:
    fact, name = row
    if fact.versions > 1:
        return _("{name}, two versions").format(name=name)
    return _("{name}, corrected").format(name=name) if fact.corrected else name
