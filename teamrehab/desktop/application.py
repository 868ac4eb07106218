"""Where everything of the window is put together, started, and ended in order."""

import ctypes
import os
import signal
import sys
from pathlib import Path
from socket import socketpair

from platformdirs import user_log_path, user_state_path
from PySide6.QtCore import QSocketNotifier
from PySide6.QtWidgets import QApplication

from teamrehab import __version__
from teamrehab.desktop import preferences
from teamrehab.desktop.appearance import Appearance
from teamrehab.desktop.collecting import Collector
from teamrehab.desktop.first_paint import FirstPaint
from teamrehab.desktop.instance import OnlyInstance
from teamrehab.desktop.logbook import Event, close_logbook, open_logbook, write
from teamrehab.desktop.main_window import MainWindow
from teamrehab.desktop.trouble import MistakeDialog, MistakeHook
from teamrehab.domain.days import Clock

_NAME = "teamrehab"
_PR_SET_DUMPABLE = 4


def run_window(folder: Path | None, clock: Clock, *, demo: bool) -> int:
    """Show the window until it is closed; return the exit code.

    ``folder`` is a casebook to unlock at once; ``demo`` opens the demo squad at once. Where
    the window is open already it is raised, and this returns at once.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    keep_memory_to_ourselves()
    application = QApplication.instance() or QApplication([_NAME])
    if not isinstance(application, QApplication):
        raise TypeError("a window needs a QApplication")
    application.setApplicationName(_NAME)
    only = OnlyInstance(user_state_path(_NAME), application)
    if not only.take():
        return 0
    deaths = open_logbook(user_log_path(_NAME))
    write(Event.STARTED, version=__version__)
    try:
        return _show(application, only, folder, clock, demo=demo)
    finally:
        write(Event.ENDED)
        close_logbook(deaths)
        only.release()


def _show(
    application: QApplication,
    only: OnlyInstance,
    folder: Path | None,
    clock: Clock,
    *,
    demo: bool,
) -> int:
    window = MainWindow(clock, Appearance(application), preferences.settings())
    hook = MistakeHook(lambda words: MistakeDialog(words, window).open(), window)
    hook.install()
    only.called.connect(window.come_up)
    _close_when_told(window)
    collector = Collector(application)
    window.show()
    if demo:
        FirstPaint(window).painted.connect(window.entrance.open_demo)
    elif folder is not None:
        window.open_folder(folder)
    code = application.exec()
    collector.stop()
    return code


def _close_when_told(window: MainWindow) -> None:
    """Close in order, backup included, when the system or a terminal asks us to end.

    Python runs a signal's handler only when it gets a turn; the socket wakes Qt for that.
    """
    if not sys.platform.startswith("linux"):
        return
    heard, told = socketpair()
    for end in (heard, told):
        end.setblocking(False)  # noqa: FBT003  the socket's own signature
    signal.set_wakeup_fd(told.detach())  # stays open as long as the program runs
    for asked in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
        signal.signal(asked, lambda _number, _frame: window.close())
    notifier = QSocketNotifier(heard.fileno(), QSocketNotifier.Type.Read, window)
    notifier.activated.connect(lambda *_told: heard.recv(64))


def keep_memory_to_ourselves() -> None:
    """No core file and no other program of this person may read the passphrase from memory."""
    if not sys.platform.startswith("linux"):
        return
    import resource

    _soft, hard = resource.getrlimit(resource.RLIMIT_CORE)
    resource.setrlimit(resource.RLIMIT_CORE, (0, hard))
    ctypes.CDLL(None).prctl(_PR_SET_DUMPABLE, 0, 0, 0, 0)
