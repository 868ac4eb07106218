"""The keys of the closing page as buttons with words, for who would rather press one."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import plain_button
from teamrehab.language import _
from teamrehab.reports.closing import Proposed

Do = Callable[[], object]


class ClosingKeys(QWidget):
    """What is done with the marked line, then what else an evening brings; the keys below."""

    def __init__(self) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.TIGHT)
        self._row = QHBoxLayout()
        self._row.setSpacing(Space.NEAR)
        column.addLayout(self._row)
        hint = text(
            _(
                "Up and Down choose. A accepts a level at once; for all else it asks, and only"
                " Y confirms. Enter changes nothing."
            ),
            Type.SMALL,
        )
        hint.setWordWrap(True)
        column.addWidget(hint)

    def offer(self, accept: Do, otherwise: Do, page: Do) -> None:
        """Set what the buttons for the marked line do."""
        self.accept = _add(self._row, _("Accept (A)"), accept)
        self.otherwise = _add(self._row, _("Decide otherwise (O)"), otherwise)
        self.page = _add(self._row, _("Athlete's page (P)"), page)
        self._row.addSpacing(Space.WIDE)

    def offer_more(self, complaint: Do, illness: Do) -> None:
        """Set what the buttons for the evening do."""
        self.complaint = _add(self._row, _("Anyone else? (C)"), complaint)
        self.illness = _add(self._row, _("Anyone ill? (I)"), illness)
        self._row.addStretch(1)

    def show_for(self, proposed: Proposed | None) -> None:
        """Let only those be pressed that do something with the marked line."""
        form = proposed is not None and proposed.moves and proposed.value is None
        self.accept.setText(_("Open the form (A)") if form else _("Accept (A)"))
        self.accept.setEnabled(proposed is not None and proposed.moves)
        self.otherwise.setEnabled(proposed is not None)
        self.page.setEnabled(proposed is not None)


def _add(row: QHBoxLayout, words: str, do: Do) -> QPushButton:
    button = plain_button(words, do)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    row.addWidget(button)
    return button
