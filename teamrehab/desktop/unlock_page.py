"""Unlock a casebook: who are you, and the passphrase."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import main_button, quiet_button
from teamrehab.desktop.forms import ChoiceField, form_layout, row, secret_field
from teamrehab.desktop.reading_column import reading_column
from teamrehab.language import _


class UnlockPage(QWidget):
    """Asks for one passphrase. ``unlocked(person, passphrase)`` carries what was typed."""

    unlocked = Signal(str, str)
    back_asked = Signal()

    def __init__(
        self, folder: Path, people: Sequence[str], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.folder = folder
        self.person = ChoiceField([(one, one) for one in people], next(iter(people), None))
        self.passphrase = secret_field()
        column = reading_column(self)
        column.addWidget(text(folder.name, Type.DISPLAY))
        column.addWidget(text(_("in {place}").format(place=folder.parent), Type.SMALL))
        column.addSpacing(Space.APART)
        inner = QWidget()
        form = form_layout(inner)
        row(form, _("&Who are you"), self.person)
        self.field = row(form, _("&Passphrase"), self.passphrase)
        column.addWidget(inner)
        column.addLayout(self._buttons())
        column.addStretch(1)
        self.passphrase.returnPressed.connect(self._unlock)

    def begin(self) -> None:
        """Put the cursor where the passphrase goes."""
        self.passphrase.setFocus(Qt.FocusReason.OtherFocusReason)

    def refuse(self, sentence: str) -> None:
        """Say why it did not open; the passphrase is typed anew."""
        self.passphrase.clear()
        self.field.complain(sentence)
        self.begin()

    def _buttons(self) -> QHBoxLayout:
        line = QHBoxLayout()
        self.unlock = main_button(_("&Unlock"), self._unlock)
        line.addWidget(self.unlock)
        line.addWidget(quiet_button(_("Another &casebook"), self.back_asked.emit))
        line.addStretch(1)
        return line

    def _unlock(self) -> None:
        self.field.complain("")
        passphrase = self.passphrase.text()
        self.passphrase.clear()  # nothing secret stays on a page that is out of sight
        if passphrase:
            self.unlocked.emit(self.person.value or "", passphrase)
        else:
            self.refuse(_("Type the passphrase."))
