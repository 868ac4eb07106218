"""One of many, found by typing a part of its name or its number; the choice is made by key."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListWidget, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.domain.names import plain

V = TypeVar("V")

SHOWN = 5
"""As many names as are read at a glance."""


@dataclass(frozen=True, slots=True)
class Candidate(Generic[V]):
    """What can be chosen: its value, its words, and the number it is known by.

    ``also`` are other words that mean it, never shown.
    """

    value: V
    words: str
    number: int | None = None
    also: str = ""

    @property
    def shown(self) -> str:
        """Return number and words as they stand in the list."""
        return self.words if self.number is None else f"{self.number}  {self.words}"


def matching(typed: str, candidates: Sequence[Candidate[V]]) -> list[Candidate[V]]:
    """Return who is meant by ``typed``, the likeliest first.

    Digits: that number, then numbers that begin so. Letters: words that begin so, then any
    that hold them, without case and accents; where there are none, other words that begin so.
    Nothing typed means nobody.
    """
    wanted = plain(typed.strip())
    if not wanted:
        return []
    ranked = ((_rank(wanted, one), one) for one in candidates)
    found = [(rank, one) for rank, one in ranked if rank is not None]
    if not found:
        return [one for one in candidates if _begins(wanted, plain(one.also))]
    return [one for _rank_of, one in sorted(found, key=lambda pair: pair[0])]


def _rank(wanted: str, one: Candidate[V]) -> int | None:
    if wanted.isdigit():
        number = "" if one.number is None else str(one.number)
        return None if not number.startswith(str(int(wanted))) else len(number)
    words = plain(one.words)
    if _begins(wanted, words):
        return 0
    return 1 if wanted in words else None


def _begins(wanted: str, words: str) -> bool:
    """Return whether the words, or one of them, begin so."""
    return any(word.startswith(wanted) for word in (words, *words.split()))


class Pick(QWidget, Generic[V]):
    """A line to type into with the candidates below; Enter takes the one that is marked.

    Down and Up mark another. ``value`` is None until one was taken, and again as soon as the
    line is changed: a name half typed is nobody.
    """

    edited = Signal()
    picked = Signal()

    def __init__(self, candidates: Sequence[Candidate[V]], placeholder: str = "") -> None:
        super().__init__()
        self._candidates = tuple(candidates)
        self._found: list[Candidate[V]] = []
        self._taken: Candidate[V] | None = None
        self.line, self.list = _Line(self), QListWidget()
        self.line.setPlaceholderText(placeholder)
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.list.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.HAIR)
        column.addWidget(self.line)
        column.addWidget(self.list)
        self.setFocusProxy(self.line)
        self.line.textEdited.connect(self._search)
        self.list.itemClicked.connect(self.take)

    @property
    def value(self) -> V | None:
        """Return what was taken."""
        return None if self._taken is None else self._taken.value

    @property
    def typed(self) -> str:
        """Return what stands in the line."""
        return self.line.text().strip()

    def name(self, words: str) -> None:
        """Give line and list a name for who cannot see them."""
        self.line.setAccessibleName(words)
        self.list.setAccessibleName(words)

    def mark(self, steps: int) -> None:
        """Mark a candidate further down (or up)."""
        if self._found:
            self.list.setCurrentRow((self.list.currentRow() + steps) % len(self._found))
            self.line.setAccessibleDescription(self._found[self.list.currentRow()].shown)

    def take(self) -> None:
        """Take the candidate that is marked; nothing where there is none."""
        if not self._found:
            return
        self._taken = self._found[max(self.list.currentRow(), 0)]
        self.line.setText(self._taken.shown)
        self._show([])
        self.edited.emit()
        self.picked.emit()

    def take_the_only_one(self) -> None:
        """Take what was typed where it can only mean one."""
        if self._taken is None and len(self._found) == 1:
            self.take()

    def _search(self, typed: str) -> None:
        self._taken = None
        self._show(matching(typed, self._candidates))
        self.edited.emit()

    def _show(self, found: list[Candidate[V]]) -> None:
        self._found = found
        self.list.clear()
        self.list.addItems([one.shown for one in found])
        self.list.setVisible(bool(found))
        self.line.setAccessibleDescription(found[0].shown if found else "")
        if found:
            self.list.setCurrentRow(0)
            rows = min(len(found), SHOWN)
            height = self.list.sizeHintForRow(0) * rows + 2 * self.list.frameWidth()
            self.list.setFixedHeight(height + Space.TIGHT)


class _Line(QLineEdit):
    """The line of a ``Pick``: Enter, Down and Up are for the list below it."""

    def __init__(self, pick: Pick[V]) -> None:
        super().__init__(pick)
        self._pick = pick

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        plain_key = not event.modifiers() & Qt.KeyboardModifier.ControlModifier
        match event.key():
            case Qt.Key.Key_Return | Qt.Key.Key_Enter if plain_key:
                self._pick.take()
            case Qt.Key.Key_Down:
                self._pick.mark(1)
            case Qt.Key.Key_Up:
                self._pick.mark(-1)
            case _:
                super().keyPressEvent(event)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() is Qt.FocusReason.TabFocusReason:
            self._pick.take_the_only_one()
