"""Lines of the morning on their way to the disk, and what becomes of them with the answer."""

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import QObject, Signal

from teamrehab.desktop.evening.drafts import Drafts, Where
from teamrehab.desktop.evening.morning_row import MorningRow
from teamrehab.desktop.evening.morning_typed import MorningDraft
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import is_known
from teamrehab.domain.history import History
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt, ReplacedMeanwhileError
from teamrehab.reports.closing import Proposed
from teamrehab.reports.wording import day_words
from teamrehab.tasks.closing import accept
from teamrehab.tasks.evening import save_row


class MorningSaving(QObject):
    """Saves lines, and takes moves back; ``told`` is for the status line.

    An answer looks its line up by morning and case: ``row_at`` returns what is shown there.
    """

    told = Signal(str)

    def __init__(
        self,
        session: Session,
        row_at: Callable[[Where], MorningRow | None],
        drafts: Drafts[MorningDraft],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._session, self._row_at, self._drafts = session, row_at, drafts
        self._sent: dict[Where, MorningDraft] = {}

    def save(self, row: MorningRow, *values: Any) -> None:
        """Send what is typed in a line on its way, with the four answers if there are any."""
        draft = row.draft
        if draft is None:
            return
        self._sent[row.where] = draft
        row.wait()
        history, place = row.line.history, self._drafts.place_of(row.where)
        surname = history.athlete.surname
        self._session.write(
            partial(_save, history=history, values=values, place=place),
            row.line.case_id,
            partial(self._kept, row.where, surname),
            partial(self._not_saved, row.where, surname),
            said=_("the morning of {name}").format(name=surname),
        )

    def take_back(self, row: MorningRow, proposed: Proposed) -> None:
        """Take a move up back that a person confirmed by name."""
        surname = row.line.history.athlete.surname
        self._session.write(
            partial(_accept, history=row.line.history, proposed=proposed),
            row.line.case_id,
            self._taken_back,
            partial(self._not_saved, row.where, surname),
            said=_("the move of {name} that was taken back").format(name=surname),
        )

    def show_sent(self, row: MorningRow) -> bool:
        """Show in a line that has just come to the page that it is on its way, if it is."""
        sent = self._sent.get(row.where)
        if sent is not None:
            row.retype(sent)
            row.wait()
        return sent is not None

    def _kept(self, where: Where, surname: str, _receipt: Receipt) -> None:
        self._sent.pop(where, None)
        self._drafts.gone(where)
        self.told.emit(_("The morning of {name} is saved.").format(name=surname))

    def _taken_back(self, _receipt: Receipt) -> None:
        words = _("The move is taken back. Limits and availability stay as they were stated.")
        self.told.emit(words)

    def _not_saved(self, where: Where, surname: str, error: Exception) -> None:
        """Tell why in the line, or in the status line where it is not shown any more."""
        sent, row = self._sent.pop(where, None), self._row_at(where)
        why = str(error) if is_known(error) else _("Nothing was saved. Try again.")
        if row is not None:
            row.not_saved(why)
        if row is None or not is_known(error):
            self._session.failed.emit(error)
        if sent is not None:
            self._drafts.put(where, sent)
        words = _("The morning of {name} of {day} was not saved: {why}")
        self.told.emit(words.format(name=surname, day=day_words(where[0]), why=why))
        if isinstance(error, ReplacedMeanwhileError):
            self._session.board_changed.emit()  # somebody else's entry is to be seen at once


def _save(casebook: Casebook, history: History, values: tuple[Any, ...], place: str) -> Receipt:
    return save_row(casebook, history, values, drops_draft=place)


def _accept(casebook: Casebook, history: History, proposed: Proposed) -> Receipt:
    return accept(casebook, history, proposed, proposed.name)
