"""Several open cases of one athlete, one of them shown."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.athlete.case_line import case_words
from teamrehab.domain.history import History
from teamrehab.domain.protocol import InjuryKind


class CaseSwitch(QWidget):
    """One button a case; ``chosen`` carries a case id. Not shown for a single case."""

    chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._cases: tuple[str, ...] = ()
        self._group = QButtonGroup(self)
        self._line = QHBoxLayout(self)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(Space.HAIR)
        self._line.addStretch(1)
        self._group.idClicked.connect(self._tell)

    def show_cases(
        self,
        cases: Sequence[History],
        shown: History | None,
        catalogue: Mapping[str, InjuryKind],
    ) -> None:
        """Offer these cases with ``shown`` as the one on the page."""
        for button in self._group.buttons():
            self._group.removeButton(button)
            self._line.removeWidget(button)
            button.deleteLater()
        self._cases = tuple(history.case.case_id for history in cases)
        for number, history in enumerate(cases):
            self._add(number, case_words(history, catalogue), chosen=history is shown)
        self.setVisible(len(cases) > 1)

    def buttons(self) -> tuple[QPushButton, ...]:
        """Return the buttons in the order of the cases."""
        found = (self._group.button(number) for number in range(len(self._cases)))
        return tuple(button for button in found if isinstance(button, QPushButton))

    def _add(self, number: int, words: str, *, chosen: bool) -> None:
        button = QPushButton(words.replace("&", "&&"))
        button.setCheckable(True)
        button.setProperty("choice", True)  # noqa: FBT003  Qt's own signature
        button.setChecked(chosen)
        self._group.addButton(button, number)
        self._line.insertWidget(number, button)

    def _tell(self, number: int) -> None:
        self.chosen.emit(self._cases[number])
