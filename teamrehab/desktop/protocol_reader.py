"""The text of a protocol: to be read, selected, copied and searched, by keyboard too."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent, QTextCursor
from PySide6.QtWidgets import QFrame, QTextBrowser
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.colours import colours_of
from teamrehab.desktop.protocol_markup import anchor, protocol_markup
from teamrehab.language import _
from teamrehab.reports.protocol_text import ProtocolSection

_LETTERS = 124
"""About as many letters as a line of text takes with the sources beside it."""


class ProtocolReader(QTextBrowser):
    """``typed`` carries a letter pressed while the text is read: a search begins with it."""

    typed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[tuple[ProtocolSection, ...], int | None, tuple[str, ...]]
        self._shown = ((), None, ())
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setOpenLinks(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.setAccessibleName(_("Text of the protocol"))
        self.document().setDocumentMargin(Space.WIDE)

    def show_sections(
        self, sections: Sequence[ProtocolSection], stage: int | None, said: Sequence[str]
    ) -> None:
        """Show a protocol from its beginning; ``stage`` is the one that is open now."""
        self._shown = (tuple(sections), stage, tuple(said))
        self._draw()
        self.go_to(0)

    def go_to(self, number: int) -> None:
        """Bring the heading of section ``number`` (from 0) to the top."""
        if number == 0:
            self.moveCursor(QTextCursor.MoveOperation.Start)
            self.verticalScrollBar().setValue(0)
        else:
            self.scrollToAnchor(anchor(number))
            bar = self.verticalScrollBar()
            bar.setValue(bar.value() - Space.NEAR)

    def search(self, words: str, *, on: bool = False) -> bool:
        """Select where ``words`` stand next, from the beginning again after the end.

        ``on`` leaves the place where they stand now. False where they stand nowhere.
        """
        cursor = self.textCursor()
        cursor.setPosition(cursor.selectionEnd() if on else cursor.selectionStart())
        self.setTextCursor(cursor)
        if not words:
            return True
        if self.find(words):
            return True
        self.moveCursor(QTextCursor.MoveOperation.Start)
        return self.find(words)

    def _draw(self) -> None:
        sections, stage, said = self._shown
        self.setHtml(protocol_markup(sections, colours_of(self.palette()), stage, said))

    @override
    def changeEvent(self, event: QEvent) -> None:
        """Take the colours of light or dark, and stay where one reads."""
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange and self._shown[0]:
            place = self.verticalScrollBar().value()
            self._draw()
            self.verticalScrollBar().setValue(place)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        letter = event.text()
        plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.ShiftModifier,
        )
        if plain and letter.isprintable() and letter.strip():
            self.typed.emit(letter)
            return
        super().keyPressEvent(event)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the lines as short as they are easily read, however large the window."""
        wide = self.fontMetrics().averageCharWidth() * _LETTERS
        spare = max(self.width() - wide, 0)
        self.setViewportMargins(spare // 2, 0, spare // 2, 0)
        super().resizeEvent(event)
