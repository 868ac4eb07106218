"""Which athletes the table shows, chosen by one of a few words with its count."""

from collections.abc import Callable, Sequence
from enum import Enum

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from teamrehab.desktop.appearance import Space
from teamrehab.domain.availability import Match, Training
from teamrehab.language import _
from teamrehab.reports.findings import SquadRow


class Keep(Enum):
    """The choices, in the order they stand."""

    ALL = "all"
    IN_REHAB = "in rehab"
    WITH_LIMITS = "with limits"
    OUT = "out"
    AVAILABLE = "available"


KEEPS: dict[Keep, Callable[[SquadRow], bool]] = {
    Keep.ALL: lambda _row: True,
    Keep.IN_REHAB: lambda row: bool(row.case_id),
    Keep.WITH_LIMITS: lambda row: row.training is Training.WITH_LIMITS,
    Keep.OUT: lambda row: row.training is Training.NONE,
    Keep.AVAILABLE: lambda row: (row.training, row.match) == (Training.FULL, Match.AVAILABLE),
}


TELLING = frozenset({Keep.IN_REHAB})
"""Choices whose very rows tell something clinical."""


class FilterBar(QWidget):
    """One button a choice, with how many rows it keeps; ``chosen`` follows a press."""

    chosen = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._group = QButtonGroup(self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(Space.HAIR)
        for number, _keep in enumerate(Keep):
            button = QPushButton()
            button.setCheckable(True)
            button.setProperty("choice", True)  # noqa: FBT003  Qt's own signature
            self._group.addButton(button, number)
            layout.addWidget(button)
        layout.addStretch(1)
        self._group.button(0).setChecked(True)
        self._held = Keep.ALL
        self._group.idClicked.connect(self._tell)
        self.count([])

    @property
    def keep(self) -> Keep:
        """Return the choice that holds."""
        return list(Keep)[self._group.checkedId()]

    def button(self, keep: Keep) -> QPushButton:
        """Return the button of a choice."""
        return self._group.button(list(Keep).index(keep))  # type: ignore[return-value]

    def choose(self, keep: Keep) -> None:
        """Choose as a press would."""
        self.button(keep).click()

    def cover(self, covered: bool) -> None:  # noqa: FBT001  a slot of a toggled button
        """Hide the choices that tell; the one that held holds again when uncovered."""
        if covered:
            self._held = self.keep
            if self.keep in TELLING:
                self.choose(Keep.ALL)
        for keep in TELLING:
            self.button(keep).setVisible(not covered)
        if not covered:
            self.choose(self._held)

    def count(self, rows: Sequence[SquadRow]) -> None:
        """Say on each button how many rows it keeps."""
        for keep in Keep:
            count = sum(map(KEEPS[keep], rows))
            words = _("{choice} {count}").format(choice=_words(keep), count=count)
            self.button(keep).setText(words)

    def _tell(self, _number: int) -> None:
        self.chosen.emit()


def _words(keep: Keep) -> str:
    return {
        Keep.ALL: _("&All"),
        Keep.IN_REHAB: _("In &rehab"),
        Keep.WITH_LIMITS: _("With &limits"),
        Keep.OUT: _("&Out"),
        Keep.AVAILABLE: _("A&vailable"),
    }[keep]
