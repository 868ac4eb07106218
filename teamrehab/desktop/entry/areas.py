"""The parts of the body to choose from, each found by the names of its injuries as well."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from typing_extensions import override

from teamrehab.desktop.entry.pick import Candidate, matching
from teamrehab.desktop.forms import ChoiceField
from teamrehab.language import _
from teamrehab.protocols import injury_catalogue

_FORGET_MS = 1_500
"""After such a pause a letter begins a new word."""


def area_candidates(areas: Iterable[str]) -> list[Candidate[str]]:
    """Return the parts of the body in their order, known by their injuries and muscles too."""
    return [Candidate(area, _(area) if area else "", also=_known_as(area)) for area in areas]


class AreaField(ChoiceField[str]):
    """One of the parts of the body of the catalogue, or another that a case already names.

    Letters choose: the beginning of a part of the body, else of an injury or muscle there.
    """

    def __init__(self, areas: Sequence[str], chosen: str | None = None) -> None:
        known = [*areas, *([chosen] if chosen is not None and chosen not in areas else [])]
        self._candidates = area_candidates(known)
        super().__init__([(one.value, one.words) for one in self._candidates], chosen)
        self._typed, self._pause = "", QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_FORGET_MS)
        self._pause.timeout.connect(self._forget)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Search as the list itself does first, then among the injuries."""
        held = event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
        if not event.text().isalpha() or held:
            super().keyPressEvent(event)
            return
        self._typed += event.text()
        self._pause.start()
        found = matching(self._typed, self._candidates)
        begun = any(one.words.casefold().startswith(self._typed.casefold()) for one in found)
        if begun or not found or len(self._typed) == 1:
            super().keyPressEvent(event)
        else:
            self.show_value(found[0].value)
            self.activated.emit(self.currentIndex())

    def _forget(self) -> None:
        self._typed = ""


def _known_as(area: str) -> str:
    kinds = [kind for kind in injury_catalogue().values() if kind.area == area and area]
    names = [_(kind.name) for kind in kinds]
    return " ".join((*names, *(_(muscle.name) for kind in kinds for muscle in kind.muscles)))
