"""An entry typed in the wrong row goes to another athlete in one correcting step."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal
from shiboken6 import isValid

from teamrehab.desktop.evening.drafts import Where
from teamrehab.desktop.evening.evening_work import EveningWork
from teamrehab.desktop.evening.move_part import MovePart, name_words
from teamrehab.desktop.evening.row import EveningRow
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import is_known
from teamrehab.domain.history import History
from teamrehab.language import _
from teamrehab.reports.evening import EveningLine
from teamrehab.reports.wording import day_words
from teamrehab.tasks.moving import arrives_words, stays_words, together

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


class Moving(QObject):
    """Asks in the row for the athlete, then moves what was saved in it; ``told`` says so."""

    told = Signal(str)

    def __init__(
        self,
        session: Session,
        work: EveningWork,
        row_at: Callable[[Where], EveningRow | None],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._session, self._work, self._row_at = session, work, row_at
        self._row: EveningRow | None = None
        self.part: MovePart | None = None

    def ask(self, row: EveningRow, rows: Sequence[EveningRow]) -> None:
        """Ask in a saved row whom its entry belongs to."""
        self._leave()
        entry = row.entry
        if entry.noted is None or entry.is_typed:
            row.say(_("Only a saved entry can be moved; Esc empties a row that is not saved."))
            return
        others = [other.entry.tonight.line for other in rows if other is not row]
        self._row, self.part = row, MovePart(entry.tonight.line, others)
        self.part.chosen.connect(self._move)
        self.part.given_up.connect(self._give_up)
        row.column.addWidget(self.part)
        self.part.setFocus(Qt.FocusReason.OtherFocusReason)

    def _move(self, to: EveningLine) -> None:
        row = self._row
        self._give_up()
        if row is None or row.entry.noted is None:
            return
        history = row.entry.tonight.line.history
        moving = together(history, row.entry.noted)
        ids = [fact.fact_id for fact in moving]
        work = partial(_moved, self._work, ids, to.history)
        follows = (stays_words(moving, history), arrives_words(moving, to.history))
        told = partial(self._moved, row.where, name_words(to), " ".join(filter(None, follows)))
        failed = partial(self._not_moved, row.where, row.entry.tonight.line.surname)
        said = _("moving an entry to {name}").format(name=name_words(to))
        self._session.write(work, row.case_id, told, failed, said)

    def _moved(self, where: Where, name: str, follows: str, _receipt: object) -> None:
        row = self._row_at(where)
        if row is not None:
            row.say(follows)
        moved = _("Moved to {name}.").format(name=name)
        self.told.emit(moved if row is not None or not follows else f"{moved} {follows}")

    def _not_moved(self, where: Where, surname: str, error: Exception) -> None:
        if not is_known(error):
            self._session.failed.emit(error)
        why = str(error) if is_known(error) else _("Nothing was moved. Try again.")
        row = self._row_at(where)
        if row is not None:
            row.say(why)
        else:
            words = _("The entry of {name} of {day} was not moved: {why}")
            self.told.emit(words.format(name=surname, day=day_words(where[0]), why=why))

    def _give_up(self) -> None:
        row = self._row
        self._leave()
        if row is not None:
            row.setFocus(Qt.FocusReason.OtherFocusReason)

    def _leave(self) -> None:
        part, self.part, self._row = self.part, None, None
        if part is not None and isValid(part):  # else it went with its row
            part.hide()
            part.deleteLater()


def _moved(
    work: EveningWork, fact_ids: Sequence[str], to: History, casebook: "Casebook"
) -> "Receipt":
    return work.move(casebook, fact_ids, to)
