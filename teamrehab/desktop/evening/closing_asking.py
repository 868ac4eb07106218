"""The forms over the closing page, opened and followed until they are noted."""

from datetime import date
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from teamrehab.desktop.athlete.asking import Asking
from teamrehab.desktop.athlete.desk import Asked
from teamrehab.desktop.entry.dialog import FormDialog
from teamrehab.desktop.evening import closing_forms
from teamrehab.desktop.session import Session
from teamrehab.domain.plausibility import Implausible, check
from teamrehab.reports.closing import Proposed
from teamrehab.tasks.board import Board


class ClosingAsking(QObject):
    """Opens a form; ``noted`` follows once it is in the casebook."""

    noted = Signal()

    def __init__(self, session: Session, page: QWidget) -> None:
        super().__init__(page)
        self._session = session
        self._asking = Asking(session, page)

    @property
    def dialog(self) -> FormDialog | None:
        """Return the form that is open."""
        return self._asking.dialog

    @property
    def has_unsaved(self) -> bool:
        """Return whether something is typed that is not in the casebook yet."""
        return self._asking.has_unsaved

    def decide(self, proposed: Proposed, board: Board, day: date) -> bool:
        """Open the form in which a person decides about a proposal; False where none fits."""
        desk = closing_forms.desk_of(proposed, board, self._session.about, day)
        asked = closing_forms.form_about(proposed, desk) if desk else None
        if desk is None or asked is None:
            return False
        self._asking.ask(asked, desk)
        self._follow()
        return True

    def complain(self, board: Board, day: date) -> None:
        """Open the form for a new complaint of anybody."""
        self._open(closing_forms.complaint(board, day))

    def ill(self, board: Board, day: date) -> None:
        """Open the form for an illness of anybody."""
        self._open(closing_forms.illness(board, day))

    def _open(self, asked: Asked) -> None:
        self._asking.open(asked, about="", case_id="", judge=self._judge)
        self._follow()

    def _follow(self) -> None:
        if self._asking.dialog is not None:
            self._asking.dialog.accepted.connect(self.noted)

    def _judge(self, values: tuple[Any, ...]) -> tuple[Implausible, ...]:
        today = self._session.about.clock.today()
        return tuple(one for value in values for one in check(value, today))
