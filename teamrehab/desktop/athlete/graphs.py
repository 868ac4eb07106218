"""What was measured of each leg over the days of a case, as graphs with their numbers."""

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QTableView, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, text
from teamrehab.desktop.athlete.graph_measures import (
    AnyTest,
    Drawn,
    Measure,
    drawn_measures,
)
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.panel import Line, Panel
from teamrehab.desktop.row_table import Column, RowTableModel
from teamrehab.domain.decision import CriterionResult
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import Knee
from teamrehab.language import _
from teamrehab.reports.wording import day_words

Numbers = tuple[str, date, tuple[float | None, ...]]
"""Name of the test, day, left and right."""


class Graphs(QWidget):
    """The graphs share their days; the injured side is solid, the other outlined.

    They are made a turn after the page that they are the first on, and not while ``hold`` is in
    force: what draws them may still be on its way in, and the page must not wait for it.
    """

    def __init__(self) -> None:
        super().__init__()
        self.panels: dict[str, Panel] = {}
        self._held = False
        self._draw: Callable[[], None] | None = None
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._draw_now)
        self.nothing = text(_("Nothing measured yet: the graphs begin with the first test."))
        self.nothing.setWordWrap(True)
        self.numbers = QTableView()
        self.model: RowTableModel[Numbers] = RowTableModel(_columns(), _key, self)
        self.numbers.setModel(self.model)
        self.numbers.setAccessibleName(_("Numbers of the graphs"))
        self.numbers.verticalHeader().hide()
        self.numbers.setShowGrid(False)
        self.numbers.setTabKeyNavigation(False)
        self.numbers.hide()
        self.as_table = quiet_button(_("Show as &numbers"), self._toggle_numbers)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(Space.NEAR)
        for part in (self.nothing, self.as_table, self.numbers):
            self._column.addWidget(part)

    def hold(self) -> None:
        """Draw no graph until ``release``."""
        self._held = True

    def release(self) -> None:
        """Draw the graphs of the case shown, and of every later one at once."""
        self._held = False
        self._draw_soon()

    def show_case(
        self, history: History, results: Sequence[CriterionResult], today: date
    ) -> None:
        """Show the tests of a case; ``results`` say what is asked and how sure a test is."""
        found = [(drawn, drawn.tests(history)) for drawn in drawn_measures()]
        measured = any(tests for _measure, tests in found)
        self.nothing.setVisible(not measured)
        self.as_table.setVisible(measured)
        self._draw = partial(self._draw_panels, history, results, today)
        if not self.panels:
            self._draw_soon()
        else:
            self._draw_now()
        self.model.show_rows([row for drawn, tests in found for row in _numbers(drawn, tests)])

    def _draw_soon(self) -> None:
        if self._draw is not None and not self._held:
            self._soon.start(0)

    def _draw_now(self) -> None:
        if self._draw is not None:
            self._draw()

    def _draw_panels(
        self, history: History, results: Sequence[CriterionResult], today: date
    ) -> None:
        """Make each graph when its first test is shown: the first paint waits for none."""
        since, injured = history.case.on, history.case.side
        found = {drawn.key: drawn.tests(history) for drawn in drawn_measures()}
        measured = any(found[drawn.key] for drawn in drawn_measures() if drawn.always)
        for drawn in drawn_measures():
            tests = found[drawn.key]
            seen = drawn.panel and (bool(tests) or (measured and drawn.always))
            if seen and drawn.key not in self.panels:
                self._make_panel(drawn)
            if (panel := self.panels.get(drawn.key)) is not None:
                lines = _lines(tests, injured, drawn)
                needed = _needed(results, drawn.key, injured)
                panel.show_lines(lines, origin=since, until=today, needed=needed)
                panel.setVisible(seen)

    def _make_panel(self, drawn: Drawn) -> None:
        order = [one.key for one in drawn_measures()]
        before = order[: order.index(drawn.key)]
        panel = self.panels[drawn.key] = Panel(drawn.title, drawn.unit)
        self._column.insertWidget(sum(key in self.panels for key in before), panel)

    def _toggle_numbers(self) -> None:
        shown = self.numbers.isHidden()
        self.numbers.setVisible(shown)
        self.as_table.setText(_("Hide the &numbers") if shown else _("Show as &numbers"))


def _lines(tests: Sequence[AnyTest], injured: Side, drawn: Drawn) -> list[Line]:
    """Return a line a side with results; the injured one is filled and shows its error."""
    lines = []
    for side, words in ((Side.LEFT, _("left")), (Side.RIGHT, _("right"))):
        hurt = side is injured
        line = Line(
            name=_("{side}, injured").format(side=words) if hurt else words,
            points=_points(tests, side, drawn.measure),
            colour=1 if hurt else 0,
            hollow=not hurt,
            error=drawn.error if hurt else None,
        )
        if line.points:
            lines.append(line)
    return lines


def _points(
    tests: Sequence[AnyTest], side: Side, measure: Measure
) -> tuple[tuple[date, float], ...]:
    found = ((test.on, measure(test, side)) for test in tests)
    return tuple((day, float(value)) for day, value in found if value is not None)


def _needed(results: Sequence[CriterionResult], what: str, injured: Side) -> float | None:
    """Return the number that the next stage asks of the injured leg, where it asks for one.

    It is one for all, or the target that this leg has of its own.
    """
    asked = [r for r in results if r.criterion.parameters.get("knee") != Knee.BENT]
    named = [r.needed for r in asked if r.criterion.check == f"{what}_at_least"]
    own = (r for r in asked if r.criterion.check == f"{what}_to_target")
    named += [value for result in own for value in _targets(result, injured)]
    return next((number for number in named if number is not None), None)


def _targets(result: CriterionResult, injured: Side) -> list[float | None]:
    """Return the targets of the legs, that of the injured one first: they are no test."""
    targets = [one for one in result.evidence if not one.test_id]
    return [one.value for one in sorted(targets, key=lambda one: one.side is not injured)]


def _numbers(drawn: Drawn, tests: Sequence[AnyTest]) -> list[Numbers]:
    return [
        (drawn.name, test.on, (drawn.measure(test, Side.LEFT), drawn.measure(test, Side.RIGHT)))
        for test in reversed(tests)
    ]


def _key(row: Numbers) -> str:
    return f"{row[0]} {row[1]} {row[2]}"


def _columns() -> tuple[Column[Numbers], ...]:
    return (
        Column(key="test", title=lambda: _("Test"), text=lambda row: row[0]),
        Column(key="day", title=lambda: _("Day"), text=lambda row: day_words(row[1])),
        _side_column("left", lambda: _("Left"), 0),
        _side_column("right", lambda: _("Right"), 1),
    )


def _side_column(key: str, title: Any, place: int) -> Column[Numbers]:
    def told(row: Numbers) -> str:
        value = row[2][place]
        return "" if value is None else f"{value:g}"

    return Column(key=key, title=title, text=told, number=True)
