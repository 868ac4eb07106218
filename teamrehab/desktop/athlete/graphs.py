"""Heel raises, hops and reactive strength over the days of a case, with their numbers."""

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QTableView, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, text
from teamrehab.desktop.athlete.measure_words import LEGS, reactive_strength
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.panel import Line, Panel
from teamrehab.desktop.row_table import Column, RowTableModel
from teamrehab.domain.decision import CriterionResult
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import HeelRaiseTest, HopTest, Knee
from teamrehab.domain.published_errors import HEEL_RAISES
from teamrehab.language import _
from teamrehab.reports.wording import day_words

AnyTest = HeelRaiseTest | HopTest
Measure = Callable[[AnyTest, Side], float | None]

Numbers = tuple[str, date, tuple[float | None, ...]]
"""Name of the test, day, left and right."""


class Graphs(QWidget):
    """The graphs share their days; the injured side is solid, the other outlined.

    They are made a turn after the page that they are the first on, and not while ``hold`` is in
    force: what draws them may still be on its way in, and the page must not wait for it.
    """

    def __init__(self) -> None:
        super().__init__()
        self.raises: Panel | None = None
        self.hops: Panel | None = None
        self.reactive: Panel | None = None
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
        every, hops = history.of(HeelRaiseTest), history.of(HopTest)
        measured = bool(every or hops)
        self.nothing.setVisible(not measured)
        self.as_table.setVisible(measured)
        self._draw = partial(self._draw_panels, history, results, today)
        if self.raises is None:
            self._draw_soon()
        else:
            self._draw_now()
        bent = [test for test in every if test.knee is Knee.BENT]
        self.model.show_rows(
            [
                *_numbers(_("Heel raises"), _straight(every), count_of),
                *_numbers(_("Heel raises, knee bent"), bent, count_of),
                *_numbers(_("Hops"), hops, count_of),
                *_numbers(_("Reactive strength (m/s)"), _timed(hops), _reactive),
            ]
        )

    def _draw_soon(self) -> None:
        if self._draw is not None and not self._held:
            self._soon.start(0)

    def _draw_now(self) -> None:
        if self._draw is not None:
            self._draw()

    def _draw_panels(
        self, history: History, results: Sequence[CriterionResult], today: date
    ) -> None:
        every, hops = history.of(HeelRaiseTest), history.of(HopTest)
        measured, timed = bool(every or hops), bool(_timed(hops))
        if measured:
            self._make_panels(timed=timed)
        since, injured = history.case.on, history.case.side
        for panel, tests, measure, what, seen in (
            (self.raises, _straight(every), count_of, "raises", measured),
            (self.hops, hops, count_of, "hops", measured),
            (self.reactive, _timed(hops), _reactive, "", timed),
        ):
            if panel is not None:
                lines = _lines(tests, injured, measure)
                needed = _needed(results, what)
                panel.show_lines(lines, origin=since, until=today, needed=needed)
                panel.setVisible(seen)

    def _make_panels(self, *, timed: bool) -> None:
        """Make each graph when its first test is shown: the first paint waits for none."""
        if self.raises is None:
            self.raises = Panel(_("Heel raises, knee straight"), _("raises"))
            self.hops = Panel(_("Hops in place"), _("hops"))
            self._column.insertWidget(0, self.hops)
            self._column.insertWidget(0, self.raises)
        if timed and self.reactive is None:
            self.reactive = Panel(_("Reactive strength of hops, height over contact"), "m/s")
            self._column.insertWidget(2, self.reactive)

    def _toggle_numbers(self) -> None:
        shown = self.numbers.isHidden()
        self.numbers.setVisible(shown)
        self.as_table.setText(_("Hide the &numbers") if shown else _("Show as &numbers"))


def _straight(tests: Sequence[HeelRaiseTest]) -> tuple[HeelRaiseTest, ...]:
    return tuple(test for test in tests if test.knee is Knee.STRAIGHT)


def count_of(test: AnyTest, side: Side) -> int | None:
    """Return the repetitions of one side."""
    if isinstance(test, HeelRaiseTest):
        raises = test.of(side)
        return None if raises is None else raises.repetitions
    hops = test.of(side)
    return None if hops is None else hops.hops


def _lines(tests: Sequence[AnyTest], injured: Side, measure: Measure) -> list[Line]:
    """Return a line a side with results; the injured one is filled and shows its error."""
    lines = []
    for side, words in ((Side.LEFT, _("left")), (Side.RIGHT, _("right"))):
        hurt = side is injured
        line = Line(
            name=_("{side}, injured").format(side=words) if hurt else words,
            points=_points(tests, side, measure),
            colour=1 if hurt else 0,
            hollow=not hurt,
            error=_error(tests) if hurt else None,
        )
        if line.points:
            lines.append(line)
    return lines


def _error(tests: Sequence[AnyTest]) -> float | None:
    """Return the published error of the measure; none is known for hops in place."""
    raises = any(isinstance(test, HeelRaiseTest) for test in tests)
    return HEEL_RAISES.value if raises else None


def _points(
    tests: Sequence[AnyTest], side: Side, measure: Measure
) -> tuple[tuple[date, float], ...]:
    found = ((test.on, measure(test, side)) for test in tests)
    return tuple((day, float(value)) for day, value in found if value is not None)


def _reactive(test: AnyTest, side: Side) -> float | None:
    return reactive_strength(test, side) if isinstance(test, HopTest) else None


def _timed(hops: Sequence[AnyTest]) -> list[AnyTest]:
    """Return the hop tests with contact and flight times of a leg."""
    return [test for test in hops if any(_reactive(test, side) is not None for side in LEGS)]


def _needed(results: Sequence[CriterionResult], what: str) -> float | None:
    """Return the number that the next stage asks for, where it asks for one."""
    named = (r.needed for r in results if r.criterion.check == f"{what}_at_least")
    return next(named, None)


def _numbers(name: str, tests: Sequence[AnyTest], measure: Measure) -> list[Numbers]:
    return [
        (name, test.on, (measure(test, Side.LEFT), measure(test, Side.RIGHT)))
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
