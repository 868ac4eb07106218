"""A few answers side by side, one chosen: by its first letter, arrow keys or a click."""

from collections.abc import Sequence
from typing import Generic, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QRadioButton, QWidget
from typing_extensions import override

V = TypeVar("V")


class Choice(QWidget, Generic[V]):
    """Answers in a row; ``value`` is the chosen one or None while nothing is chosen.

    ``at_first`` is the place of the answer chosen before anybody touches it. ``lettered``
    follows an answer given by its letter: no arrow key is on its way to another one.
    """

    chosen = Signal()
    lettered = Signal()

    def __init__(
        self, answers: Sequence[tuple[V, str]], *, at_first: int | None = None
    ) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # or no underlined letter leads here
        self._values = [value for value, _word in answers]
        self._buttons = QButtonGroup(self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for number, (_value, word) in enumerate(answers):
            button = QRadioButton(word)
            button.setChecked(number == at_first)
            self._buttons.addButton(button, number)
            layout.addWidget(button)
        layout.addStretch(1)
        self._buttons.idClicked.connect(self._tell)
        self._focus_first()

    def value(self) -> V | None:
        """Return the chosen answer."""
        number = self._buttons.checkedId()
        return None if number < 0 else self._values[number]

    def choose(self, value: V) -> None:
        """Choose an answer."""
        self._buttons.button(self._values.index(value)).setChecked(True)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Choose the answer that begins with the letter typed."""
        for button in self._buttons.buttons():
            typed = event.text().casefold()
            if typed and button.text().casefold().startswith(typed):
                button.setFocus()
                button.click()
                self.lettered.emit()
                return
        super().keyPressEvent(event)

    def _tell(self, _number: int) -> None:
        self.chosen.emit()

    def name_answers(self, question: str) -> None:
        """Give each answer a name that says what it answers."""
        for button in self._buttons.buttons():
            button.setAccessibleName(f"{question}: {button.text()}")

    def _focus_first(self) -> None:
        first = self._buttons.checkedButton() or self._buttons.button(0)
        self.setFocusProxy(first)
