"""The next morning: one line an injury in rehab; yesterday's provisional moves settle here."""

from datetime import date, timedelta
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.evening.morning_lines import MorningLine, morning_lines, why_questions
from teamrehab.desktop.evening.morning_row import MorningRow, columns_in_line
from teamrehab.desktop.evening.morning_words import headings
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import is_known
from teamrehab.domain.history import History
from teamrehab.domain.measures import SafetyCheck
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt, ReplacedMeanwhileError
from teamrehab.reports.closing import Proposed
from teamrehab.reports.wording import day_and_year, day_words
from teamrehab.tasks.board import Board, protocol_of
from teamrehab.tasks.closing import accept
from teamrehab.tasks.evening import save_morning

_A_DAY = timedelta(days=1)


class MorningView(QWidget):
    """``told`` carries what was done, for the status line. Untouched lines save nothing."""

    told = Signal(str)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._clock = session, session.about.clock
        self._board: Board | None = None
        self._today = self._day = self._clock.today()
        self.rows: list[MorningRow] = []
        self.title = text("", Type.TITLE)
        self.nobody = text(_("Nobody is in rehab with an injury."), Type.LEAD)
        self.earlier = quiet_button(_("The day before (Alt+Left)"), self._go_back)
        self.later = quiet_button(_("Today (Alt+Right)"), self._go_on)
        self._list, self._scroll = QVBoxLayout(), QScrollArea()
        self._lay_out()
        self._listen()

    @property
    def day(self) -> date:
        """Return the morning being entered."""
        return self._day

    @property
    def has_unsaved(self) -> bool:
        """Return whether something is typed that is not in the casebook yet."""
        return any(not row.typed.is_empty for row in self.rows)

    def show_board(self, board: Board) -> None:
        """Show what stands now; what is typed stays, and so does its day past 04:00."""
        self._board = board
        if not self.has_unsaved:
            moved = self._today - self._day
            self._today = board.squad.day
            self._day = self._today - moved
        self._show()

    def begin(self) -> None:
        """Put the cursor into the first line that is not entered."""
        rows = [row for row in self.rows if row.is_open] or self.rows
        if rows:
            self._go_to(rows[0])

    def _show(self) -> None:
        """Show a line a case; the same cases keep their rows and what is typed in them."""
        if self._board is None:
            return
        squad = self._board.squad
        protocols = {h.case.case_id: protocol_of(h) for h in squad.open_cases}
        lines = morning_lines(squad, protocols, self._day)
        self._arrange(lines)
        shown = {line.case_id: line for line in lines}
        for row in self.rows:
            if row.line.case_id in shown:
                row.show_line(shown[row.line.case_id])
        self.title.setText(day_and_year(self._day))
        self.nobody.setVisible(not lines)
        self.earlier.setVisible(self._day == self._today)
        self.later.setVisible(self._day != self._today)

    def _arrange(self, lines: tuple[MorningLine, ...]) -> None:
        """Keep a row a line, and those that are typed in, whatever became of their case."""
        known = {row.line.case_id: row for row in self.rows}
        typed = [row for row in self.rows if not row.typed.is_empty]
        told = [
            known[line.case_id] if line.case_id in known else self._row(line) for line in lines
        ]
        rows = [*told, *(row for row in typed if row not in told)]
        if rows == self.rows:
            return
        self.rows = rows
        for row in known.values():
            self._list.removeWidget(row)
            if row not in self.rows:
                row.hide()
                row.deleteLater()
        for place, row in enumerate(self.rows):
            self._list.insertWidget(place, row)

    def _row(self, line: MorningLine) -> MorningRow:
        row = MorningRow(line, self._clock.zone)
        row.entered.connect(self._enter)
        row.went.connect(self._go)
        row.answered.connect(self._keep)
        row.accepted.connect(self._accept)
        return row

    # --- saving

    def _enter(self, row: MorningRow) -> None:
        """Save a line, after what must be asked is asked; an untouched one is left alone."""
        response = row.response
        if response is None or row.pending:
            self._go_to_next(row)
        elif row.line.saved is not None and not row.confirmed:
            row.ask_to_correct()
        elif why := why_questions(row.line, response):
            row.ask_safety(why)
            self._scroll.ensureWidgetVisible(row)
        else:
            self._write(row, response)

    def _keep(self, row: MorningRow, check: SafetyCheck) -> None:
        self._write(row, row.response, check)

    def _write(self, row: MorningRow, *values: Any) -> None:
        row.wait()
        save = partial(_save, history=row.line.history, values=values)
        failed = partial(self._not_saved, row.where, row.line.history.athlete.surname)
        self._session.write(save, row.line.case_id, self._saved, failed)
        self._go_to_next(row)

    def _saved(self, _receipt: Receipt) -> None:
        self.told.emit(_("The morning is saved."))

    def _not_saved(self, where: tuple[date, str], surname: str, error: Exception) -> None:
        """Tell why in the row, or in the status line where it is not shown any more."""
        why = str(error) if is_known(error) else _("Nothing was saved. Try again.")
        row = next((row for row in self.rows if row.where == where), None)
        if row is not None:
            row.not_saved(why)
        if row is None or not is_known(error):
            self._session.failed.emit(error)
        words = _("The morning of {name} of {day} was not saved: {why}")
        self.told.emit(words.format(name=surname, day=day_words(where[0]), why=why))
        if isinstance(error, ReplacedMeanwhileError):
            self._session.board_changed.emit()  # somebody else's entry is to be seen at once

    def _accept(self, row: MorningRow, proposed: Proposed) -> None:
        take = partial(_accept, history=row.line.history, proposed=proposed)
        failed = partial(self._not_saved, row.where, row.line.history.athlete.surname)
        self._session.write(take, row.line.case_id, self._taken_back, failed)

    def _taken_back(self, _receipt: Receipt) -> None:
        words = _("The move is taken back. Limits and availability stay as they were stated.")
        self.told.emit(words)

    # --- going about

    def _go(self, row: MorningRow, step: int) -> None:
        place = self.rows.index(row) + step
        if 0 <= place < len(self.rows):
            self._go_to(self.rows[place])

    def _go_to_next(self, row: MorningRow) -> None:
        """Go to the next line not entered, round to the first; stay where all are."""
        place = self.rows.index(row)
        others = [*self.rows[place + 1 :], *self.rows[:place]]
        self._go_to(next((one for one in others if one.is_open), row))

    def _go_to(self, row: MorningRow) -> None:
        row.setFocus(Qt.FocusReason.OtherFocusReason)
        self._scroll.ensureWidgetVisible(row)

    def _go_back(self) -> None:
        self._move_day(self._today - _A_DAY)

    def _go_on(self) -> None:
        self._move_day(self._today)

    def _move_day(self, day: date) -> None:
        if self.has_unsaved:
            self.told.emit(_("A line is typed and not saved: Enter saves it, Esc empties it."))
        elif day != self._day:
            self._day = day
            self._show()
            self.begin()

    def _listen(self) -> None:
        """Alt and an arrow change the day from anywhere on the page."""
        here = Qt.ShortcutContext.WidgetWithChildrenShortcut
        for keys, move in (("Alt+Left", self._go_back), ("Alt+Right", self._go_on)):
            QShortcut(QKeySequence(keys), self, move, context=here)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(Space.APART)
        for part in (self.title, self.earlier, self.later):
            head.addWidget(part)
        head.addStretch(1)
        head.addWidget(text(_keys(), Type.SMALL))
        over = columns_in_line([text(words, Type.SMALL) for words in headings()])
        over.setContentsMargins(Space.NEAR, 0, Space.NEAR, 0)
        inside = QWidget()
        self._list.setContentsMargins(0, 0, 0, 0)
        self._list.setSpacing(0)
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(self._list)
        column.addStretch(1)
        self._scroll.setWidget(inside)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(Space.NEAR)
        page.addLayout(head)
        page.addLayout(over)
        page.addWidget(self.nobody)
        page.addWidget(self._scroll, 1)


def _keys() -> str:
    return _(
        "0 to 9, + is 10; then P pain, T tightness, C cramp or S sharp.   K painkiller"
        "   Enter saves   Esc empties"
    )


def _save(casebook: Casebook, history: History, values: tuple[Any, ...]) -> Receipt:
    return save_morning(casebook, history, *values)


def _accept(casebook: Casebook, history: History, proposed: Proposed) -> Receipt:
    return accept(casebook, history, proposed, proposed.name)
