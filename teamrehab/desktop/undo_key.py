"""Ctrl+Z is a text field's while it has something of its own to undo, else the menu's."""

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QTextEdit, QWidget
from typing_extensions import override


class UndoKey(QObject):
    """Watches the one widget that has the focus: by itself a text field keeps Ctrl+Z always.

    Qt asks a field first whether a key is its own (``ShortcutOverride``); the answer of one
    with nothing to undo is kept back, so that the key goes on to the menu.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._watch)

    def _watch(self, before: QWidget | None, now: QWidget | None) -> None:
        if before is not None:
            before.removeEventFilter(self)
        if now is not None and _text_in(now) is not None:
            now.installEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is not QEvent.Type.ShortcutOverride or not isinstance(event, QKeyEvent):
            return False
        if not event.matches(QKeySequence.StandardKey.Undo) or _has_undo(watched):
            return False
        event.ignore()
        return True


def _text_in(widget: QObject) -> QLineEdit | QTextEdit | QPlainTextEdit | None:
    """Return where the words of a field are edited, None for what takes no words."""
    if isinstance(widget, QLineEdit | QTextEdit | QPlainTextEdit):
        return widget
    return widget.findChild(QLineEdit)  # of a number, a date or a choice that can be typed


def _has_undo(widget: QObject) -> bool:
    field = _text_in(widget)
    if isinstance(field, QTextEdit | QPlainTextEdit):
        return field.document().isUndoAvailable()
    return field is not None and field.isUndoAvailable()
