"""Rows on their way to the disk, and what becomes of a row when the answer comes."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from teamrehab.desktop.entry.typed import TypedError
from teamrehab.desktop.evening.drafts import Drafts, Where
from teamrehab.desktop.evening.evening_work import EveningWork, RowToSave
from teamrehab.desktop.evening.row import EveningRow
from teamrehab.desktop.evening.typed import Draft
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import is_known
from teamrehab.language import _
from teamrehab.records import ReplacedMeanwhileError
from teamrehab.reports.wording import day_words, hour_words
from teamrehab.tasks.evening import SavedTwiceError

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


@dataclass(frozen=True, slots=True)
class _Sent:
    """A row on its way: as it was typed, and whose it is."""

    draft: Draft
    surname: str


class Saving(QObject):
    """Saves rows. An answer looks its row up by evening and case, whatever is shown by then.

    ``row_at`` returns the row shown there; the rows themselves are not held here, so that they
    go with their page.

    ``told`` is for the status line, ``answered`` follows every answer.
    """

    told = Signal(str)
    answered = Signal()

    def __init__(
        self,
        session: Session,
        work: EveningWork,
        row_at: Callable[[Where], EveningRow | None],
        drafts: Drafts[Draft],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._session, self._work = session, work
        self._row_at, self._drafts = row_at, drafts
        self._sent: dict[Where, _Sent] = {}

    def save(self, row: EveningRow) -> bool:
        """Send a row on its way; False where it cannot be read, as it then says itself."""
        entry = row.entry
        try:
            values = row.values()
        except TypedError as trouble:
            row.say(str(trouble.found[0]))
            return False
        draft = row.draft
        if draft is None:
            return False
        surname = entry.tonight.line.surname
        self._sent[row.where] = _Sent(draft, surname)
        self._drafts.put(row.where, draft)  # before the save: a refusal loses no words
        row.saving()
        to_save = RowToSave(
            history=entry.tonight.line.history,
            values=values,
            replaces=entry.replaces,
            again=row.twice,
            draft=self._drafts.place_of(row.where),
        )
        self._session.write(
            partial(_saved, self._work, to_save),
            row.case_id,
            partial(self._kept, row.where),
            partial(self._refused, row.where),
            said=_("the evening of {name}").format(name=surname),
        )
        return True

    def show_sent(self, row: EveningRow) -> bool:
        """Show in a row that has just come to the page that it is on its way, if it is."""
        sent = self._sent.get(row.where)
        if sent is not None:
            row.retype(sent.draft)
            row.saving()
        return sent is not None

    def _kept(self, where: Where, _receipt: object) -> None:
        self._sent.pop(where)
        row = self._row_at(where)
        if row is not None:
            row.was_kept(hour_words(self._session.about.clock.local()))
        self._drafts.gone(where)
        self.answered.emit()

    def _refused(self, where: Where, error: Exception) -> None:
        sent, row = self._sent.pop(where), self._row_at(where)
        if not is_known(error):
            self._session.failed.emit(error)
        why = str(error) if is_known(error) else _("Nothing was saved. Try again.")
        if row is not None:
            _tell_in(row, error, why)
        self._drafts.put(where, sent.draft)
        if isinstance(error, ReplacedMeanwhileError):
            self._session.board_changed.emit()  # somebody else's entry is to be seen at once
        self.told.emit(_not_saved_words(sent.surname, where, why, shown=row is not None))
        self.answered.emit()


def _tell_in(row: EveningRow, error: Exception, why: str) -> None:
    if isinstance(error, SavedTwiceError):
        row.twice = True
        why = _("{why} Enter again notes a second session.").format(why=why)
    row.was_refused(why)


def _not_saved_words(surname: str, where: Where, why: str, *, shown: bool) -> str:
    """Return whose row was not saved; why and of which evening, where no row says it."""
    if shown:
        return _("The row of {name} was not saved.").format(name=surname)
    words = _("The row of {name} of {day} was not saved and is still typed there: {why}")
    return words.format(name=surname, day=day_words(where[0]), why=why)


def _saved(work: EveningWork, row: RowToSave, casebook: "Casebook") -> "Receipt":
    return work.save(casebook, row)
