"""A question that only Y answers: any other key leaves everything as it is."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import plain_button
from teamrehab.desktop.evening.closing_words import Question
from teamrehab.language import _

_ALONE = frozenset(
    {Qt.Key.Key_Shift, Qt.Key.Key_Control, Qt.Key.Key_Alt, Qt.Key.Key_Meta, Qt.Key.Key_CapsLock}
)
"""Keys that are only on the way to another one."""

_OTHER_WINDOW = frozenset(
    {Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason}
)
"""Ways to lose the keyboard that answer nothing: one looks something up and comes back."""


class ClosingQuestion(QFrame):
    """Hidden until asked; ``confirmed`` or ``left`` follows, and it hides again."""

    confirmed = Signal()
    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("notice", True)  # noqa: FBT003  Qt's own signature
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.words, self.how = text("", Type.DISPLAY), text("", Type.BODY)
        for label in (self.words, self.how):
            label.setWordWrap(True)
        self.yes = plain_button("", self._confirm)
        self.no = plain_button(_("Leave it (any other key)"), self._leave)
        buttons = QHBoxLayout()
        for button in (self.yes, self.no):
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            buttons.addWidget(button)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.APART, Space.APART, Space.APART, Space.APART)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.words)
        column.addWidget(self.how)
        column.addLayout(buttons)
        self.hide()

    @property
    def is_open(self) -> bool:
        """Return whether an answer is awaited."""
        return not self.isHidden()

    def ask(self, asked: Question) -> None:
        """Ask; the keyboard waits for the answer."""
        self.words.setText(asked.words)
        self.how.setText(asked.how)
        self.yes.setText(_("{what} (Y)").format(what=asked.yes.replace("&", "&&")))
        said = (asked.words, asked.how, self.yes.text(), self.no.text())
        self.setAccessibleName("\n".join(said))
        self.show()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def close_unanswered(self) -> None:
        """Take the question away where what it was about has changed."""
        if self.is_open:
            self._leave()

    @override
    def focusNextPrevChild(self, next: bool) -> bool:
        """Take the Tab key as any other key."""
        return False

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.isAutoRepeat() or event.key() in _ALONE:
            return
        held = event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
        if event.key() == Qt.Key.Key_Y and not held:
            self._confirm()
        else:
            self._leave()

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if self.is_open and event.reason() not in _OTHER_WINDOW:
            self._leave()

    def _confirm(self) -> None:
        self.hide()
        self.confirmed.emit()

    def _leave(self) -> None:
        self.hide()
        self.left.emit()
