"""Work away from the window: threads of our own, answers delivered on the window's thread."""

import importlib
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from typing import Any, TypeVar

from PySide6.QtCore import QObject, Qt, Signal
from shiboken6 import isValid

T = TypeVar("T")

INSIDE = ("teamrehab.desktop.workplace",)
"""What is imported after the first page is painted."""

PAGES = (
    "teamrehab.desktop.athlete.page",
    "teamrehab.desktop.evening.place",
    "teamrehab.desktop.casebook_page",
    "teamrehab.desktop.sheet.page",
    "teamrehab.desktop.athlete_dialog",
    "teamrehab.desktop.import_dialog",
    "teamrehab.desktop.intakes",
)
"""What is imported after the squad is painted: all that one can go to from there."""

ESTIMATING = ("teamrehab.forecast", "numpy", "scipy.special")
"""What is imported next, for the likely returns."""

DRAWING = ("pyqtgraph", "reportlab.pdfgen.canvas", "reportlab.platypus")
"""What is imported last, so that neither the first graph nor the first sheet waits for it."""


QT_PARTS = ("PySide6.QtSvg", "PySide6.QtTest", "PySide6.QtOpenGL", "PySide6.QtOpenGLWidgets")
"""What the library of the graphs takes of Qt besides what the window has."""


@dataclass(frozen=True, slots=True)
class _Answer:
    deliver: Callable[[Any], None] | None
    value: Any


class Workers(QObject):
    """A few threads that work off what they are asked, in order, and tell the window.

    Every function given to ``ask`` runs on one of these threads; its answer, or what it
    raised, is handed over on the thread that made this object. An answer for a widget that
    is gone by then is dropped.
    """

    _answered = Signal(object)

    def __init__(self, threads: int, name: str, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._threads = ThreadPoolExecutor(threads, thread_name_prefix=name)
        self._answered.connect(self._deliver, Qt.ConnectionType.QueuedConnection)

    def ask(
        self,
        function: Callable[[], T],
        then: Callable[[T], None] | None,
        failed: Callable[[Exception], None],
    ) -> None:
        """Run ``function`` soon; then ``then`` gets its answer or ``failed`` its error."""
        self._threads.submit(self._work, function, then, failed)

    def finish(self) -> None:
        """Wait until all that was asked is done; nothing can be asked afterwards."""
        self._threads.shutdown(wait=True)

    def _work(
        self,
        function: Callable[[], T],
        then: Callable[[T], None] | None,
        failed: Callable[[Exception], None],
    ) -> None:
        try:
            answer = _Answer(then, function())
        except Exception as error:  # noqa: BLE001  told on the other side, never swallowed
            answer = _Answer(failed, error)
        if isValid(self):
            self._answered.emit(answer)

    def _deliver(self, answer: _Answer) -> None:
        deliver(answer.deliver, answer.value)


def deliver(then: Callable[[T], None] | None, answer: T) -> None:
    """Give ``then`` its answer, unless it belongs to a widget that is gone."""
    bound = then.func if isinstance(then, partial) else then
    owner = getattr(bound, "__self__", None)
    if then is not None and not (isinstance(owner, QObject) and not isValid(owner)):
        then(answer)


def prepare_to_enter() -> None:
    """Import what an open casebook needs while a person still looks at the first page."""
    from teamrehab.records import open_casebook  # noqa: F401  the door imports it when asked

    _import(INSIDE)


def import_parts_of_qt() -> None:
    """Import on the window's thread all of Qt that workers would otherwise import first.

    A part of Qt imported for the first time on another thread can take the program down.
    """
    _import(QT_PARTS)


def prepare_pages() -> None:
    """Import the pages beside the squad while a person looks at it."""
    _import(PAGES)


def prepare_to_estimate() -> None:
    """Import what the likely returns are worked out with."""
    _import(ESTIMATING)


def prepare_to_draw() -> None:
    """Import what graphs and sheets are drawn with."""
    _import(DRAWING)


def _import(names: Sequence[str]) -> None:
    for name in names:
        importlib.import_module(name)
