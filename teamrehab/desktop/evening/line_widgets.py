"""The parts of a row on screen: cells, words that are cut where they end, opened lines."""

from collections.abc import Sequence

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, as_type, text
from teamrehab.desktop.evening.row_words import Told

_PLACEHOLDER = "·"
"""Stands where nothing is typed."""


class CellLabel(QWidget):
    """A cell of a row; a frame shows that the next key is for it."""

    def __init__(self, letters: int) -> None:
        super().__init__()
        self._words, self._expected, self._now, self._open = "", "", False, False
        self.setFont(_sized(self.font(), 12.0))
        metrics = self.fontMetrics()
        self.setFixedSize(
            metrics.averageCharWidth() * letters + 2 * Space.NEAR,
            metrics.height() + 2 * Space.HAIR,
        )

    @property
    def words(self) -> str:
        """Return what is typed, as it is shown."""
        return self._words

    def show_cell(self, words: str, expected: str, *, now: bool, in_use: bool) -> None:
        """Show what is typed, else in grey what would be saved; ``now``: the cursor is here."""
        shown = (words, expected, now, in_use)
        if shown != (self._words, self._expected, self._now, self._open):
            self._words, self._expected, self._now, self._open = shown
            self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter, palette = QPainter(self), self.palette()
        box = self.rect().adjusted(0, 0, -1, -1)
        if self._open:
            painter.fillRect(box, palette.color(QPalette.ColorRole.Base))
        if self._now:
            painter.setPen(palette.color(QPalette.ColorRole.Accent))
            painter.drawRect(box)
            painter.drawRect(box.adjusted(1, 1, -1, -1))
        elif self._open:
            painter.setPen(palette.color(QPalette.ColorRole.Mid))
            painter.drawRect(box)
        grey = QPalette.ColorRole.PlaceholderText
        painter.setPen(palette.color(QPalette.ColorRole.WindowText if self._words else grey))
        words = self._words or self._expected or _PLACEHOLDER
        inside = box.adjusted(Space.NEAR, 0, -Space.TIGHT, 0)
        cut = self.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, inside.width())
        painter.drawText(inside, int(Qt.AlignmentFlag.AlignVCenter), cut)
        painter.end()


class CutLabel(QLabel):
    """Words on one line that end in dots where there is no more room; whole in the tip."""

    def __init__(self, words: str, role: Type) -> None:
        super().__init__(words)
        as_type(self, role)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(0, self.fontMetrics().height())

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        box = self.rect().adjusted(max(self.indent(), 0), 0, 0, 0)
        wide = box.width()
        words = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, wide)
        self.setToolTip(self.text() if words != self.text() else "")
        painter.drawText(box, int(Qt.AlignmentFlag.AlignVCenter), words)
        painter.end()


class OpenedLines(QWidget):
    """The lines under a row; the one the next key is for is bold."""

    def __init__(self) -> None:
        super().__init__()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(Space.HAIR)
        self.labels: list[QLabel] = []

    def show_lines(self, lines: Sequence[Told]) -> None:
        """Show these lines, none hides all."""
        while len(self.labels) < len(lines):
            label = text("")
            label.setWordWrap(True)
            self.labels.append(label)
            self._column.addWidget(label)
        for number, label in enumerate(self.labels):
            label.setVisible(number < len(lines))
            if number < len(lines):
                _tell(label, lines[number])
        self.setVisible(bool(lines))


def paint_ground(widget: QWidget, *, active: bool) -> None:
    """Paint what lies under a row: a tint and a bar where the keys go, a hairline below."""
    painter, palette, box = QPainter(widget), widget.palette(), widget.rect()
    if active:
        painter.fillRect(box, palette.color(QPalette.ColorRole.Highlight))
        bar = QRect(0, 0, Space.TIGHT, box.height())
        painter.fillRect(bar, palette.color(QPalette.ColorRole.Accent))
    hair = QRect(0, box.height() - 1, box.width(), 1)
    painter.fillRect(hair, palette.color(QPalette.ColorRole.Mid))
    painter.end()


def _tell(label: QLabel, told: Told) -> None:
    role = Type.COMPLAINT if told.alarm else Type.BODY
    if label.property("type") != role.value:
        as_type(label, role)
    label.ensurePolished()
    font = label.font()
    font.setWeight(QFont.Weight.DemiBold if told.now or told.alarm else QFont.Weight.Normal)
    label.setFont(font)
    label.setText(told.words)


def _sized(font: QFont, points: float) -> QFont:
    sized = QFont(font)
    sized.setPointSizeF(points)
    return sized
