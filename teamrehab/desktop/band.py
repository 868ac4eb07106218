"""The band at the top of the open casebook: its places, and the coach's sheet."""

from enum import IntEnum

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QHBoxLayout, QPushButton, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import plain_button
from teamrehab.language import _


class Place(IntEnum):
    """The places there are, in the order they stand in the band."""

    SQUAD = 0
    AFTER_TRAINING = 1
    CASEBOOK = 2


class Band(QWidget):
    """``chosen`` carries the place a person pressed."""

    chosen = Signal(object)
    sheet_asked = Signal()

    def __init__(self, team: str) -> None:
        super().__init__()
        self._places = QButtonGroup(self)
        line = QHBoxLayout(self)
        line.setContentsMargins(Space.APART, 0, Space.APART, 0)
        line.addWidget(text(team, Type.LEAD))
        line.addSpacing(Space.WIDE)
        for place, words in _words().items():
            line.addWidget(self._button(place, words))
        line.addStretch(1)
        line.addWidget(plain_button(_("Coach's sheet (Ctrl+P)"), self.sheet_asked.emit))
        self._places.idClicked.connect(self._tell)
        self.show_place(Place.SQUAD)

    def show_place(self, place: Place) -> None:
        """Mark the place that is shown."""
        self.button(place).setChecked(True)

    def button(self, place: Place) -> QAbstractButton:
        """Return the button of a place."""
        return self._places.button(place)

    def _button(self, place: Place, words: str) -> QPushButton:
        button = QPushButton(words)
        button.setProperty("place", True)  # noqa: FBT003  Qt's own signature
        button.setCheckable(True)
        self._places.addButton(button, place)
        return button

    def _tell(self, place: int) -> None:
        self.chosen.emit(Place(place))


def _words() -> dict[Place, str]:
    return {
        Place.SQUAD: _("&Squad"),
        Place.AFTER_TRAINING: _("&After training"),
        Place.CASEBOOK: _("&Casebook"),
    }
