"""Trouble, told once and plainly: what the world refused, and what is our own mistake."""

import platform
import sys
import threading
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from PySide6 import __version__ as pyside_version
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QFontDatabase, QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from teamrehab import __version__
from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.logbook import Event, write_error
from teamrehab.language import _


def is_known(error: BaseException) -> bool:
    """Return whether an error is one of our own classes: its message is fit to be shown."""
    return any(kind.__module__.partition(".")[0] == "teamrehab" for kind in type(error).__mro__)


def tell(error: BaseException) -> None:
    """Hand our own mistake to the hook, as if nobody had caught it."""
    sys.excepthook(type(error), error, error.__traceback__)


def describe(error: BaseException) -> str:
    """Return what a developer needs: versions, kinds and places; no value, name or text."""
    lines = [
        f"teamrehab {__version__}",
        f"Python {platform.python_version()}, PySide6 {pyside_version}",
        f"{platform.system()} {platform.release()} {platform.machine()}",
    ]
    cause: BaseException | None = error
    while cause is not None:
        kind = type(cause)
        lines += ["", f"{kind.__module__}.{kind.__qualname__}"]
        lines += [f"  {_place(frame)}" for frame in traceback.extract_tb(cause.__traceback__)]
        cause = cause.__cause__ or (None if cause.__suppress_context__ else cause.__context__)
    return "\n".join(lines)


def _place(frame: traceback.FrameSummary) -> str:
    path = Path(frame.filename)
    return f"{path.parent.name}/{path.name}:{frame.lineno} {frame.name}"


class Notice(QFrame):
    """A message inside the window: a known error's own words, until it is put away."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("notice", True)  # noqa: FBT003  Qt's own signature
        self._words = text("", Type.BODY)
        self._words.setWordWrap(True)
        self._words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        away = QPushButton(_("&Put away"))
        away.clicked.connect(self.hide)
        line = QHBoxLayout(self)
        line.setContentsMargins(Space.APART, Space.NEAR, Space.APART, Space.NEAR)
        line.addWidget(self._words, 1)
        line.addWidget(away, 0, Qt.AlignmentFlag.AlignTop)
        self.hide()

    @property
    def words(self) -> str:
        """Return what it says, "" while it is put away."""
        return "" if self.isHidden() else self._words.text()

    def say(self, words: str) -> None:
        """Show these words."""
        self._words.setText(words)
        self.setAccessibleName(words)
        self.show()


class MistakeDialog(QDialog):
    """Our own mistake: said once, with what a developer needs, to be copied by hand."""

    def __init__(self, description: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(_("A mistake in teamrehab"))
        self.description = description
        words = text(
            _(
                "Something in the program went wrong. What was saved is kept. If the page "
                "looks odd, lock the casebook and open it again. The lines below hold no name "
                "and no value; copy them for whoever looks after the program."
            )
        )
        words.setWordWrap(True)
        details = QPlainTextEdit(description)
        details.setReadOnly(True)
        details.setFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont))
        details.setAccessibleName(_("Details of the mistake"))
        column = QVBoxLayout(self)
        column.addWidget(words)
        column.addWidget(details, 1)
        column.addLayout(self._buttons())
        self.resize(640, 400)

    def _buttons(self) -> QHBoxLayout:
        line = QHBoxLayout()
        copy = QPushButton(_("&Copy"))
        copy.clicked.connect(self._copy)
        close = QPushButton(_("C&lose"))
        close.clicked.connect(self.accept)
        line.addWidget(copy)
        line.addStretch(1)
        line.addWidget(close)
        return line

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.description)


class MistakeHook(QObject):
    """Catches what nobody caught, on any thread; logs it, and shows each mistake once."""

    _happened = Signal(object)

    def __init__(self, show: Callable[[str], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._show = show
        self._seen: set[str] = set()
        self._busy = False
        self._happened.connect(self._tell, Qt.ConnectionType.QueuedConnection)

    def install(self) -> None:
        """Take the place of Python's own hooks until the program ends."""
        sys.excepthook = self.catch
        threading.excepthook = self._catch_on_thread

    def catch(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        """Take one error; may be called on any thread."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, error, trace)
            return
        description = describe(error)
        if description not in self._seen:  # one that repeats must not flood log and screen
            self._seen.add(description)
            write_error(Event.MISTAKE, error)
            self._happened.emit(description)

    def _catch_on_thread(self, happened: threading.ExceptHookArgs) -> None:
        if happened.exc_value is not None:
            self.catch(happened.exc_type, happened.exc_value, happened.exc_traceback)

    def _tell(self, description: str) -> None:
        if self._busy:
            return
        self._busy = True
        try:
            self._show(description)
        finally:
            self._busy = False
