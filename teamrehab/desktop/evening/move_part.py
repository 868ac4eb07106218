"""Choosing another athlete for an entry that was typed in the wrong row."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.evening.row_words import large_side
from teamrehab.language import _
from teamrehab.reports.evening import EveningLine


class MovePart(QWidget):
    """Takes letters of a name; ``chosen`` carries the line that Enter moves the entry to."""

    chosen = Signal(object)
    given_up = Signal()

    def __init__(self, of: EveningLine, others: Sequence[EveningLine]) -> None:
        super().__init__()
        self._others = others
        self.name = QLineEdit()
        ask = _("Move the entry of {name} to another athlete. Type letters of the name.")
        self.ask = text(ask.format(name=name_words(of)))
        self.found = text("", Type.LEAD)
        self.name.setAccessibleName(self.ask.text())
        self.name.setMaximumWidth(self.fontMetrics().averageCharWidth() * 40)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.TIGHT)
        for part in (self.ask, self.name, self.found):
            column.addWidget(part)
        self.name.textEdited.connect(self._show)
        self.setFocusProxy(self.name)
        self._show()

    @property
    def matches(self) -> list[EveningLine]:
        """Return the lines whose name or number begins with what is typed."""
        typed = self.name.text().strip().casefold()
        return [line for line in self._others if typed and _fits(line, typed)]

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._choose()
        elif event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()

    def _choose(self) -> None:
        if len(self.matches) == 1:
            self.chosen.emit(self.matches[0])

    def _show(self) -> None:
        matches = self.matches
        if len(matches) == 1:
            words = _("Enter moves it to {name}. Esc leaves it.")
            self.found.setText(words.format(name=name_words(matches[0])))
        elif matches:
            self.found.setText(_or(matches))
        else:
            nobody = _("Nobody of the evening begins with {typed}. Esc leaves it.")
            typed = self.name.text().strip()
            self.found.setText(nobody.format(typed=typed) if typed else _or(self._others))
        self.name.setAccessibleDescription(self.found.text())


def name_words(line: EveningLine) -> str:
    """Return whom a line is about, with number and side: "8 Okafor Sam, LEFT"."""
    words = f"{line.surname} {line.first_name}"
    if line.number is not None:
        words = f"{line.number} {words}"
    side = large_side(line.side)
    return f"{words}, {side}" if side else words


def _fits(line: EveningLine, typed: str) -> bool:
    names = (line.surname, line.first_name, str(line.number))
    return any(name.casefold().startswith(typed) for name in names)


def _or(lines: Sequence[EveningLine]) -> str:
    return "   ".join(name_words(line) for line in lines)
