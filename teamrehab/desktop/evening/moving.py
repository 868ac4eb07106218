"""An entry typed in the wrong row goes to another athlete in one correcting step."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Qt, Signal

from teamrehab.desktop.evening.evening_work import EveningWork
from teamrehab.desktop.evening.move_part import MovePart, name_words
from teamrehab.desktop.evening.row import EveningRow
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import is_known
from teamrehab.domain.history import History, Standing
from teamrehab.language import _
from teamrehab.reports.evening import EveningLine
from teamrehab.tasks.evening import stays_words
from teamrehab.tasks.row_checks import MOVABLE

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


class Moving(QObject):
    """Asks in the row for the athlete, then moves what was saved in it; ``told`` says so."""

    told = Signal(str)

    def __init__(self, session: Session, work: EveningWork, parent: QObject) -> None:
        super().__init__(parent)
        self._session, self._work = session, work
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
        moving = saved_together(row)
        ids = [fact.fact_id for fact in moving]
        work = partial(_moved, self._work, ids, to.history)
        stays = stays_words(moving, row.entry.tonight.line.history)
        told = partial(self._moved, row, name_words(to), stays)
        said = _("moving an entry to {name}").format(name=name_words(to))
        self._session.write(work, row.case_id, told, partial(self._not_moved, row), said)

    def _moved(self, row: EveningRow, name: str, stays: str, _receipt: object) -> None:
        row.say(stays)
        self.told.emit(_("Moved to {name}.").format(name=name))

    def _not_moved(self, row: EveningRow, error: Exception) -> None:
        if not is_known(error):
            self._session.failed.emit(error)
        row.say(str(error) if is_known(error) else _("Nothing was moved. Try again."))

    def _give_up(self) -> None:
        row = self._row
        self._leave()
        if row is not None:
            row.setFocus(Qt.FocusReason.OtherFocusReason)

    def _leave(self) -> None:
        part, self.part = self.part, None
        if part is not None and self._row is not None:
            self._row.column.removeWidget(part)
            part.hide()
            part.deleteLater()
        self._row = None


def saved_together(row: EveningRow) -> tuple[Standing[Any], ...]:
    """Return what was observed and saved with the newest session of a row: the row itself."""
    noted = row.entry.noted
    if noted is None:
        return ()
    when, facts = (noted.noted_at, noted.author), row.entry.tonight.line.history.facts
    return tuple(
        fact
        for fact in facts
        if (fact.noted_at, fact.author) == when and isinstance(fact.value, MOVABLE)
    )


def _moved(
    work: EveningWork, fact_ids: Sequence[str], to: History, casebook: "Casebook"
) -> "Receipt":
    return work.move(casebook, fact_ids, to)
