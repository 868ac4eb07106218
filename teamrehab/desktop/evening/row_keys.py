"""The keys of the keyboard as a row of the evening calls them."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from teamrehab.desktop.evening.pressing import BACKSPACE, DOWN, ENTER, ESCAPE, LEFT, RIGHT, UP

_KEYS = {
    Qt.Key.Key_Return: ENTER,
    Qt.Key.Key_Enter: ENTER,
    Qt.Key.Key_Backspace: BACKSPACE,
    Qt.Key.Key_Escape: ESCAPE,
    Qt.Key.Key_Left: LEFT,
    Qt.Key.Key_Right: RIGHT,
    Qt.Key.Key_Up: UP,
    Qt.Key.Key_Down: DOWN,
}
STEPS = {UP: -1, DOWN: 1}
"""Keys that go to another row, and how far."""

_OTHERS = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier


def key_of(event: QKeyEvent) -> str:
    """Return a key by its name or as the sign it types, "" for one that is not for a row."""
    named = _KEYS.get(Qt.Key(event.key()))
    key = named or event.text()
    types = key and (named or key.isprintable())
    return key if types and not event.modifiers() & _OTHERS else ""


def answers_nothing(event: QKeyEvent) -> bool:
    """Return whether it is Enter held down, which answers no question."""
    return event.isAutoRepeat() and _KEYS.get(Qt.Key(event.key())) == ENTER
