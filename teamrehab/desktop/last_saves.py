"""The saves of this sitting, newest last: what "Undo" takes back."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from teamrehab.language import _

if TYPE_CHECKING:
    from teamrehab.records import Receipt

_AS_MANY = 20
"""Further back than anybody remembers what they did."""


@dataclass(frozen=True, slots=True)
class Saved:
    """One save: its receipt, the case it was news of, and words without anything clinical."""

    receipt: "Receipt"
    case_id: str
    words: str


class LastSaves(QObject):
    """A short memory; ``changed`` carries the words of the newest save, "" without one."""

    changed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._saves: list[Saved] = []

    def add(self, receipt: "Receipt", case_id: str, words: str) -> None:
        """Remember a save."""
        self.put_back(Saved(receipt, case_id, words or _("the last entry")))

    def take(self) -> Saved | None:
        """Return the newest save and forget it, so that no second key press takes it again."""
        saved = self._saves.pop() if self._saves else None
        self._tell()
        return saved

    def put_back(self, saved: Saved) -> None:
        """Remember as the newest one a save that the disk kept from being taken back."""
        self._saves = [*self._saves, saved][-_AS_MANY:]
        self._tell()

    def _tell(self) -> None:
        self.changed.emit(self._saves[-1].words if self._saves else "")
