"""Types an evening of five, four keys a row, and prints the seconds it took as JSON.

``python -m tests.benchmarks.evening_probe FOLDER``. From the first key until all five rows
are acknowledged by the casebook: the program's time, no person's.
"""

import json
import os
import sys
from pathlib import Path
from time import perf_counter

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.appearance import Appearance, Scheme
from teamrehab.desktop.collecting import Collector
from tests.desktop.evening.conftest import Evening

ROUNDS = 5


class Hands:
    """What a test's robot does, without a test."""

    keyClick, keyClicks = QTest.keyClick, QTest.keyClicks  # noqa: N815  Qt's own names

    def addWidget(self, _widget):  # noqa: N802
        pass

    def waitUntil(self, holds):  # noqa: N802
        while not holds():
            QTest.qWait(1)


def seconds(folder: Path) -> float:
    """Return the seconds of one evening in a casebook of its own."""
    evening = Evening(Hands(), folder)
    begun = perf_counter()
    for _athlete in range(5):
        evening.type("y14\n")
    evening.qtbot.waitUntil(lambda: all(row.entry.is_entered for row in evening.view.rows))
    took = perf_counter() - begun
    evening.close()
    return took


if __name__ == "__main__":
    application = QApplication(sys.argv)
    Appearance(application, Scheme.LIGHT)
    collector = Collector(application)
    print(json.dumps([seconds(Path(sys.argv[1]) / str(n)) for n in range(ROUNDS)]), flush=True)
    os._exit(0)
