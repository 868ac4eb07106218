"""Tells when a widget has been on the screen for the first time."""

from PySide6.QtCore import QEvent, QObject, QTimer, Signal
from PySide6.QtWidgets import QWidget
from typing_extensions import override


class FirstPaint(QObject):
    """Says ``painted`` once, after the first paint of a widget is over."""

    painted = Signal()

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self._widget = widget
        widget.installEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Paint:
            self._widget.removeEventFilter(self)
            QTimer.singleShot(0, self.painted.emit)
        return False
