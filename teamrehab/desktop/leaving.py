"""Asked before what was typed is left behind; keeping on typing is the default."""

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget
from typing_extensions import override

from teamrehab.language import _


@dataclass(frozen=True, slots=True)
class Unsaved:
    """Something typed and not saved: what, and of whom ("" where nobody was chosen).

    ``kept``: it stands in the casebook as a draft and is offered again.
    """

    what: str
    whose: str = ""
    kept: bool = False

    @override
    def __str__(self) -> str:
        """Return it as a line to read."""
        if not self.whose:
            return self.what
        return _("{what}: {whose}").format(what=self.what, whose=self.whose)


class Leaving(QMessageBox):
    """``left`` says afterwards whether a person lets go of what was typed.

    No bare letter leaves: only the button itself, which no key goes to by itself.
    """

    def __init__(self, parent: QWidget, unsaved: Iterable[Unsaved] = ()) -> None:
        super().__init__(parent)
        found = tuple(unsaved)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setText(_("What you typed is not saved yet."))
        self.setInformativeText("\n\n".join(_paragraphs(found)))
        lost = not found or not all(one.kept for one in found)
        self.keep = self.addButton(_("&Keep typing"), QMessageBox.ButtonRole.RejectRole)
        self.leave = self.addButton(
            _("Leave without saving") if lost else _("Leave, the drafts are kept"),
            QMessageBox.ButtonRole.DestructiveRole,
        )
        self.setDefaultButton(self.keep)
        self.setEscapeButton(self.keep)

    @property
    def left(self) -> bool:
        """Return whether the answer was to leave."""
        return self.clickedButton() is self.leave


def _paragraphs(unsaved: tuple[Unsaved, ...]) -> list[str]:
    """Return what would be lost and what is kept, each with its sentence first."""
    told = []
    for kept, sentence in (
        (False, _("Lost if you leave:")),
        (True, _("Kept as drafts on this computer, and offered again next time:")),
    ):
        lines = [str(one) for one in unsaved if one.kept is kept]
        if lines:
            told.append("\n".join((sentence, *lines)))
    return told
