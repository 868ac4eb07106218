"""The stages as a flight of steps: what is opened is filled, the current one is said."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.colours import colours_of
from teamrehab.language import _

_RISE = 7
"""How much higher each step stands, in pixels."""

_THICK = 10


class StagePath(QWidget):
    """Steps that rise from the first stage to the last; ``stage`` counts from 1."""

    def __init__(self) -> None:
        super().__init__()
        self._names: tuple[str, ...] = ()
        self._stage = 0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)

    def show_stages(self, names: tuple[str, ...], stage: int) -> None:
        """Show these stages with ``stage`` as the one opened last."""
        self._names, self._stage = names, stage
        self.setAccessibleName(self.as_text())
        self.updateGeometry()
        self.update()

    def as_text(self) -> str:
        """Return the path as one sentence."""
        if not self._names:
            return ""
        opened = _("Stage {n} of {m}, {name}, is open.").format(
            n=self._stage, m=len(self._names), name=self._names[self._stage - 1]
        )
        ahead = self._names[self._stage :]
        if not ahead:
            return opened
        return _("{opened} Still ahead: {names}.").format(opened=opened, names=", ".join(ahead))

    @override
    def sizeHint(self) -> QSize:
        line = self.fontMetrics().lineSpacing()
        steps = _RISE * max(len(self._names) - 1, 0)
        return QSize(
            110 * max(len(self._names), 1), 2 * line + steps + _THICK + 3 * Space.TIGHT
        )

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for number, name in enumerate(self._names, start=1):
            self._draw_step(painter, number, name)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours_of(self.palette()).accent), 1))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    def _draw_step(self, painter: QPainter, number: int, name: str) -> None:
        colours = colours_of(self.palette())
        step = self._step(number)
        opened, here = number <= self._stage, number == self._stage
        accent = QColor(colours.accent)
        painter.setPen(QPen(accent if opened else QColor(colours.muted), 1.2))
        painter.setBrush(accent if opened else Qt.BrushStyle.NoBrush)
        painter.drawRect(step)
        line = self.fontMetrics().lineSpacing()
        font = self.font()
        font.setWeight(QFont.Weight.DemiBold if here else QFont.Weight.Normal)
        painter.setFont(font)
        painter.setPen(QColor(colours.ink if opened else colours.muted))
        below = QRectF(step.left(), step.bottom() + Space.TIGHT, step.width(), line)
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft, self._fitting(painter, name, below))
        if here:
            above = QRectF(step.left(), step.top() - line, step.width(), line)
            painter.drawText(above, Qt.AlignmentFlag.AlignLeft, _("open now"))

    def _step(self, number: int) -> QRectF:
        """Return the plank of a step: from left to right, each a little higher."""
        count = len(self._names)
        wide = self.width() / count
        top = self.fontMetrics().lineSpacing() + _RISE * (count - number)
        return QRectF((number - 1) * wide + 1, top, wide - Space.TIGHT, _THICK)

    def _fitting(self, painter: QPainter, name: str, box: QRectF) -> str:
        metrics = painter.fontMetrics()
        return metrics.elidedText(name, Qt.TextElideMode.ElideRight, int(box.width()))
