"""What was tested, done and noted, newest first; each can be corrected or taken back."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, NamedTuple

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.entry_words import Entry, kind_words, result_words
from teamrehab.desktop.athlete.fact_table import FactTable
from teamrehab.desktop.buttons import plain_button
from teamrehab.desktop.row_table import Column, RowTableModel
from teamrehab.domain.history import Standing
from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    RunTest,
    SessionEntry,
)
from teamrehab.language import _
from teamrehab.reports.wording import day_words

SHOWN = (HeelRaiseTest, HopTest, FunctionCheck, RunTest, SessionEntry, Remark)


class Row(NamedTuple):
    """A fact, the name of who noted it, and the athlete's weight for what is worked out."""

    fact: Standing[Entry]
    by: str
    weight_g: int | None

    @property
    def told(self) -> str:
        """Return the result in words."""
        return result_words(self.fact.value, self.weight_g)


class Entries(QWidget):
    """``correcting`` and ``withdrawing`` carry the standing fact of the row chosen."""

    correcting = Signal(object)
    withdrawing = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.model: RowTableModel[Any] = RowTableModel(
            _columns(), lambda r: r.fact.fact_id, self
        )
        name = _("Tests, sessions and notes, newest first")
        self.table = FactTable(self.model, name, wide=2)
        self.correct = plain_button(_("&Correct... (Enter)"), self._correct)
        self.withdraw = plain_button(_("Entered in error... (Del)"), self._withdraw)
        self.nothing = text(_("No entry yet."), Type.SMALL)
        self.table.activated.connect(self._activated)
        self.table.deleting.connect(self._withdraw)
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

    def show_entries(
        self,
        facts: Sequence[Standing[Any]],
        names: Mapping[str, str],
        weight_g: int | None = None,
    ) -> None:
        """Show tests, sessions and notes among ``facts``; ``names`` are those of staff ids."""
        entries = [fact for fact in facts if isinstance(fact.value, SHOWN)]
        newest_first = sorted(entries, key=lambda fact: fact.value.on, reverse=True)
        self.model.show_rows(
            [Row(fact, names.get(fact.author, ""), weight_g) for fact in newest_first]
        )
        for widget in (self.table, self.correct, self.withdraw):
            widget.setVisible(bool(entries))
        self.nothing.setVisible(not entries)
        self.table.fit(len(entries))

    def _chosen(self) -> Standing[Any] | None:
        index = self.table.currentIndex()
        return self.model.row_at(index).fact if index.isValid() else None

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
            text=lambda row: day_words(row.fact.value.on),
            sort=lambda row: _day_order(row.fact.value.on),
        ),
        Column(
            key="kind", title=lambda: _("What"), text=lambda row: kind_words(row.fact.value)
        ),
        Column(
            key="result",
            title=lambda: _("Result"),
            text=lambda row: row.told,
            tip=lambda row: row.told,
        ),
        Column(key="by", title=lambda: _("Noted by"), text=_noted_by, tip=_noted_by),
    )


def _noted_by(row: Row) -> str:
    fact, name = row.fact, row.by
    if fact.versions > 1:
        return _("{name}, two versions").format(name=name)
    return _("{name}, corrected").format(name=name) if fact.corrected else name
