"""One key from a stop to what the coach reads: the availability form over the page."""

from collections.abc import Mapping

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.acts import asked_for
from teamrehab.desktop.athlete.asking import Asking
from teamrehab.desktop.entry.dialog import FormDialog
from teamrehab.desktop.evening.desks import desk_on
from teamrehab.desktop.evening.stop_form import stop_form
from teamrehab.desktop.leaving import Unsaved
from teamrehab.desktop.session import Session
from teamrehab.language import _, counted
from teamrehab.reports.stopped import Unstated
from teamrehab.tasks.board import Board

_NAMED = 3
"""As many names as one line has room for."""


class Stating(QObject):
    """Knows who is stopped and not stated yet, and opens the form for one of them.

    The page sets with every board who is ``unstated``, and who is ``stopped``: the case and
    the surname by athlete.
    """

    def __init__(self, session: Session, page: QWidget) -> None:
        super().__init__(page)
        self._session, self._asking = session, Asking(session, page)
        self._saved: list[str] = []
        self.unstated: tuple[Unstated, ...] = ()
        self.stopped: Mapping[str, tuple[str, str]] = {}

    @property
    def dialog(self) -> FormDialog | None:
        """Return the form that is open."""
        return self._asking.dialog

    @property
    def unsaved(self) -> tuple[Unsaved, ...]:
        """Return what is typed in the form and not saved."""
        dialog = self.dialog
        return () if dialog is None else dialog.unsaved

    def coach_reads(self, athlete_id: str) -> str:
        """Return what the coach still reads of an athlete who is stopped, "" of the others."""
        return next((u.coach for u in self.unstated if u.athlete_id == athlete_id), "")

    def was_saved(self, athlete_id: str) -> None:
        """Remember whose row was saved last: the key is for them, if they are stopped now."""
        self._saved.append(athlete_id)

    def next_one(self, athlete_id: str) -> Unstated | None:
        """Return whom the key is for while the cursor is on ``athlete_id``.

        The athlete of the row if nothing is stated, else who was saved last, else the first.
        """
        waiting = {one.athlete_id: one for one in self.unstated}
        found = (waiting[who] for who in (athlete_id, *self._saved[::-1]) if who in waiting)
        return next(found, next(iter(self.unstated), None))

    def words(self, athlete_id: str) -> str:
        """Return who is stopped and what the coach reads of them, and for whom the key is."""
        one, last = self.next_one(athlete_id), self._last_stopped
        if one is None and last is None:
            return ""
        if one is None:
            said = _("{name} is stopped, and that is stated. Ctrl+B: availability of {name}.")
            return said.format(name=self.stopped[last or ""][1])
        told = [
            _("{name} ({coach})").format(name=u.surname, coach=u.coach) for u in self.unstated
        ]
        more = len(told) - _NAMED
        if more > 0:
            told[_NAMED:] = [counted("{count} more", "{count} more", more)]
        said = _("Stopped, not stated for the coach: {names}. Ctrl+B: availability of {name}.")
        return said.format(names="; ".join(told), name=one.surname)

    def ask(self, board: Board, athlete_id: str, case_id: str, *, entered: bool) -> bool:
        """Open the form for who is stopped, else for the case of the row that is entered.

        False where there is neither: a row nobody typed in is not meant by the key.
        """
        one, last = self.next_one(athlete_id), self._last_stopped
        if one is not None:
            athlete_id, case_id = one.athlete_id, one.case_id
        elif last is not None:
            athlete_id, case_id = last, self.stopped[last][0]
        elif not entered:
            return False
        desk = desk_on(board, self._session.about, athlete_id, case_id)
        if desk is not None and self.dialog is None:
            asked = asked_for(Act.AVAILABILITY, desk) if one is None else stop_form(desk)
            self._asking.ask(asked, desk)
        return True

    @property
    def _last_stopped(self) -> str | None:
        """Return who was saved last, if that athlete is stopped."""
        return next((who for who in self._saved[-1:] if who in self.stopped), None)


def nobody_words() -> str:
    """Return that the key has nobody to be for."""
    return _("Nobody is stopped without a statement. F2 shows the athlete's availability.")
