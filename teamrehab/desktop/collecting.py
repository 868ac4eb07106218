"""Collect garbage on the window's thread only.

Python collects cycles on whichever thread happens to allocate; a cycle that holds a Qt object
and is freed by a worker takes the program down. So the automatic collection is off, and this
asks between two events what it would have asked.
"""

import gc

from PySide6.QtCore import QObject, QTimer

_EVERY_MS = 500


class Collector(QObject):
    """Collects as often as Python would, on the thread of its parent."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._thresholds = gc.get_threshold()
        gc.disable()
        self._timer = QTimer(self)
        self._timer.timeout.connect(self.collect_if_due)
        self._timer.start(_EVERY_MS)

    def collect_if_due(self) -> int:
        """Collect the oldest generation that is due; return how many objects went."""
        for generation in (2, 1, 0):
            if gc.get_count()[generation] > self._thresholds[generation]:
                return gc.collect(generation)
        return 0

    def stop(self) -> None:
        """Leave collecting to Python again: for the end, when no worker is left."""
        self._timer.stop()
        gc.enable()
