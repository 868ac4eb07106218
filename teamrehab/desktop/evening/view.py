"""After training: an evening typed row by row, each row on the disk before its tick."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, text
from teamrehab.desktop.athlete.desk import Desk
from teamrehab.desktop.evening.desks import dated, desk_on
from teamrehab.desktop.evening.drafts import Drafts, Where, is_saved, of_the_evening
from teamrehab.desktop.evening.emergency import emergency_words, is_emergency
from teamrehab.desktop.evening.evening_header import EveningHeader
from teamrehab.desktop.evening.evening_work import EveningWork
from teamrehab.desktop.evening.hints import as_markup, keys_of
from teamrehab.desktop.evening.moving import Moving
from teamrehab.desktop.evening.row import EveningRow
from teamrehab.desktop.evening.row_head import headings
from teamrehab.desktop.evening.row_list import RowList
from teamrehab.desktop.evening.saving import Saving
from teamrehab.desktop.evening.stating import Stating, nobody_words
from teamrehab.desktop.evening.typed import Draft, Tonight
from teamrehab.desktop.session import Session
from teamrehab.domain.protocol import followed
from teamrehab.language import _
from teamrehab.reports.evening import EveningLine
from teamrehab.reports.wording import day_words, hour_words
from teamrehab.tasks.board import Board

_A_DAY = timedelta(days=1)

_PLAIN, _KEYPAD = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier


class EveningView(QWidget):
    """One row an athlete in rehab. A row nobody typed in leaves nothing behind.

    ``closing_asked``: the rows are done. ``athlete_asked`` carries an athlete id. ``told`` is
    for the status line.
    """

    closing_asked = Signal()
    athlete_asked = Signal(str)
    told = Signal(str)

    def __init__(
        self, session: Session, work: EveningWork, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, self._work = session, work
        self._board: Board | None = None
        self._day = self._begun_on = session.about.clock.today()
        self.header, self.hint = EveningHeader(), text("")
        self.hint.setTextFormat(Qt.TextFormat.RichText)
        self.list = RowList(self._desk)
        keeping = of_the_evening(work.keep, work.drafts)
        self.drafts = Drafts(session, keeping, self._current, self)
        self.saving = Saving(session, work, self._row_at, self.drafts, self)
        self.moving = Moving(session, work, self._row_at, self)
        self.stating = Stating(session, self)
        self._lay_out()
        self._connect()

    @property
    def day(self) -> date:
        """Return the evening that is entered."""
        return self._day

    @property
    def has_unsaved(self) -> bool:
        """Return whether something is typed that is not in the casebook yet."""
        return any(row.entry.is_typed for row in self.list.rows)

    @property
    def rows(self) -> list[EveningRow]:
        """Return the rows from above."""
        return self.list.rows

    def show_board(self, board: Board) -> None:
        """Show the same evening as of a newer board; what is typed stays."""
        self._board = board
        self._show()

    def show_day(self, day: date) -> None:
        """Enter another evening, none that is still to come; what is typed is kept."""
        if day > self._session.about.clock.today() or day == self._day:
            return
        self.drafts.keep()
        self._day = day
        self._begun_on = self._session.about.clock.today()
        self.list.clear()
        self._show()
        self.begin()

    def begin(self) -> None:
        """Put the cursor where typing starts."""
        self.list.begin()

    def _show(self) -> None:
        if self._board is None:
            return
        told, protocols = [], self._board.protocols
        self.stating.unstated = self._work.unstated(self._board)
        lines = self._work.lines(self._board, self._day)
        self.stating.stopped = {
            line.athlete_id: (line.case_id, line.surname) for line in lines if line.stopped
        }
        for line in lines:
            coach = self.stating.coach_reads(line.athlete_id)
            tonight = Tonight(line=line, on=self._day, coach=coach)
            protocol = followed(line.history, protocols).protocol
            if protocol is not None:
                tonight = replace(tonight, faults=protocol.faults, protocol=protocol)
            told.append((tonight, self._hour_of(line)))
        self._type_again_in(self.list.show_lines(told))

    def _hour_of(self, line: EveningLine) -> str:
        """Return when the newest entry of a line was saved, on the club's clock."""
        zone = ZoneInfo(self._session.about.clock.zone)
        return hour_words(line.noted[-1].noted_at.astimezone(zone)) if line.noted else ""

    def _refresh(self) -> None:
        """Show which evening it is, how far it is, and which keys work."""
        today = self._session.about.clock.today()
        others = ", ".join(day_words(day) for day in self.drafts.other_days(self._day))
        waiting = _("Typed and not saved: {days}.").format(days=others) if others else ""
        turned = self._begun_on == self._day
        active = self.list.active
        stopped = self.stating.words("" if active is None else active.athlete_id)
        self.header.show_evening(
            self._day, today, turned=turned, waiting=waiting, stopped=stopped
        )
        entered = sum(row.entry.is_entered for row in self.rows)
        self.header.show_count(entered, len(self.rows))
        self._show_hint()

    def _show_hint(self) -> None:
        row = self.list.active
        self.hint.setText("" if row is None else as_markup(keys_of(row.entry)))

    def _desk(self, tonight: Tonight) -> Desk | None:
        """Return the desk on which the tests of a row are judged, on its evening."""
        if self._board is None:
            return None
        line, about = tonight.line, self._session.about
        desk = desk_on(self._board, about, line.athlete_id, line.case_id)
        return None if desk is None else dated(desk, tonight.on)

    def _row_at(self, where: Where) -> EveningRow | None:
        return self.list.row_at(where)

    def _save(self, row: EveningRow) -> None:
        """Save a row and go on; it ticks when the casebook has acknowledged it.

        After an emergency nobody goes on: the page stays with the athlete.
        """
        emergency = is_emergency(row.entry)
        if not self.saving.save(row):
            return
        self.stating.was_saved(row.athlete_id)
        if emergency:
            self.list.go_to(row)
            self.told.emit(emergency_words(row.entry.tonight.line.surname))
        elif not self.list.go_on(row):
            self.list.go_to(row)
            self.told.emit(_("The last row is entered. Ctrl+Enter closes the evening."))
        self._refresh()

    def _current(self) -> Iterator[tuple[Where, Draft | None]]:
        for row in self.rows:
            if not row.entry.saving:
                yield row.where, row.draft

    def _type_again(self) -> None:
        self._type_again_in(self.rows)

    def _type_again_in(self, rows: Sequence[EveningRow]) -> None:
        """Type again what was kept of these rows and is not in the casebook."""
        for row in rows:
            if self.saving.show_sent(row):
                continue
            draft = self.drafts.known.get(row.where)
            history = row.entry.tonight.line.history
            if draft and not row.entry.is_typed and not is_saved(draft, history):
                row.retype(draft)
        self._refresh()

    def _chosen(self, _row: EveningRow) -> None:
        self.drafts.keep()
        self._refresh()

    def _earlier(self) -> None:
        self.show_day(self._day - _A_DAY)

    def _later(self) -> None:
        self.show_day(self._day + _A_DAY)

    def _close(self) -> None:
        self.drafts.keep()
        self.closing_asked.emit()

    def _move(self) -> None:
        if self.list.active is not None:
            self.moving.ask(self.list.active, self.rows)

    def _open_athlete(self) -> None:
        if self.list.active is not None:
            self.athlete_asked.emit(self.list.active.athlete_id)

    def _state(self) -> None:
        row = self.list.active
        if row is None or self._board is None:
            return
        ids, entered = (row.athlete_id, row.case_id), row.entry.is_entered
        if not self.stating.ask(self._board, *ids, entered=entered):
            self.told.emit(nobody_words())

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.NEAR, Space.NEAR, Space.NEAR, Space.TIGHT)
        column.setSpacing(Space.TIGHT)
        column.addWidget(self.header)
        column.addWidget(headings(self.list.bar_width))
        column.addWidget(self.list, 1)
        self.hint.setContentsMargins(Space.APART, 0, Space.APART, 0)
        column.addWidget(self.hint)

    def _connect(self) -> None:
        self.list.chosen.connect(self._chosen)
        self.list.edited.connect(self._refresh)
        self.list.save_asked.connect(self._save)
        self.drafts.restored.connect(self._type_again)
        self.drafts.troubled.connect(self.told)
        self.moving.told.connect(self.told)
        self.saving.told.connect(self.told)
        self.saving.answered.connect(self._refresh)
        self.header.earlier_asked.connect(self._earlier)
        self.header.later_asked.connect(self._later)
        self.header.closing_asked.connect(self._close)

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        """Keep what is typed before another page, the lock or the end."""
        super().hideEvent(event)
        self.drafts.keep()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take the keys that are for the whole evening, wherever on the page the cursor is."""
        do = self._commands().get((event.modifiers() & ~_KEYPAD, Qt.Key(event.key())))
        if do is None:
            super().keyPressEvent(event)
        else:
            do()

    def _commands(self) -> Mapping[tuple[Qt.KeyboardModifier, Qt.Key], Callable[[], None]]:
        control, alt = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
        return {
            (alt, Qt.Key.Key_Left): self._earlier,
            (alt, Qt.Key.Key_Right): self._later,
            (control, Qt.Key.Key_M): self._move,
            (control, Qt.Key.Key_B): self._state,
            (_PLAIN, Qt.Key.Key_F2): self._open_athlete,
            (control, Qt.Key.Key_Return): self._close,
            (control, Qt.Key.Key_Enter): self._close,
        }
