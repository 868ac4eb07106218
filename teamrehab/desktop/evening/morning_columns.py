"""The columns of the morning, in its headings and in every line."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QApplication, QHBoxLayout, QLabel

from teamrehab.desktop.appearance import Space

WIDTHS = (5, 28, 12, 20, 28, 16, 12, 0)
"""Width of each column in characters; the last takes what is left."""


def columns_in_line(labels: list[QLabel]) -> QHBoxLayout:
    """Return labels side by side, as wide as the columns of the morning are."""
    line = QHBoxLayout()
    line.setSpacing(Space.NEAR)
    letter = QFontMetrics(QApplication.font()).averageCharWidth()
    for label, width in zip(labels, WIDTHS, strict=True):
        if width:
            label.setFixedWidth(width * letter)
        line.addWidget(label, 0 if width else 1)
    labels[0].setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    return line


def name_begins() -> int:
    """Return how many pixels from the left the names of the lines begin."""
    return WIDTHS[0] * QFontMetrics(QApplication.font()).averageCharWidth() + Space.NEAR
