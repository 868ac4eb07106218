"""Every graph of the program: values over the days of a case, always with its numbers as text.

pyqtgraph is imported when the first graph is made, never before the first paint.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from typing import Any

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.colours import colours_of
from teamrehab.language import _
from teamrehab.reports.wording import month_words

_CLOSE = 1_000
"""Points from which on marks would cover each other: a thin line alone is drawn then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a graph.

    ``points`` are (day, value); ``error`` is the measure's error in the unit of the graph,
    drawn as a bar either side; ``hollow`` outlines the points instead of filling them.
    ``colour`` is a place in the colours for data.
    """

    name: str
    points: tuple[tuple[date, float], ...]
    colour: int = 0
    hollow: bool = False
    error: float | None = None


class Panel(QWidget):
    """A graph of lines over days since ``origin``, with what is asked for as a level line."""

    def __init__(self, title: str, unit: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title, self._unit = title, unit
        self._origin = date(2000, 1, 3)
        self._lines: tuple[Line, ...] = ()
        self._needed: float | None = None
        self._until = 0
        self._heading = QLabel(title)
        self._plot = _new_plot(self)
        self._heading.setBuddy(self._plot)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        self._key = text("", Type.SMALL)
        self._key.setWordWrap(True)
        layout.addWidget(self._heading)
        layout.addWidget(self._key)
        layout.addWidget(self._plot)
        self.setMinimumHeight(11 * self.fontMetrics().lineSpacing())
        self._plot.setAccessibleName(title)

    def show_lines(
        self, lines: Sequence[Line], *, origin: date, until: date, needed: float | None = None
    ) -> None:
        """Show ``lines`` from ``origin`` (day 0) to ``until``; ``needed`` is a level line."""
        shown = tuple(lines), origin, needed, max((until - origin).days, 7)
        if shown != self._shown():
            self._lines, self._origin, self._needed, self._until = shown
            self._draw()

    def _shown(self) -> tuple[tuple[Line, ...], date, float | None, int]:
        return self._lines, self._origin, self._needed, self._until

    def numbers(self) -> tuple[tuple[date, tuple[float | None, ...]], ...]:
        """Return the days with a value and the value of each line on that day, oldest first."""
        days = sorted({day for line in self._lines for day, _value in line.points})
        found = [dict(line.points) for line in self._lines]
        return tuple((day, tuple(values.get(day) for values in found)) for day in days)

    def as_text(self) -> str:
        """Return the graph as sentences, for a screen reader."""
        if not self._lines:
            return _("{title}: nothing measured yet.").format(title=self._title)
        parts = [self._line_in_words(line) for line in self._lines]
        return " ".join([f"{self._title}.", *parts, self._needed_in_words()]).strip()

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and self._lines:
            self._draw()

    def _key_words(self) -> list[str]:
        """Return what is drawn how: filled, outlined, the level line, the bars."""
        told = []
        for line in self._lines:
            drawn = _("{name}: outlined") if line.hollow else _("{name}: filled")
            told.append(drawn.format(name=line.name))
        if self._needed is not None:
            told.append(_("dashed: {value:g} needed").format(value=self._needed))
        if any(line.error for line in self._lines):
            told.append(_("bars: error of the test"))
        return told

    def _line_in_words(self, line: Line) -> str:
        values = ", ".join(
            _("day {day}: {value:g}").format(day=(day - self._origin).days, value=value)
            for day, value in line.points
        )
        return f"{line.name}: {values}."

    def _needed_in_words(self) -> str:
        if self._needed is None:
            return ""
        return _("Needed: {value:g} {unit}.").format(value=self._needed, unit=self._unit)

    def _draw(self) -> None:
        plot = self._plot
        plot.clear()
        ink = self.palette().color(QPalette.ColorRole.WindowText)
        plot.setBackground(self.palette().color(QPalette.ColorRole.Base))
        _ink_axes(plot, ink, self._origin)
        if self._needed is not None:
            plot.addItem(_level(self._needed, ink))
        for line in self._lines:
            self._draw_line(line)
        highest = max([v for ln in self._lines for _d, v in ln.points], default=0)
        top = max(highest, self._needed or 0, 1) * 1.18
        plot.setYRange(0, top, padding=0)
        plot.setXRange(-0.5, self._until + 1, padding=0)
        plot.setAccessibleDescription(self.as_text())
        self._key.setText(" · ".join(self._key_words()))
        self._key.setVisible(bool(self._lines))

    def _draw_line(self, line: Line) -> None:
        import pyqtgraph

        colour = _data_colour(self.palette(), line.colour)
        days = [float((day - self._origin).days) for day, _value in line.points]
        values = [value for _day, value in line.points]
        if line.error is not None:
            self._plot.addItem(_error_bars(days, values, line.error, colour))
        base = self.palette().color(QPalette.ColorRole.Base)
        close = len(days) > _CLOSE
        dash = [3, 3] if line.hollow and not close else None
        curve = self._plot.plot(
            days,
            values,
            pen=pyqtgraph.mkPen(colour, width=1 if close else 2, dash=dash),
            symbol=None if close else "o",
            symbolSize=9,
            symbolPen=pyqtgraph.mkPen(colour, width=2),
            symbolBrush=base if line.hollow else colour,
        )
        curve.setDownsampling(auto=True, method="peak")
        curve.setClipToView(True)  # only now: before, the curve knows no view to clip to


def _new_plot(parent: QWidget) -> Any:
    """Return an empty plot whose days run along the bottom and which no wheel can lose."""
    import pyqtgraph

    plot = pyqtgraph.PlotWidget(parent, axisItems={"bottom": _day_axis()})
    plot.setMenuEnabled(False)
    # The library makes a menu all the same: give it an owner, or it outlives the graph.
    plot.getPlotItem().ctrlMenu.setParent(plot, Qt.WindowType.Popup)
    plot.hideButtons()
    plot.setMouseEnabled(x=False, y=False)  # the wheel scrolls the page
    plot.setFrameShape(plot.Shape.NoFrame)
    plot.getAxis("left").setWidth(34)
    plot.getAxis("bottom").setHeight(round(1.7 * plot.fontMetrics().lineSpacing()))
    return plot


_LABEL = 130
"""Pixels that the words of one day need along the bottom, with room between them."""


def _day_axis() -> Any:
    """Return an axis that says the day since onset and the date below it."""
    import pyqtgraph

    class DayAxis(pyqtgraph.AxisItem):  # type: ignore[misc]  # untyped library
        origin = date(2000, 1, 3)

        @override
        def tickStrings(
            self, values: Sequence[float], scale: float, spacing: float
        ) -> list[str]:
            return [_day_in_words(self.origin, value) for value in values]

        @override
        def tickSpacing(
            self, minimum: float, maximum: float, size: float
        ) -> list[tuple[float, float]]:
            weeks = max(ceil((maximum - minimum) / max(size, 1) * _LABEL / 7), 1)
            return [(7.0 * weeks, 0.0)]

    return DayAxis(orientation="bottom")


def _day_in_words(origin: date, value: float) -> str:
    if value != int(value) or value < 0:
        return ""
    day = origin + timedelta(days=int(value))
    return _("day {number}, {date}").format(
        number=int(value), date=f"{day.day} {month_words(day)}"
    )


def _ink_axes(plot: Any, ink: QColor, origin: date) -> None:
    plot.getAxis("bottom").origin = origin
    faint = QColor(ink)
    faint.setAlphaF(0.35)
    for name in ("left", "bottom"):
        plot.getAxis(name).setPen(faint)
        plot.getAxis(name).setTextPen(ink)
        plot.getAxis(name).setStyle(tickLength=4)


def _level(value: float, ink: QColor) -> Any:
    import pyqtgraph

    return pyqtgraph.InfiniteLine(
        pos=value, angle=0, pen=pyqtgraph.mkPen(ink, width=1, dash=[6, 4])
    )


def _data_colour(palette: QPalette, place: int) -> QColor:
    data = colours_of(palette).data
    return QColor(data[place % len(data)])


def _error_bars(days: list[float], values: list[float], error: float, colour: QColor) -> Any:
    """Return the error of the measure as thin bars, as far down as nothing."""
    import numpy as np
    import pyqtgraph

    faint = QColor(colour)
    faint.setAlphaF(0.45)
    y = np.asarray(values)
    return pyqtgraph.ErrorBarItem(
        x=np.asarray(days),
        y=y,
        top=np.full(len(y), error),
        bottom=np.minimum(y, error),
        beam=0.5,
        pen=pyqtgraph.mkPen(faint, width=1.5),
    )
