"""The reference of every start: what any such program must import, and an empty table.

Run as a process of its own: ``python -m tests.benchmarks.bare_window``.
"""

import os
import sys

import sqlalchemy  # noqa: F401  imported for its time
import sqlcipher3  # noqa: F401
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QTableView
from typing_extensions import override


class Table(QTableView):
    """An empty table that ends the process once it has been painted."""

    @override
    def viewportEvent(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Paint:
            QTimer.singleShot(0, self, _end)
        return super().viewportEvent(event)


def _end() -> None:
    os._exit(0)


def main() -> QObject:
    """Show the table and run until it is painted."""
    application = QApplication(sys.argv)
    table = Table()
    table.resize(1366, 768)
    table.show()
    application.exec()
    return table


if __name__ == "__main__":
    main()
