"""Small drawn marks that go with a word: how much is there, never by colour alone."""

from enum import Enum

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.domain.availability import Match, Training
from teamrehab.domain.decision import Verdict


class Fill(Enum):
    """How a disc is filled: wholly, by half, not at all, or not at all and broken."""

    FULL = "full"
    HALF = "half"
    RING = "ring"
    BROKEN = "broken"


TRAINING_FILL = {
    Training.FULL: Fill.FULL,
    Training.WITH_LIMITS: Fill.HALF,
    Training.NONE: Fill.RING,
}
MATCH_FILL = {
    Match.AVAILABLE: Fill.FULL,
    Match.LIMITED: Fill.HALF,
    Match.UNDECIDED: Fill.BROKEN,
    Match.NOT_AVAILABLE: Fill.RING,
}
VERDICT_FILL = {
    Verdict.MET: Fill.FULL,
    Verdict.DUE_AGAIN: Fill.HALF,
    Verdict.NOT_MET: Fill.RING,
    Verdict.NEVER_TESTED: Fill.BROKEN,
}


def draw_disc(painter: QPainter, box: QRectF, fill: Fill, colour: QColor) -> None:
    """Draw a disc into ``box``: the ring always, the filling by ``fill`` from below."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(colour, max(box.width() / 8, 1.4))
    if fill is Fill.BROKEN:
        pen.setDashPattern([1.6, 1.3])
    inner = box.adjusted(1.5, 1.5, -1.5, -1.5)
    painter.setPen(pen)
    painter.setBrush(colour if fill is Fill.FULL else Qt.BrushStyle.NoBrush)
    painter.drawEllipse(inner)
    if fill is Fill.HALF:
        painter.setBrush(colour)
        painter.drawChord(inner, 180 * 16, 180 * 16)
    painter.restore()


def disc_box(area: QRectF, size: float) -> QRectF:
    """Return the square of a disc at the left of ``area``, in the middle of its height."""
    centre = QPointF(area.left() + size / 2, area.center().y())
    return QRectF(centre.x() - size / 2, centre.y() - size / 2, size, size)


class Mark(QWidget):
    """One disc beside a word; it says nothing of its own to a screen reader."""

    def __init__(self, fill: Fill, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._fill = fill

    def show_fill(self, fill: Fill) -> None:
        """Show another filling."""
        self._fill = fill
        self.update()

    @override
    def sizeHint(self) -> QSize:
        side = self.fontMetrics().ascent()
        return QSize(side, self.fontMetrics().height())

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        box = disc_box(QRectF(self.rect()), self.fontMetrics().ascent())
        draw_disc(painter, box, self._fill, self.palette().windowText().color())
        painter.end()
