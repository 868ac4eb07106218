"""Decisions and events of an athlete's cases, newest first; a wrong one is taken back here."""

from collections.abc import Iterator
from datetime import date
from typing import Any, NamedTuple, get_args

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.athlete.case_line import case_words
from teamrehab.desktop.athlete.event_words import (
    Decided,
    Told,
    closed_flag_words,
    event_kind,
    event_words,
)
from teamrehab.desktop.athlete.fact_table import FactTable
from teamrehab.desktop.athlete.portrait import Portrait
from teamrehab.desktop.buttons import plain_button, quiet_button
from teamrehab.desktop.row_table import Column, RowTableModel
from teamrehab.domain.history import Erased, History, Standing, Unreadable
from teamrehab.domain.injuries import RedFlag
from teamrehab.language import _
from teamrehab.reports.wording import day_and_year, day_words


class Event(NamedTuple):
    """One row: the fact, its case, the day, and what is read in the cells."""

    fact: Standing[Any]
    told: Told
    on: date
    day: str
    kind: str
    words: str
    by: str

    @property
    def history(self) -> History:
        """Return the case it belongs to."""
        return self.told.history

    @property
    def fact_id(self) -> str:
        """Return the id of the fact."""
        return self.fact.fact_id

    @property
    def can_go(self) -> bool:
        """Return whether it can be taken back: a red flag is only ever closed by a doctor."""
        return not isinstance(self.fact.value, RedFlag | Erased | Unreadable)

    @property
    def sentence(self) -> str:
        """Return the event in one line."""
        return _("{kind}, {day}: {words}").format(
            kind=self.kind, day=self.day, words=self.words
        )


class Events(QWidget):
    """Behind a button, because it is long; ``withdrawing`` carries the event chosen."""

    withdrawing = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.model: RowTableModel[Any] = RowTableModel(_columns(), _key, self)
        self.table = FactTable(self.model, _("Decisions and events, newest first"), wide=3)
        self.toggle = quiet_button("", self._toggle)
        self.withdraw = plain_button(_("Entered in error... (Del)"), self._withdraw)
        self._open = False
        self.table.deleting.connect(self._withdraw)
        self.table.selectionModel().currentChanged.connect(self._follow)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.toggle, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.table)
        column.addWidget(self.withdraw, 0, Qt.AlignmentFlag.AlignLeft)
        self._show_parts()

    def show_portrait(self, portrait: Portrait) -> None:
        """Show the events of the case on the page and of the one closed last."""
        shown = portrait.history
        cases = [h for h in (shown, *portrait.earlier[:1]) if h is not None]
        rows = [event for history in cases for event in events_of(history, portrait)]
        rows.sort(key=lambda event: (event.on, event.fact.stamp), reverse=True)
        self.model.show_rows(rows)
        self.table.setColumnHidden(1, len(cases) < 2)
        self.setVisible(bool(rows))
        self.table.fit(len(rows))
        self._show_parts()

    def _toggle(self) -> None:
        self._open = not self._open
        self._show_parts()

    def _show_parts(self) -> None:
        words = _("Hide decisions and e&vents")
        if not self._open:
            number = self.model.rowCount()
            words = _("Show decisions and e&vents ({number})").format(number=number)
        self.toggle.setText(words)
        self.table.setVisible(self._open)
        self.withdraw.setVisible(self._open)

    def _follow(self, index: QModelIndex, _before: QModelIndex) -> None:
        self.withdraw.setEnabled(index.isValid() and self.model.row_at(index).can_go)

    def _withdraw(self) -> None:
        index = self.table.currentIndex()
        if index.isValid() and (event := self.model.row_at(index)).can_go:
            self.withdrawing.emit(event)


def events_of(history: History, portrait: Portrait) -> Iterator[Event]:
    """Yield the decisions and events of one case."""
    told = Told(
        history=history,
        catalogue=portrait.catalogue,
        protocols=portrait.protocols,
        fixtures=portrait.squad.fixtures,
    )
    for fact in history.facts:
        value = fact.value
        if isinstance(value, get_args(Decided)):
            by = portrait.names.get(fact.author, "")
            words = event_words(value, told)
            closed_on = value.closed_on if isinstance(value, RedFlag) else None
            raised_by = by if closed_on is None else ""
            day = _day(value.on, portrait)
            yield Event(fact, told, value.on, day, event_kind(value), words, raised_by)
            if closed_on is not None:
                day, seen = _day(closed_on, portrait), closed_flag_words(value)
                yield Event(fact, told, closed_on, day, _("Red flag closed"), seen, by)


def _day(on: date, portrait: Portrait) -> str:
    """Return a day, with its year unless that is this year."""
    return day_words(on) if on.year == portrait.squad.day.year else day_and_year(on)


def _key(event: Event) -> str:
    return f"{event.fact.fact_id} {event.kind}"


def _columns() -> tuple[Column[Event], ...]:
    return (
        Column(
            key="day",
            title=lambda: _("Day"),
            text=lambda event: event.day,
            sort=lambda event: event.on.toordinal(),
        ),
        Column(
            key="case",
            title=lambda: _("Closed case"),
            text=_closed_case,
            spoken=lambda event: case_words(event.history, event.told.catalogue),
        ),
        Column(key="kind", title=lambda: _("What"), text=lambda event: event.kind),
        Column(
            key="words",
            title=lambda: _("Decided"),
            text=lambda event: event.words,
            tip=lambda event: event.words,
        ),
        Column(key="by", title=lambda: _("Noted by"), text=_noted_by, tip=_noted_by),
    )


def _closed_case(event: Event) -> str:
    """Return the name of a closed case; the open one stands above the list already."""
    if event.history.closed is None:
        return ""
    return case_words(event.history, event.told.catalogue)


def _noted_by(event: Event) -> str:
    if event.fact.versions > 1:
        return _("{name}, two versions").format(name=event.by)
    return _("{name}, corrected").format(name=event.by) if event.fact.corrected else event.by
