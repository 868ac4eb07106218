"""The full check of a casebook, once a week, beside the saves: nobody waits for it."""

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from teamrehab.desktop.background import Workers
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import is_known

if TYPE_CHECKING:
    from teamrehab.records import Casebook, CasebookCheck

Check = Callable[[], "CasebookCheck | None"]


class WeeklyCheck(QObject):
    """``troubled`` carries what a check found, in sentences; a sound casebook is not told."""

    troubled = Signal(str)

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._workers = Workers(1, "check", self)

    def begin(self) -> None:
        """Check the casebook if its last check is a week old."""
        if self._session.is_open:
            today = self._session.about.clock.today()
            self._session.ask(partial(_check_if_due, today=today), self._run)

    def _run(self, check: "Check | None") -> None:
        if check is not None:
            self._workers.ask(check, self._found, self._failed)

    def _found(self, found: "CasebookCheck | None") -> None:
        if found is None:  # cut short by closing: next time
            return
        self._session.ask(partial(_remember, found=found), self._remembered)
        if found.troubles:
            self.troubled.emit("\n".join(found.troubles))

    def _remembered(self, _nothing: None) -> None:
        pass

    def _failed(self, error: Exception) -> None:
        if is_known(error):
            self.troubled.emit(str(error))
        else:
            self._session.failed.emit(error)


def _check_if_due(casebook: "Casebook", today: date) -> "Check | None":
    return casebook.background_check if casebook.check_due(today) else None


def _remember(casebook: "Casebook", found: "CasebookCheck") -> None:
    casebook.remember_check(found)
