"""Garbage is collected on the window's thread only: Qt objects must not die on a worker."""

import gc
import threading
import weakref

from PySide6.QtCore import QObject

from teamrehab.desktop.collecting import Collector


class _Round:
    """An object that only a collection of cycles can free."""

    def __init__(self) -> None:
        self.itself = self
        self.died_on: list[int] = []


def _rounds(died_on: list[int], count: int = 2000) -> None:
    for _number in range(count):
        one = _Round()
        weakref.finalize(one, lambda: died_on.append(threading.get_ident()))


def test_what_a_worker_leaves_behind_dies_on_the_thread_of_the_window(qapp):
    parent = QObject()
    collector = Collector(parent)
    died_on: list[int] = []
    worker = threading.Thread(target=_rounds, args=(died_on,))
    worker.start()
    worker.join()
    assert died_on == []
    while collector.collect_if_due():
        pass
    assert set(died_on) == {threading.get_ident()}


def test_python_collects_by_itself_again_once_the_window_is_gone(qapp):
    parent = QObject()
    Collector(parent).stop()
    try:
        assert gc.isenabled()
    finally:
        gc.disable()  # as the collector of this test run left it
