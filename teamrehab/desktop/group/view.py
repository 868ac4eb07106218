"""A team session or match: the whole squad in one grid, typed or pasted, saved in one go."""

from collections.abc import Sequence
from functools import partial
from itertools import pairwise

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, as_type, text
from teamrehab.desktop.buttons import main_button
from teamrehab.desktop.group import rows
from teamrehab.desktop.group.draft import Draft, draft_of, restored
from teamrehab.desktop.group.header import SessionHeader
from teamrehab.desktop.group.keeping import DraftKeeper
from teamrehab.desktop.group.not_read import NotRead
from teamrehab.desktop.group.table import GroupTable
from teamrehab.desktop.group.typed import GridRow, complaint, exposure_of, with_length
from teamrehab.desktop.session import Session
from teamrehab.domain.days import Exposure
from teamrehab.domain.history import Standing
from teamrehab.exchange.attendance import preview_attendance
from teamrehab.language import _, counted
from teamrehab.records import Receipt
from teamrehab.reports.wording import day_words
from teamrehab.tasks.board import Board
from teamrehab.tasks.group import Occasion, may_not_train, save_team_session, team_session


class TeamSessionView(QWidget):
    """``told`` carries what was done, for the status line. Untouched rows save nothing."""

    told = Signal(str)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._clock = session.about.clock
        self._board: Board | None = None
        self._sent: Occasion | None = None
        self._asked: tuple[str, ...] = ()
        self.header = SessionHeader(self._clock.today())
        self.table = GroupTable(self._complaint, self._clock.zone)
        self.not_read = NotRead()
        self.state, self._hint = text("", Type.SMALL), text(_keys(), Type.SMALL)
        self.state.setWordWrap(True)
        self.save = main_button(_("Save the session (Ctrl+Enter)"), self._save)
        self._keeper = DraftKeeper(session, self._draft, self)
        self._lay_out()
        self._connect()

    @property
    def has_unsaved(self) -> bool:
        """Return whether a row is typed that is not in the casebook yet."""
        return any(row.touched for row in self.table.rows.rows)

    @property
    def occasion(self) -> Occasion:
        """Return which session is being entered."""
        return self.header.occasion

    def show_board(self, board: Board) -> None:
        """Show the squad as it stands now; what is typed stays, and a day that turned too."""
        first, self._board = self._board is None, board
        if first:
            self._keeper.begin()
        elif not self.has_unsaved and not self.isVisible():
            self.header.day.show_day(board.squad.day)
        self._ask_saved()

    def keep(self) -> None:
        """Keep what is typed as a draft, now."""
        self._keeper.keep()

    def begin(self) -> None:
        """Put the cursor where typing begins: the length, then the first athlete."""
        if self.header.length.text() or self.has_unsaved:
            self.table.begin()
        else:
            self.header.length.setFocus(Qt.FocusReason.OtherFocusReason)

    # --- what is saved, and what is typed over it

    def _ask_saved(self) -> None:
        asked = self.occasion
        self._session.ask(partial(team_session, occasion=asked), partial(self._show, asked))

    def _show(self, asked: Occasion, saved: tuple[Standing[Exposure], ...]) -> None:
        if self._board is not None and asked == self.occasion:
            before = {row.athlete.athlete_id: row for row in self.table.rows.rows}
            self.table.show_rows(rows.rows_of(self._board.squad, asked.on, saved, before))
            self._tell_state()

    def _restore(self, found: Draft) -> None:
        """Type again what a draft holds; what is saved meanwhile is asked for below it."""
        if self._board is None:
            return
        self.header.show_occasion(found.occasion, found.length)
        squad = rows.rows_of(self._board.squad, found.occasion.on, (), {})
        self.table.show_rows([restored(found, row) for row in squad])
        self.not_read.show_words(found.not_read)
        self.told.emit(_("What was typed of a team session and not saved is here again."))
        self._ask_saved()

    def _complaint(self, row: GridRow) -> str:
        return complaint(row, self.occasion, self._clock.today())

    # --- typing and pasting

    def _take_length(self, length: str) -> None:
        self.table.length = length
        self.table.change(partial(with_length, length=length))

    def _take_paste(self, pasted: str) -> None:
        if self._board is None:
            return
        found = preview_attendance(pasted, [row.athlete for row in self.table.rows.rows])
        self.table.change(partial(rows.pasted, found=found, length=self.header.length.text()))
        self.not_read.show_paste(found, pasted)
        filled = sum(not row.says_nothing for row in found.rows)
        words = counted("{count} row is filled in", "{count} rows are filled in", filled)
        self.told.emit(_("{rows}. Nothing is saved yet.").format(rows=words))
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        self.table.scrollTo(self.table.currentIndex())

    # --- saving

    def _save(self) -> None:
        typed = [row for row in self.table.rows.rows if row.touched]
        wrong = [row for row in typed if self._complaint(row)]
        if wrong:
            self.table.go_to(self.table.rows.rows.index(wrong[0]))
            self._tell_state()
        elif typed and self._sent is None:
            values = [exposure_of(row, self.occasion) for row in typed]
            noted = [value for value in values if value is not None]
            if self._asks_first(noted):
                return
            self._sent = self.occasion
            save = partial(save_team_session, exposures=noted)
            said = _("the team session of {day}, {rows}").format(
                day=day_words(self.occasion.on),
                rows=counted("{count} row", "{count} rows", len(noted)),
            )
            self._session.write(save, "", self._saved, self._not_saved, said)

    def _asks_first(self, noted: Sequence[Exposure]) -> bool:
        """Ask once before it is noted that somebody trained who may not; True while asking."""
        held = () if self._board is None else may_not_train(self._board.squad, noted)
        if not held or held == self._asked:
            self._asked = ()
            return False
        self._asked = held
        words = _(
            "Training: none is stated for {names}. Ctrl+Enter again notes it all the same."
        )
        as_type(self.state, Type.COMPLAINT)
        self.state.setText(words.format(names=", ".join(held)))
        self._hint.hide()
        return True

    def _saved(self, _receipt: Receipt | None) -> None:
        self._sent = None
        self._session.ask(partial(team_session, occasion=self.occasion), self._show_saved)

    def _show_saved(self, saved: tuple[Standing[Exposure], ...]) -> None:
        self._show(self.occasion, saved)
        self._keeper.keep()
        self.told.emit(_("The team session is saved."))

    def _not_saved(self, error: Exception) -> None:
        self._sent = None
        self.state.setText(str(error))
        self._session.failed.emit(error)

    # --- what is told, and the draft

    def _draft(self) -> Draft:
        return draft_of(
            self.occasion,
            self.header.length.text(),
            self.table.rows.rows,
            self.not_read.words,
        )

    def _tell_state(self) -> None:
        """Say how much is typed, or what is wrong with the first row that cannot stand."""
        self._asked = ()  # a question that is not on screen any more is not answered
        touched = [row for row in self.table.rows.rows if row.touched]
        wrong = next((row for row in touched if self._complaint(row)), None)
        words = counted("{count} row typed", "{count} rows typed", len(touched))
        if wrong is not None:
            words = _("{name}: {trouble}").format(
                name=wrong.athlete.name, trouble=self._complaint(wrong)
            )
        as_type(self.state, Type.SMALL if wrong is None else Type.COMPLAINT)
        self.state.setText(words if touched else "")
        self._hint.setVisible(wrong is None)
        self.save.setEnabled(bool(touched))

    def _choose(self) -> None:
        """Show another session; not while one is being saved, whose rows would go along."""
        if self._sent is not None:
            if self.occasion != self._sent:
                self.header.show_occasion(self._sent, self.header.length.text())
                self.told.emit(_("The team session is being saved: a moment."))
            return
        self.table.viewport().update()
        self._ask_saved()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            if not event.isAutoRepeat():  # keys held down answer no question
                self._save()
        else:
            super().keyPressEvent(event)

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        self._keeper.keep()
        super().hideEvent(event)

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.ActivationChange and not self.isActiveWindow():
            self._keeper.keep()

    def _connect(self) -> None:
        self.header.chosen.connect(self._choose)
        self.header.length_typed.connect(self._take_length)
        self.header.done.connect(self.table.begin)
        self.table.changed.connect(self._tell_state)
        self.table.pasted.connect(self._take_paste)
        self.table.told.connect(self.told)
        self._keeper.restored.connect(self._restore)
        self._keeper.troubled.connect(self.told)

    def _lay_out(self) -> None:
        foot = QHBoxLayout()
        foot.setSpacing(Space.APART)
        foot.addWidget(self.save)
        foot.addWidget(self.state, 1)
        foot.addWidget(self._hint)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, Space.NEAR)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.header)
        column.addWidget(self.table, 1)
        column.addWidget(self.not_read)
        column.addLayout(foot)
        # Tab reads the lines first, and only then may put them away
        stops = (self.table, self.not_read.field, self.not_read.away, self.save)
        for one, after in pairwise(stops):
            self.setTabOrder(one, after)
        self._tell_state()


def _keys() -> str:
    return _("Y there   N not there   digits, + is 10   Enter down   Ctrl+V a list")
