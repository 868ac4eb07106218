"""One proposal on the closing list: who, what, why, and what the coach would read."""

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.evening.closing_words import sentences
from teamrehab.reports.closing import Proposed

_NAME_LETTERS = 22
"""Room for a name, in letters, so that all proposals begin below each other."""


class ClosingLine(QFrame):
    """Shows one proposal; ``pressed`` follows a click. Keys are for the list it stands in."""

    pressed = Signal(object)

    def __init__(self, proposed: Proposed, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.proposed = proposed
        self._current = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        said = sentences(proposed)
        self.setAccessibleName("\n".join((proposed.name, *said)))
        line = QHBoxLayout(self)
        high = Space.NEAR if proposed.moves else Space.HAIR
        line.setContentsMargins(Space.APART, high, Space.APART, high)
        line.setSpacing(Space.APART)
        line.addWidget(self._name(), 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout()
        column.setSpacing(Space.HAIR)
        for words, role in zip(said, _roles(proposed), strict=True):
            column.addWidget(_wrapped(words, role))
        line.addLayout(column, 1)

    def mark(self, current: bool) -> None:  # noqa: FBT001  as Qt's own
        """Show whether the keys are for this line."""
        self._current = current
        self.update()

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.pressed.emit(self)
        super().mousePressEvent(event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter, palette, box = QPainter(self), self.palette(), self.rect()
        if self._current:
            painter.fillRect(box, palette.color(QPalette.ColorRole.Highlight))
            bar = QRect(0, 0, Space.TIGHT, box.height())
            painter.fillRect(bar, palette.color(QPalette.ColorRole.Accent))
        hair = QRect(0, box.height() - 1, box.width(), 1)
        painter.fillRect(hair, palette.color(QPalette.ColorRole.Mid))
        painter.end()
        super().paintEvent(event)

    def _name(self) -> QLabel:
        label = _wrapped(self.proposed.name, Type.LEAD if self.proposed.moves else Type.BODY)
        label.setFixedWidth(self.fontMetrics().averageCharWidth() * _NAME_LETTERS)
        return label


def _roles(proposed: Proposed) -> tuple[Type, ...]:
    alarm = proposed.stopped
    if not proposed.moves:
        return (Type.COMPLAINT if alarm else Type.SMALL,)
    cautions = (Type.COMPLAINT for _caution in proposed.cautions)
    return (Type.LEAD, Type.COMPLAINT if alarm else Type.BODY, Type.SMALL, *cautions)


def _wrapped(words: str, role: Type) -> QLabel:
    label = text(words, role)
    label.setWordWrap(True)
    return label
