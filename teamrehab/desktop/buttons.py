"""Buttons as this window has them: one main button a page, quiet ones for the rest."""

from collections.abc import Callable

from PySide6.QtWidgets import QPushButton


def main_button(words: str, do: Callable[[], object]) -> QPushButton:
    """Return the button that does what the page is for; Enter presses it."""
    button = _button(words, do, "main")
    button.setDefault(True)
    return button


def quiet_button(words: str, do: Callable[[], object]) -> QPushButton:
    """Return a button that looks like a word one can follow."""
    return _button(words, do, "quiet")


def plain_button(words: str, do: Callable[[], object]) -> QPushButton:
    """Return an ordinary button."""
    return _button(words, do, "plain")


def _button(words: str, do: Callable[[], object], look: str) -> QPushButton:
    button = QPushButton(words)
    button.setProperty(look, True)  # noqa: FBT003  Qt's own signature
    button.setAutoDefault(False)
    button.clicked.connect(do)
    return button
