"""What was tested, done and noted, newest first; each can be corrected or taken back."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Any, NamedTuple

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.entry_words import Entry, kind_words, result_words
from teamrehab.desktop.athlete.fact_table import FactTable
from teamrehab.desktop.buttons import plain_button
from teamrehab.desktop.row_table import Column, RowTableModel
from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.history import Standing
from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    JumpTest,
    KneeToWallTest,
    LoadedRaiseTest,
    MorningResponse,
    RunTest,
    SafetyCheck,
    SessionEntry,
    SessionMissed,
)
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.language import _
from teamrehab.reports.wording import day_words
from teamrehab.reports.wording_evening import late_words

SHOWN = (
    HeelRaiseTest,
    HopTest,
    FunctionCheck,
    RunTest,
    JumpTest,
    KneeToWallTest,
    LoadedRaiseTest,
    SessionEntry,
    SessionMissed,
    MorningResponse,
    SafetyCheck,
    SignsAsked,
    Examination,
    EarlierInjury,
    Remark,
)
ONLY_WITHDRAWN = (SessionMissed, MorningResponse, SafetyCheck, SignsAsked, EarlierInjury)
"""Entries that are taken back and noted anew: no form of this page rewrites them."""


class Row(NamedTuple):
    """A fact, the name of who noted it, and the athlete's weight for what is worked out.

    ``zone`` is the club's: by its day a session may be entered late.
    """

    fact: Standing[Entry]
    by: str
    weight_g: int | None
    zone: str

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
        self.table.selectionModel().currentChanged.connect(self._follow)
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
        zone: str = "UTC",
    ) -> None:
        """Show tests, sessions and notes among ``facts``; ``names`` are those of staff ids."""
        entries = [fact for fact in facts if isinstance(fact.value, SHOWN)]
        newest_first = sorted(entries, key=_when, reverse=True)
        chosen = self._chosen()
        self.model.show_rows(
            [Row(fact, names.get(fact.author, ""), weight_g, zone) for fact in newest_first]
        )
        for widget in (self.table, self.correct, self.withdraw):
            widget.setVisible(bool(entries))
        self.nothing.setVisible(not entries)
        self._choose_again(chosen, newest_first)
        self.table.fit(len(entries))

    def _choose_again(
        self, chosen: Standing[Any] | None, shown: Sequence[Standing[Any]]
    ) -> None:
        """Stay at the entry that was chosen, also where it has just been corrected."""
        thing = thing_of(chosen.value) if chosen is not None else ""
        places = (n for n, f in enumerate(shown) if thing and thing_of(f.value) == thing)
        place = next(places, None)
        if place is not None:
            self.table.setCurrentIndex(self.model.index(place, 0))

    def _chosen(self) -> Standing[Any] | None:
        index = self.table.currentIndex()
        return self.model.row_at(index).fact if index.isValid() else None

    def _activated(self, _index: QModelIndex) -> None:
        self._correct()

    def _follow(self, _index: QModelIndex, _before: QModelIndex) -> None:
        chosen = self._chosen()
        self.correct.setEnabled(chosen is None or _rewritten(chosen))

    def _correct(self) -> None:
        if (fact := self._chosen()) is not None and _rewritten(fact):
            self.correcting.emit(fact)

    def _withdraw(self) -> None:
        if (fact := self._chosen()) is not None:
            self.withdrawing.emit(fact)


def _rewritten(fact: Standing[Any]) -> bool:
    """Return whether a form rewrites the entry."""
    return not isinstance(fact.value, ONLY_WITHDRAWN)


def entry_sentence(fact: Standing[Any]) -> str:
    """Return an entry in one line: "Heel raises, Tue 24 Nov: 22 left, 28 right"."""
    return _("{kind}, {day}: {result}").format(
        kind=kind_words(fact.value),
        day=day_words(fact.value.on),
        result=result_words(fact.value),
    )


def _when(fact: Standing[Any]) -> tuple[date, datetime, str]:
    """Return when it was, and within a day when it was noted."""
    return fact.value.on, fact.noted_at, fact.stamp


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
        Column(
            key="by",
            title=lambda: _("Noted by"),
            text=lambda row: row.by,
            tip=lambda row: row.by,
        ),
        Column(key="changed", title=lambda: _("Changed"), text=_changed),
    )


def _changed(row: Row) -> str:
    """Return whether what is read is not as it was first noted, or an evening noted late."""
    if row.fact.versions > 1:
        return _("two versions")
    if row.fact.corrected:
        return _("corrected")
    evening = isinstance(row.fact.value, SessionEntry | SessionMissed)
    return late_words(row.fact, row.zone) if evening else ""


def thing_of(value: Any) -> str:
    """Return the id that a test, a session or a note keeps when it is corrected."""
    names = ("test_id", "session_id", "remark_id", "examination_id")
    return next((getattr(value, name) for name in names if hasattr(value, name)), "")
