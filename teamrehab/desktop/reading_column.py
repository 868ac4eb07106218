"""A column of comfortable width in the middle of a page, for reading and for forms."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space

_LETTERS = 84
"""About as many letters as a line is easily read with."""


def reading_column(page: QWidget) -> QVBoxLayout:
    """Give ``page`` a column that scrolls when the window is low; return the column."""
    inner = QWidget()
    width = page.fontMetrics().averageCharWidth() * _LETTERS
    inner.setMaximumWidth(width)
    column = QVBoxLayout(inner)
    column.setContentsMargins(Space.WIDE, Space.PAGE, Space.WIDE, Space.WIDE)
    column.setSpacing(Space.NEAR)
    middle = QWidget()
    line = QHBoxLayout(middle)
    line.setContentsMargins(0, 0, 0, 0)
    line.addStretch(1)
    line.addWidget(inner, 100)
    line.addStretch(1)
    scroll = QScrollArea()
    scroll.setWidgetResizable(True)
    scroll.setFrameShape(QFrame.Shape.NoFrame)
    scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    scroll.setWidget(middle)
    whole = QVBoxLayout(page)
    whole.setContentsMargins(0, 0, 0, 0)
    whole.addWidget(scroll)
    return column
