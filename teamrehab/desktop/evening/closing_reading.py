"""The end of an evening worked out beside the window: every line rehearses a coach's sheet."""

from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from teamrehab.desktop.background import Workers
from teamrehab.desktop.evening.closing_work import ClosingWork
from teamrehab.desktop.session import Session
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import Squad, Standing
from teamrehab.reports.closing import EveningCount, Proposed
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.records import Casebook


class ClosingReading(QObject):
    """``found`` carries proposals and count of the newest board, ``signed`` the signatures.

    ``squad`` is the one the proposals found last were made from: what a person looks at.
    """

    found = Signal(object, object)
    signed = Signal(object)

    def __init__(self, session: Session, work: ClosingWork, parent: QObject) -> None:
        super().__init__(parent)
        self._session, self._work, self._asked = session, work, 0
        self.squad: Squad | None = None
        self._workers = Workers(1, "closing", self)
        session.closed.connect(self._workers.finish)

    def read(self, board: Board, day: date) -> None:
        """Work an evening out; what was asked before is overtaken."""
        self._asked += 1
        if self._session.is_open:
            work = partial(self._work.read, board, day)
            tell = partial(self._tell, self._asked, board.squad)
            self._workers.ask(work, tell, self._session.failed.emit)
            self._session.ask(partial(_signatures, day=day), self._tell_signed)

    def _tell(
        self, asked: int, squad: Squad, end: tuple[tuple[Proposed, ...], EveningCount]
    ) -> None:
        if asked == self._asked:
            self.squad = squad
            self.found.emit(*end)

    def _tell_signed(self, signed: tuple[Standing[EveningSigned], ...]) -> None:
        self.signed.emit(signed)


def _signatures(casebook: "Casebook", day: date) -> tuple[Standing[EveningSigned], ...]:
    return tuple(fact for fact in casebook.all_of(EveningSigned) if fact.value.on == day)
