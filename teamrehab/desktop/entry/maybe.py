"""A field that counts only when its box is ticked."""

from typing import Generic, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QWidget

from teamrehab.desktop.entry.day_field import DayField, MomentField
from teamrehab.language import _

W = TypeVar("W", DayField, MomentField)


class Maybe(QWidget, Generic[W]):
    """A tick box before a day or a moment; ``field`` counts while ``ticked``."""

    edited = Signal()

    def __init__(self, field: W, words: str = "", *, ticked: bool = False) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # or no underlined letter leads here
        self.field: W = field
        self.box = QCheckBox(words or _("set"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.box)
        layout.addWidget(field)
        layout.addStretch(1)
        self.box.setChecked(ticked)
        field.setEnabled(ticked)
        self.box.toggled.connect(field.setEnabled)
        self.box.toggled.connect(self._tell)
        field.dateTimeChanged.connect(self._tell)
        self.setFocusProxy(self.box)

    @property
    def ticked(self) -> bool:
        """Return whether the field counts."""
        return self.box.isChecked()

    def name_parts(self, what: str) -> None:
        """Name box and field for a screen reader."""
        self.box.setAccessibleName(_("{what}: {set}").format(what=what, set=self.box.text()))
        self.field.setAccessibleName(what)

    def _tell(self) -> None:
        self.edited.emit()
