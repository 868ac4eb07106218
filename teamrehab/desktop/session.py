"""One casebook while it is open: its own thread, and the signals that tell the pages."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, Signal

from teamrehab.desktop.background import Workers, deliver
from teamrehab.desktop.last_saves import LastSaves
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.days import Clock

if TYPE_CHECKING:
    from teamrehab.records import Casebook

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What the window may know of the open casebook without asking it."""

    folder: Path
    team: Team
    me: StaffMember
    protected: bool
    clock: Clock
    last_backup: datetime | None


class Session(QObject):
    """The open casebook. No other thread than the session's own ever touches it.

    ``noted(case_id)`` follows every save; ``board_changed`` says that the squad must be
    worked out again (see ``board.py``); ``failed(error)`` carries an error that no caller
    took. ``opened`` and ``closed`` begin and end it.
    """

    opened = Signal()
    noted = Signal(str)
    board_changed = Signal()
    failed = Signal(object)
    closed = Signal()

    def __init__(self, unlock: Callable[[], "Casebook"], parent: QObject | None = None) -> None:
        """Open the casebook on the session's thread; ``opened`` or ``failed`` will follow."""
        super().__init__(parent)
        self._casebook: Casebook | None = None
        self._about: About | None = None
        self._closing = False
        self.last_saves = LastSaves(self)
        self._cancelled: set[str] = set()  # for the casebook's thread only
        self._worker = Workers(1, "casebook", self)
        self._worker.ask(lambda: self._unlock(unlock), self._opened, self._not_opened)

    @property
    def about(self) -> About:
        """Return what is known of the casebook; to be asked after ``opened`` only."""
        if self._about is None:
            raise RuntimeError("asked before the casebook was open")
        return self._about

    @property
    def is_open(self) -> bool:
        """Return whether the casebook can be asked."""
        return self._about is not None and not self._closing

    def ask(
        self,
        function: Callable[["Casebook"], T],
        then: Callable[[T], None],
        failed: Callable[[Exception], None] | None = None,
    ) -> None:
        """Run ``function(casebook)`` on the casebook's thread and give ``then`` its answer.

        ``then`` and ``failed`` run on the window's thread; give bound methods of the widget
        that asks, so that an answer for a widget that is gone is dropped. Without ``failed``
        the error goes to the signal of that name. After closing nothing is asked.
        """
        if not self._closing:
            work = lambda: function(self._ready())  # noqa: E731
            self._worker.ask(work, then, failed or self.failed.emit)

    def write(
        self,
        function: Callable[["Casebook"], T],
        case_id: str,
        then: Callable[[T], None] | None = None,
        failed: Callable[[Exception], None] | None = None,
        said: str = "",
    ) -> None:
        """Run a function that saves; then tell everyone that ``case_id`` has news.

        ``case_id`` is "" where no single case is concerned (an import, an absence). What
        answers with a receipt can be taken back; ``said`` words it, without anything clinical.
        """
        from teamrehab.records import Receipt

        def told(answer: T) -> None:
            if isinstance(answer, Receipt):
                self.last_saves.add(answer, case_id, said)
            try:
                deliver(then, answer)
            finally:  # it is saved: the other pages must show it, whatever this one does
                self.noted.emit(case_id)
                self.board_changed.emit()

        self.ask(function, told, failed)

    def undo(
        self,
        then: Callable[[tuple[str, str]], None],
        failed: Callable[[Exception], None] | None = None,
    ) -> None:
        """Take the newest save back by a correcting entry.

        ``then`` gets its words, and those about what stays ("" where nothing does). A save
        that cannot be taken back is forgotten, unless the disk refused. A save under way is
        waited for: it is the newest.
        """
        self.ask(_all_before, lambda _done: self._take_back(then, failed))

    def _take_back(
        self,
        then: Callable[[tuple[str, str]], None],
        failed: Callable[[Exception], None] | None,
    ) -> None:
        from teamrehab.records import NotSavedError
        from teamrehab.tasks.undoing import stays_words, undo

        saved = self.last_saves.take()
        if saved is None:
            return

        def work(book: "Casebook") -> str:
            stays = stays_words(book, saved.receipt)
            back = undo(book, saved.receipt, self._cancelled)
            self._cancelled |= {*saved.receipt.fact_ids, *back.fact_ids}
            return stays

        def told(stays: str) -> None:
            self.noted.emit(saved.case_id)
            self.board_changed.emit()
            deliver(then, (saved.words, stays))  # last: what it says replaces "Saved"

        def refused(error: Exception) -> None:
            if isinstance(error, NotSavedError):
                self.last_saves.put_back(saved)
            (failed or self.failed.emit)(error)

        self.ask(work, told, refused)

    def close(self) -> None:
        """Finish what was asked, close the casebook (verified backup), say ``closed``."""
        if not self._closing:
            self._closing = True
            self._worker.ask(self._shut, self._closed, self._not_closed)

    def finish(self) -> None:
        """Close and wait for it, when the program ends."""
        self.close()
        self._worker.finish()

    def _unlock(self, unlock: Callable[[], "Casebook"]) -> About:
        book = unlock()
        self._casebook = book
        return About(
            folder=book.folder,
            team=book.team,
            me=book.me,
            protected=book.protected,
            clock=book.clock,
            last_backup=book.last_backup,
        )

    def _ready(self) -> "Casebook":
        if self._casebook is None:
            raise RuntimeError("asked of a casebook that did not open")
        return self._casebook

    def _shut(self) -> None:
        book, self._casebook = self._casebook, None
        if book is not None:
            book.close()

    def _opened(self, about: About) -> None:
        self._about = about
        self.opened.emit()

    def _not_opened(self, error: Exception) -> None:
        self._closing = True
        self._worker.finish()
        self.failed.emit(error)

    def _closed(self, _nothing: None) -> None:
        self._worker.finish()
        self.closed.emit()

    def _not_closed(self, error: Exception) -> None:
        self.failed.emit(error)
        self._worker.finish()
        self.closed.emit()


def _all_before(_casebook: "Casebook") -> None:
    """Answer once everything asked before is done."""
