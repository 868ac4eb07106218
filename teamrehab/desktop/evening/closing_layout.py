"""How the closing page is laid out: the list and what belongs to it, the end panel beside."""

from collections.abc import Sequence

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space

_WIDEST = 1180
"""Width in pixels beyond which the lines would be too long to read."""


def line_of(wide: QWidget, beside: QWidget) -> QWidget:
    """Return two widgets in one line; the first takes the room."""
    holder = QWidget()
    line = QHBoxLayout(holder)
    line.setContentsMargins(0, 0, 0, 0)
    line.addWidget(wide, 1)
    line.addWidget(beside)
    return holder


def lay_out(page: QWidget, parts: Sequence[QWidget], panel: QWidget) -> None:
    """Put ``parts`` below each other and ``panel`` beside them, in the middle of the page."""
    left = QVBoxLayout()
    left.setSpacing(Space.NEAR)
    for part in parts:
        left.addWidget(part)
    left.addStretch(1)
    both = QWidget()
    both.setMaximumWidth(_WIDEST + panel.width())
    line = QHBoxLayout(both)
    line.setContentsMargins(0, Space.NEAR, 0, Space.APART)
    line.setSpacing(Space.WIDE)
    line.addLayout(left, 1)
    line.addWidget(panel)
    whole = QHBoxLayout(page)
    whole.setContentsMargins(0, 0, 0, 0)
    whole.addWidget(both)
