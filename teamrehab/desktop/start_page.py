"""The first page: look at the demo, make a casebook, open one."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFileDialog, QGridLayout, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, prose, text
from teamrehab.desktop.buttons import main_button, plain_button, quiet_button
from teamrehab.desktop.reading_column import reading_column
from teamrehab.language import _

_ENTER = frozenset({Qt.Key.Key_Return, Qt.Key.Key_Enter})


class StartPage(QWidget):
    """What one can begin with. Recent casebooks are told by folder, never by content.

    Enter presses the button that has the cursor, whichever it is.
    """

    demo_asked = Signal()
    new_asked = Signal()
    folder_chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = reading_column(self)
        column.addWidget(text("teamrehab", Type.DISPLAY))
        column.addWidget(prose(_what_it_is(), Type.LEAD))
        column.addSpacing(Space.APART)
        self.demo = main_button(_("Open the &demo squad"), self.demo_asked.emit)
        self.new = plain_button(_("&New casebook..."), self.new_asked.emit)
        self.open = plain_button(_("&Open a casebook..."), self.choose)
        column.addLayout(
            _choices(
                (self.demo, _("An invented club in mid-season. Change what you like.")),
                (self.new, _("For your own team. It takes two minutes and a passphrase.")),
                (self.open, _("A casebook that lies in a folder on this computer.")),
            )
        )
        self._heading = text(_("Opened before"), Type.TITLE)
        column.addSpacing(Space.APART)
        column.addWidget(self._heading)
        self._recent = QVBoxLayout()
        self._recent.setSpacing(0)
        column.addLayout(self._recent)
        column.addStretch(3)
        self.show_recent(())

    def show_recent(self, folders: Sequence[str]) -> None:
        """List the casebooks opened before, the last one first."""
        while (item := self._recent.takeAt(0)) is not None:
            if (button := item.widget()) is not None:
                button.deleteLater()
        self._heading.setVisible(bool(folders))
        for folder in folders:
            self._recent.addWidget(self._recent_button(Path(folder)))

    def _recent_button(self, folder: Path) -> QPushButton:
        words = _("{name}   in {place}").format(name=folder.name, place=folder.parent)
        button = quiet_button(words.replace("&", "&&"), self._choose_recent)
        button.setProperty("folder", str(folder))
        return button

    def _choose_recent(self) -> None:
        self.folder_chosen.emit(Path(self.sender().property("folder")))

    def begin(self) -> None:
        """Put the cursor on the casebook opened last, or on the demo where there is none."""
        newest = self._recent.itemAt(0)
        button = None if newest is None else newest.widget()
        (button or self.demo).setFocus(Qt.FocusReason.OtherFocusReason)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        button = self.focusWidget()
        if event.key() in _ENTER and isinstance(button, QPushButton):
            button.click()
        else:
            super().keyPressEvent(event)

    def choose(self) -> None:
        """Ask for the folder of a casebook."""
        folder = QFileDialog.getExistingDirectory(self, _("Open the folder of a casebook"))
        if folder:
            self.folder_chosen.emit(Path(folder))


def _what_it_is() -> str:
    return _(
        "Who can train, who is likely back when, and why. Record injuries and tests, move "
        "athletes up when agreed criteria are met, and hand the coach one page. Everything "
        "stays on this computer, behind your passphrase; no internet is needed."
    )


def _choices(*choices: tuple[QPushButton, str]) -> QGridLayout:
    """Return the buttons below each other, each with its sentence beside it."""
    grid = QGridLayout()
    grid.setHorizontalSpacing(Space.APART)
    grid.setVerticalSpacing(Space.NEAR)
    for line, (button, words) in enumerate(choices):
        button.setAccessibleDescription(words)
        grid.addWidget(button, line, 0)
        said = text(words)
        said.setWordWrap(True)
        grid.addWidget(said, line, 1)
    grid.setColumnStretch(1, 1)
    return grid
