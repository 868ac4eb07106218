"""What a passer-by sees of After training: nothing of anybody."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import plain_button
from teamrehab.language import _


class Curtain(QWidget):
    """Stands in place of rows and lines; ``uncover_asked`` follows its button."""

    uncover_asked = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.uncover = plain_button(_("Uncover (F8)"), self.uncover_asked.emit)
        self.setFocusProxy(self.uncover)
        column = QVBoxLayout(self)
        column.setSpacing(Space.NEAR)
        column.addStretch(1)
        middle = Qt.AlignmentFlag.AlignHCenter
        column.addWidget(text(_("Covered for a passer-by"), Type.TITLE), 0, middle)
        words = _("What is typed and not saved is kept. Saving goes on.")
        column.addWidget(text(words), 0, middle)
        column.addWidget(self.uncover, 0, middle)
        column.addStretch(2)
