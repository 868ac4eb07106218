"""The closing list: proposals to decide about, and quietly below who is to stay, and why."""

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.evening.closing_line import ClosingLine
from teamrehab.language import _
from teamrehab.reports.closing import Proposed


class ClosingList(QScrollArea):
    """Lines with a cursor; ``moved`` follows when the cursor is on another line."""

    moved = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.lines: list[ClosingLine] = []
        self._at = 0
        self._later = QTimer(self)  # lines have their place only after the layout's turn
        self._later.setSingleShot(True)
        self._later.setInterval(0)
        self._later.timeout.connect(self._bring_into_view)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.show_proposals(())

    @property
    def current(self) -> Proposed | None:
        """Return the proposal the cursor is on."""
        return self.lines[self._at].proposed if self.lines else None

    @property
    def has_keyboard(self) -> bool:
        """Return whether the keys go to a line, once the window is the active one again."""
        return self.window().focusWidget() in self.lines

    def show_proposals(self, proposals: Sequence[Proposed]) -> None:
        """Show proposals; the cursor stays on the same one, or where it stood."""
        focused, held = self.has_keyboard, self.current
        # a stop is no quiet line, though nothing is left to decide about it
        to_decide = [one for one in proposals if one.moves or one.stopped]
        to_stay = [one for one in proposals if one not in to_decide]
        self.lines = [ClosingLine(one) for one in (*to_decide, *to_stay)]
        for line in self.lines:
            line.pressed.connect(self._press)
        self.setWidget(self._page(len(to_decide)))
        same = [n for n, line in enumerate(self.lines) if _same(line.proposed, held)]
        self._at = same[0] if same else max(min(self._at, len(self.lines) - 1), 0)
        self._mark()
        self.updateGeometry()
        if focused:
            self.take_focus()

    def step(self, steps: int) -> None:
        """Move the cursor; it stays at the ends."""
        self._go_to(max(min(self._at + steps, len(self.lines) - 1), 0))

    def take_focus(self) -> None:
        """Put the keyboard on the line of the cursor."""
        if self.lines:
            self.lines[self._at].setFocus(Qt.FocusReason.OtherFocusReason)
            self._later.start()

    @override
    def sizeHint(self) -> QSize:
        """Ask for no more height than the lines need: a question stands right below them."""
        high = self._column.totalHeightForWidth(self.width())
        return QSize(super().sizeHint().width(), high)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()
        self._later.start()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave the keys to the page: the arrows move the cursor, not the picture."""
        event.ignore()

    def _page(self, to_decide: int) -> QWidget:
        page = QWidget()
        column = self._column = QVBoxLayout(page)
        column.setContentsMargins(0, 0, Space.NEAR, 0)
        column.setSpacing(0)
        if not to_decide:
            column.addWidget(_spaced(_("Nothing to decide tonight."), Type.LEAD))
        for number, line in enumerate(self.lines):
            if number == to_decide:
                column.addWidget(_spaced(_("Stays as it is"), Type.SMALL))
            column.addWidget(line)
        column.addStretch(1)
        return page

    def _bring_into_view(self) -> None:
        if self.lines:
            self.ensureWidgetVisible(self.lines[self._at], 0, Space.NEAR)

    def _press(self, line: ClosingLine) -> None:
        self._go_to(self.lines.index(line))

    def _go_to(self, place: int) -> None:
        if self.lines:
            self._at = place
            self._mark()
            self.take_focus()
            self.moved.emit()

    def _mark(self) -> None:
        for number, line in enumerate(self.lines):
            line.mark(number == self._at)


def _same(one: Proposed, other: Proposed | None) -> bool:
    """Return whether two proposals are about the same thing, worded anew perhaps."""
    if other is None:
        return False
    return _about(one) == _about(other)


def _about(proposed: Proposed) -> tuple[str, ...]:
    ladder = getattr(proposed.value, "ladder", "")
    return (proposed.case_id, proposed.kind.value, ladder or proposed.words)


def _spaced(words: str, role: Type) -> QLabel:
    label = text(words, role)
    label.setContentsMargins(Space.APART, Space.APART, Space.APART, Space.TIGHT)
    return label
