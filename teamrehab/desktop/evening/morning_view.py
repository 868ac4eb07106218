"""The next morning: one line an injury in rehab; yesterday's provisional moves settle here."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.evening.drafts import Drafts, Keeping, Where
from teamrehab.desktop.evening.evening_work import unstated_on
from teamrehab.desktop.evening.morning_columns import columns_in_line
from teamrehab.desktop.evening.morning_lines import MorningLine, morning_lines, why_questions
from teamrehab.desktop.evening.morning_row import MorningRow
from teamrehab.desktop.evening.morning_saving import MorningSaving
from teamrehab.desktop.evening.morning_typed import MorningDraft, draft_text, read_draft
from teamrehab.desktop.evening.morning_words import headings
from teamrehab.desktop.evening.stating import Stating, nobody_words
from teamrehab.desktop.session import Session
from teamrehab.domain.measures import SafetyCheck
from teamrehab.language import _
from teamrehab.reports.closing import Proposed
from teamrehab.reports.wording import day_and_year, day_words
from teamrehab.tasks.board import Board, protocol_of

_A_DAY = timedelta(days=1)

_KEEPING = Keeping(place="morning", to_text=draft_text, from_text=read_draft)


class MorningView(QWidget):
    """``told`` carries what was done, for the status line. Untouched lines save nothing."""

    told = Signal(str)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._clock = session, session.about.clock
        self._board: Board | None = None
        self._today = self._day = self._clock.today()
        self.rows: list[MorningRow] = []
        self.drafts = Drafts(session, _KEEPING, self._current, self)
        self.saving = MorningSaving(session, self._row_at, self.drafts, self)
        self.stating = Stating(session, self)
        self.title, self.remark = text("", Type.TITLE), text("", Type.COMPLAINT)
        self.remark.setWordWrap(True)
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
        self.stating.unstated = unstated_on(self._board)
        self.stating.stopped = {
            line.athlete_id: (line.case_id, line.history.athlete.surname)
            for line in lines
            if line.stopped
        }
        new = self._arrange(lines)
        shown = {line.case_id: line for line in lines}
        for row in self.rows:
            if row.line.case_id in shown:
                line = shown[row.line.case_id]
                row.show_line(line, self.stating.coach_reads(line.athlete_id))
        self._type_again_in(new)
        self.title.setText(day_and_year(self._day))
        self.nobody.setVisible(not lines)
        self.earlier.setVisible(self._day == self._today)
        self.later.setVisible(self._day != self._today)

    def _arrange(self, lines: tuple[MorningLine, ...]) -> list[MorningRow]:
        """Keep a row a line, and those that are typed in; return those that are new."""
        known = {row.line.case_id: row for row in self.rows}
        typed = [row for row in self.rows if not row.typed.is_empty]
        told = [
            known[line.case_id] if line.case_id in known else self._row(line) for line in lines
        ]
        rows = [*told, *(row for row in typed if row not in told)]
        if rows == self.rows:
            return []
        self.rows = rows
        for row in known.values():
            self._list.removeWidget(row)
            if row not in self.rows:
                row.hide()
                row.deleteLater()
        for place, row in enumerate(self.rows):
            self._list.insertWidget(place, row)
            row.show()  # at once, so that it can have the keys
        return [row for row in rows if row not in known.values()]

    def _row_at(self, where: Where) -> MorningRow | None:
        return next((row for row in self.rows if row.where == where), None)

    def _current(self) -> Iterator[tuple[Where, MorningDraft | None]]:
        for row in self.rows:
            if not row.pending:
                yield row.where, row.draft

    def _type_again(self) -> None:
        self._type_again_in(self.rows)

    def _type_again_in(self, rows: Sequence[MorningRow]) -> None:
        """Type again what was kept of these lines and is not in the casebook."""
        for row in rows:
            draft = self.drafts.known.get(row.where)
            if not self.saving.show_sent(row) and draft is not None and row.typed.is_empty:
                row.retype(draft)
        self._tell_about()

    def _tell_about(self) -> None:
        """Say what is typed on another morning, and of whom the coach knows nothing yet."""
        others = ", ".join(day_words(day) for day in self.drafts.other_days(self._day))
        waiting = _("Typed and not saved: {days}.").format(days=others) if others else ""
        told = (waiting, self.stating.words(self._at))
        self.remark.setText(" ".join(part for part in told if part))
        self.remark.setVisible(bool(self.remark.text()))

    @property
    def _at(self) -> str:
        """Return whose line has the cursor."""
        found = (row for row in self.rows if row.is_active)
        return next((row.line.athlete_id for row in found), "")

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
        self.stating.was_saved(row.line.athlete_id)
        self.saving.save(row, *values)
        self._go_to_next(row)

    def _accept(self, row: MorningRow, proposed: Proposed) -> None:
        self.saving.take_back(row, proposed)

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
        self._tell_about()
        self._scroll.ensureWidgetVisible(row)

    def _go_back(self) -> None:
        self._move_day(self._today - _A_DAY)

    def _go_on(self) -> None:
        self._move_day(self._today)

    def _move_day(self, day: date) -> None:
        """Show another morning; what is typed is kept, and is there again on its day."""
        if day == self._day:
            return
        self.drafts.keep()
        self._day = day
        for row in self.rows:
            self._list.removeWidget(row)
            row.hide()
            row.deleteLater()
        self.rows = []
        self._show()
        self.begin()

    def _state(self) -> None:
        """Open the form of who is stopped and not stated yet, else that of the line."""
        row = next((row for row in self.rows if row.is_active), None)
        if row is None or self._board is None:
            return
        ids, entered = (row.line.athlete_id, row.line.case_id), row.line.saved is not None
        if not self.stating.ask(self._board, *ids, entered=entered):
            self.told.emit(nobody_words())

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        """Keep what is typed before another page, the lock or the end."""
        super().hideEvent(event)
        self.drafts.keep()

    def _listen(self) -> None:
        """Take the keys for the whole page, wherever on it the cursor is."""
        here = Qt.ShortcutContext.WidgetWithChildrenShortcut
        for keys, do in (
            ("Alt+Left", self._go_back),
            ("Alt+Right", self._go_on),
            ("Ctrl+B", self._state),
        ):
            QShortcut(QKeySequence(keys), self, do, context=here)
        self.drafts.restored.connect(self._type_again)
        self.drafts.troubled.connect(self.told)
        self.saving.told.connect(self.told)

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
        page.addWidget(self.remark)
        page.addLayout(over)
        page.addWidget(self.nobody)
        page.addWidget(self._scroll, 1)


def _keys() -> str:
    return _(
        "0 to 9, + is 10; then P pain, T tightness, C cramp or S sharp.   K painkiller"
        "   Enter saves   Esc empties"
    )
