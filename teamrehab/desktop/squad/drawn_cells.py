"""Cells that are drawn: availability by fill, and the likely return as a bar over the weeks."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QLinearGradient, QPainter, QPen
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.colours import colours_of
from teamrehab.desktop.marks import Fill, disc_box, draw_disc
from teamrehab.desktop.row_table import ROW_ROLE, Index
from teamrehab.domain.days import Fixture
from teamrehab.reports.findings import LikelyReturn, SquadRow

CELL_MARGIN = 11
"""Where the words of the other cells begin, so that drawn cells line up with them."""

_LINE = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class DiscCell(QStyledItemDelegate):
    """A disc before the word: how full it is says the same as the word."""

    def __init__(
        self, fills: Mapping[Any, Fill], answer: str, in_short: Callable[[Any], str]
    ) -> None:
        super().__init__()
        self._fills, self._answer, self._in_short = fills, answer, in_short
        self.short = False

    def words(self, row: SquadRow, index: Index) -> str:
        """Return the word that is drawn."""
        return self._in_short(getattr(row, self._answer)) if self.short else str(index.data())

    @override
    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        super().initStyleOption(option, index)
        option.text = ""

    @override
    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        super().paint(painter, option, index)
        row: SquadRow | None = index.data(ROW_ROLE)
        if row is None:
            return
        size = option.fontMetrics.ascent()
        area = QRectF(option.rect).adjusted(CELL_MARGIN, 0, -Space.TIGHT, 0)
        ink = option.palette.text().color()
        draw_disc(painter, disc_box(area, size), self._fills[getattr(row, self._answer)], ink)
        area.setLeft(area.left() + size + Space.NEAR)
        painter.setPen(ink)
        painter.drawText(area, _LINE, self.words(row, index))


class LikelyCell(QStyledItemDelegate):
    """The likely return as a bar from today to after the next three matches.

    The bar is the range that holds 8 in 10, fading at both ends, with a tick at the median;
    matches are thin lines through the row. Its words stand in the column beside it.
    """

    def __init__(self) -> None:
        super().__init__()
        self._today = date(2000, 1, 3)
        self._matches: tuple[date, ...] = ()

    def show_weeks(self, today: date, fixtures: Sequence[Fixture]) -> None:
        """Draw from now on from ``today`` over these matches."""
        self._today, self._matches = today, tuple(f.on for f in fixtures)

    @property
    def last_day(self) -> date:
        """Return the last day that fits: a week after the third match, at least four weeks."""
        ahead = [day + timedelta(days=7) for day in self._matches]
        return max([*ahead, self._today + timedelta(days=28)])

    @override
    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        super().initStyleOption(option, index)
        option.text = ""

    @override
    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        super().paint(painter, option, index)
        row: SquadRow | None = index.data(ROW_ROLE)
        if row is None or row.likely is None or row.likely.earliest is None:
            return
        colours = colours_of(option.palette)
        lane = QRectF(option.rect).adjusted(CELL_MARGIN, 6, -CELL_MARGIN, -6)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._draw_bar(painter, lane, row.likely, QColor(colours.accent))
        painter.setPen(QPen(QColor(colours.muted), 1, Qt.PenStyle.DotLine))
        for match in self._matches:
            x = round(self._x(match, lane))
            painter.drawLine(x, option.rect.top(), x, option.rect.bottom())
        painter.restore()

    def _draw_bar(
        self, painter: QPainter, lane: QRectF, likely: LikelyReturn, colour: QColor
    ) -> None:
        first = self._x(likely.earliest or self._today, lane)
        last = self._x(likely.latest or self.last_day, lane)
        bar = QRectF(first, lane.center().y() - 4, max(last - first, 6.0), 8)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(_fading(bar, colour))
        painter.drawRoundedRect(bar, 4, 4)
        if likely.median is not None:
            x = self._x(likely.median, lane)
            painter.fillRect(QRectF(x - 1.5, lane.top(), 3, lane.height()), colour)

    def _x(self, day: date, lane: QRectF) -> float:
        """Return where a day lies; what lies later than the last day stands at the edge."""
        share = (day - self._today).days / max((self.last_day - self._today).days, 1)
        return lane.left() + min(max(share, 0.0), 1.0) * lane.width()


def _fading(bar: QRectF, colour: QColor) -> QLinearGradient:
    faint, strong = QColor(colour), QColor(colour)
    faint.setAlphaF(0.18)
    strong.setAlphaF(0.62)
    gradient = QLinearGradient(bar.left(), 0, bar.right(), 0)
    gradient.setColorAt(0.0, faint)
    gradient.setColorAt(0.3, strong)
    gradient.setColorAt(0.6, strong)
    gradient.setColorAt(1.0, faint)
    return gradient
