"""The open window, told to measure itself; it prints its seconds as JSON.

``python -m tests.benchmarks.inside_probe inside FOLDER`` or ``... panel``
"""

import json
import os
import sys
from collections.abc import Iterator
from datetime import timedelta
from functools import partial
from itertools import cycle
from pathlib import Path
from time import perf_counter
from typing import Any

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication
from typing_extensions import override

from teamrehab.desktop.application import run_window
from teamrehab.desktop.panel import Line, Panel
from teamrehab.desktop.workplace import Workplace
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from tests.builders import ONSET, clock

TURNS = 20


def _tell(found: object) -> None:
    print(json.dumps(found), flush=True)
    os._exit(0)


def inside(folder: Path) -> None:
    """Tell the seconds from the board to the estimates, and from saves to the repaint."""
    begin = Workplace.begin_the_rest

    def watched(place: Workplace) -> None:
        watch = Inside(place)
        place.boards.changed.connect(watch.filled_in)
        begin(place)

    Workplace.begin_the_rest = watched  # type: ignore[method-assign, assignment]
    run_window(folder, clock(), demo=False)


class Inside(QObject):
    """Waits for the estimates, then saves one answer of availability after the other."""

    def __init__(self, place: Any) -> None:
        super().__init__(place)
        self._place, self._boards, self._session = place, place.boards, place._session
        self._begun, self._filled = perf_counter(), 0.0
        self._acknowledged = 0.0
        self._repaints: list[float] = []
        self._answers = _answers(place.boards)

    def filled_in(self, _board: object) -> None:
        """The estimates have arrived: begin to save."""
        if not self._boards.has_estimates:
            return
        if not self._filled:
            self._filled = perf_counter() - self._begun
            self._place.squad.table.viewport().installEventFilter(self)
        self._save()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Paint and self._acknowledged and self._is_shown():
            self._repaints.append(perf_counter() - self._acknowledged)
            self._acknowledged = 0.0
        return False

    def _save(self) -> None:
        if len(self._repaints) == TURNS:
            _tell({"estimates": [self._filled], "repaint": self._repaints})
        self._value = next(self._answers)
        self._session.write(partial(self._noted, value=self._value), self._value.case_id)

    def _noted(self, book: Any, value: object) -> None:
        """Save on the casebook's thread; what returns from there is acknowledged."""
        book.note(value)
        self._acknowledged = perf_counter()

    def _is_shown(self) -> bool:
        rows = self._place.squad.table.rows.rows
        row = next(r for r in rows if r.athlete_id == self._value.athlete_id)
        return bool(row.training is self._value.training)


def _answers(boards: Any) -> Iterator[Any]:
    """Return an athlete's availability as it changes from one evening to the next."""
    case = boards.board.squad.open_cases[0].case
    for training in cycle((Training.WITH_LIMITS, Training.NONE)):
        yield AvailabilityStated(
            case_id=case.case_id,
            athlete_id=case.athlete_id,
            on=ONSET,
            training=training,
            match=Match.NOT_AVAILABLE,
        )


def panel() -> None:
    """Tell the seconds of each pan step of a graph of 100 000 samples, repainted."""
    application = QApplication(sys.argv)
    graph = Panel("Samples", "raises")
    graph.resize(1366, 768)
    samples = 100_000
    points = tuple((ONSET + timedelta(n), float(20 + n % 17)) for n in range(samples))
    graph.show_lines(
        [Line(name="left", points=points)], origin=ONSET, until=ONSET + timedelta(samples)
    )
    graph.show()
    application.processEvents()
    image = QImage(graph.size(), QImage.Format.Format_RGB32)
    _tell([_step(graph, image, 500 * n, samples // 2) for n in range(2 * TURNS)][1:])


def _step(graph: Any, image: Any, start: int, wide: int) -> float:
    begun = perf_counter()
    graph._plot.setXRange(start, start + wide, padding=0)
    graph.render(image)
    return perf_counter() - begun


if __name__ == "__main__":
    if sys.argv[1] == "panel":
        panel()
    else:
        inside(Path(sys.argv[2]))
