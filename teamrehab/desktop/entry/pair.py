"""The same number of the left and of the right side, beside each other."""

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.forms import NumberField
from teamrehab.domain.injuries import Side
from teamrehab.language import _


class Pair(QWidget):
    """A left and a right field; ``edited`` follows typing in either.

    ``field`` makes each of them where it is not a whole number in ``unit``.
    """

    edited = Signal()

    def __init__(
        self, unit: str = "", *, field: Callable[[], NumberField] | None = None
    ) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # or no underlined letter leads here
        self.left, self.right = (field() if field else NumberField(unit) for _leg in range(2))
        layout = _columns(self)
        for side in (self.left, self.right):
            side.setMaximumWidth(SIDE_WIDTH)
            side.setMinimumWidth(SIDE_WIDTH)
            side.textEdited.connect(self.edited)
            layout.addWidget(side)
        layout.addStretch(1)
        self.setFocusProxy(self.left)

    def read(self) -> tuple[int | None, int | None]:
        """Return both numbers, None where nothing was typed."""
        return self.left.value, self.right.value

    def fill(self, left: int | None, right: int | None) -> None:
        """Show both numbers."""
        self.left.show_value(left)
        self.right.show_value(right)

    def at_fault(self, complaint: str) -> NumberField:
        """Return the field of the side a complaint names, the left one if it names both."""
        return (
            self.right if _("right") in complaint and _("left") not in complaint else self.left
        )

    def name_sides(self, what: str) -> None:
        """Name both fields for a screen reader."""
        self.left.setAccessibleName(_("{what}, left").format(what=what))
        self.right.setAccessibleName(_("{what}, right").format(what=what))


SIDE_WIDTH = 132
"""Width of a left or right field, so that the words above stand over it."""


def side_heading(injured: Side) -> QWidget:
    """Return the words above the two columns; the injured side is named."""
    heading = QWidget()
    layout = _columns(heading)
    for side, words in ((Side.LEFT, _("Left")), (Side.RIGHT, _("Right"))):
        told = _("{side}, injured").format(side=words) if side is injured else words
        label = text(told, Type.SMALL)
        label.setFixedWidth(SIDE_WIDTH)
        layout.addWidget(label)
    layout.addStretch(1)
    return heading


def _columns(widget: QWidget) -> QHBoxLayout:
    layout = QHBoxLayout(widget)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(Space.NEAR)
    return layout
