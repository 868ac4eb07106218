"""Closing the evening: the facts stand, now a person decides, one name at a time."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.evening.closing_asking import ClosingAsking
from teamrehab.desktop.evening.closing_forms import case_of
from teamrehab.desktop.evening.closing_keys import ClosingKeys
from teamrehab.desktop.evening.closing_layout import lay_out, line_of
from teamrehab.desktop.evening.closing_list import ClosingList
from teamrehab.desktop.evening.closing_noting import ClosingNoting, subject
from teamrehab.desktop.evening.closing_question import ClosingQuestion
from teamrehab.desktop.evening.closing_reading import ClosingReading
from teamrehab.desktop.evening.closing_words import (
    Question,
    question_about,
    question_before_signing,
)
from teamrehab.desktop.evening.closing_work import ClosingWork
from teamrehab.desktop.evening.end_panel import EndPanel, newest_entry, why_missed
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import Notice
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import History, Standing
from teamrehab.language import _
from teamrehab.reports.closing import EveningCount, Proposed
from teamrehab.reports.wording import day_words
from teamrehab.tasks.board import Board

_RETURNS = frozenset({Qt.Key.Key_Return, Qt.Key.Key_Enter})


class ClosingView(QWidget):
    """Decides by keys; ``athlete_asked`` carries an athlete id, ``told`` what was noted.

    ``shown`` follows when the newest board is worked out and on screen.
    """

    back_asked = Signal()
    athlete_asked = Signal(str)
    sheet_asked = Signal()
    told = Signal(str)
    shown = Signal()

    def __init__(
        self, session: Session, work: ClosingWork | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, work = session, work or ClosingWork()
        self._board: Board | None = None
        self._day = session.about.clock.today()
        self._count = EveningCount(entered=0, missed=0)
        self._behind, self._typed = False, tuple[str, ...]()
        self._about: tuple[Proposed, History] | None = None
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.asking = ClosingAsking(session, self)
        self.reading = ClosingReading(session, work, self)
        self.noting = ClosingNoting(session, work, self)
        self.heading, self.said = text("", Type.TITLE), text("")
        self.list, self.question, self.keys = ClosingList(), ClosingQuestion(), ClosingKeys()
        self.notice = Notice()
        self.panel = EndPanel(session.about.me.name, session.about.clock.zone)
        self.keys.offer(self._accept, self._otherwise, self._ask_page)
        self.keys.offer_more(self._complain, self._ill)
        self.back = quiet_button(_("Back to the rows (Esc)"), self.back_asked.emit)
        self.back.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.said.setWordWrap(True)
        top = line_of(self.heading, self.back)
        below = (self.list, self.question, self.said, self.keys)
        lay_out(self, (top, self.notice, *below), self.panel)
        self._connect()

    @property
    def has_unsaved(self) -> bool:
        """Return whether something is typed that is not in the casebook yet."""
        return self.asking.has_unsaved

    def show_evening(self, board: Board, day: date, typed: tuple[str, ...] = ()) -> None:
        """Show the end of the evening of ``day``; ``typed``: whose row is not saved yet."""
        self._typed = typed
        if day != self._day:
            self.list.show_proposals(())
        self._day = day
        self.said.setText("")
        self.notice.hide()
        self.heading.setText(_("Close the evening of {day}").format(day=day_words(day)))
        self.setAccessibleName(self.heading.text())
        self._board = board
        self._work_out()

    def show_board(self, board: Board) -> None:
        """Show the same evening as of a newer board; while hidden it waits to be looked at."""
        self._board = board
        if self.isVisible():
            self._work_out()
        else:
            self._behind = True

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._behind:
            self._work_out()

    def begin(self) -> None:
        """Put the keyboard on the marked line."""
        if self.list.lines:
            self.list.take_focus()
        else:
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _work_out(self) -> None:
        self._behind = False
        if self._board is not None:
            self.reading.read(self._board, self._day)

    def _show_end(self, proposals: tuple[Proposed, ...], count: EveningCount) -> None:
        self.noting.keep(proposals)
        count = replace(count, typed=self._typed)
        if not self._still_asked(proposals, count):
            self.question.close_unanswered()
        self._count = count
        self.list.show_proposals(proposals)
        self.keys.show_for(self.list.current)
        missed = why_missed(self._board.squad, self._day) if self._board is not None else ()
        self.panel.show_count(count, missed)
        if self.window().focusWidget() is self:
            self.begin()
        self.shown.emit()

    def _still_asked(self, proposals: tuple[Proposed, ...], count: EveningCount) -> bool:
        """Return whether a question that may be open is about something that still holds."""
        if self._about is None:
            return self._before_signing(proposals, count) == self._before_signing(
                [line.proposed for line in self.list.lines], self._count
            )
        return subject(self._about[0]) in map(subject, proposals)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Do what a key asks; plain Enter is told to change nothing."""
        control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        key, letter = event.key(), event.text().casefold()
        if key in _RETURNS:
            self._return(control=control)
        elif key in _STEPS:
            self.list.step(_STEPS[key])
        elif key == Qt.Key.Key_Escape:
            self.back_asked.emit()
        elif event.isAutoRepeat() or control or not self._do(letter):
            super().keyPressEvent(event)

    def _do(self, letter: str) -> bool:
        acts: dict[str, Callable[[], None]] = {
            "a": self._accept,
            "o": self._otherwise,
            "p": self._ask_page,
            "c": self._complain,
            "i": self._ill,
            "s": self.sheet_asked.emit,
        }
        if letter in acts:
            acts[letter]()
        return letter in acts

    def _return(self, *, control: bool) -> None:
        if control:
            self._sign()
        else:
            self._say(_("Enter changes nothing here. A accepts, Y confirms."))

    def _accept(self) -> None:
        proposed = self.list.current
        if proposed is None or not proposed.moves:
            self._say(_("Nothing to accept here. O decides otherwise."))
        elif self.noting.was_sent(proposed):
            self._say(_("Noted already."))
        elif not proposed.needs_name:
            self._note(proposed)
            self.list.step(1)
        elif proposed.value is None:
            self._otherwise()
        else:
            self._ask_about(proposed)

    def _ask_about(self, proposed: Proposed) -> None:
        history = self._history(proposed)
        if history is None:
            self._say(_("This case is not open any more."))
        else:
            self._ask(question_about(proposed, history), (proposed, history))

    def _ask(self, asked: Question, about: tuple[Proposed, History] | None = None) -> None:
        self._about = about
        self._say("")
        self.question.ask(asked)

    def _sign(self) -> None:
        shown = [line.proposed for line in self.list.lines]
        self._ask(self._before_signing(shown, self._count))

    def _before_signing(self, shown: Sequence[Proposed], count: EveningCount) -> Question:
        return question_before_signing(count, shown, self._session.about.me.name)

    def _confirmed(self) -> None:
        about, self._about = self._about, None
        self.begin()
        if about is None:
            self.noting.sign(self._day, self._count)
        else:
            self.noting.accept(*about)

    def _left(self) -> None:
        self._about = None
        self._say(_("Left as it was."))
        self.begin()

    def _note(self, proposed: Proposed) -> None:
        history = self._history(proposed)
        if history is None:
            self._say(_("This case is not open any more."))
        else:
            self.noting.accept(proposed, history)

    def _history(self, proposed: Proposed) -> History | None:
        """Return the case as the list was made from it: what is decided on is what is shown."""
        return None if self.reading.squad is None else case_of(proposed, self.reading.squad)

    def _otherwise(self) -> None:
        proposed = self.list.current
        self._say("")
        if proposed is None or self._board is None:
            return
        if not self.asking.decide(proposed, self._board, self._day):
            self._say(_("Nothing can be decided here: see the athlete's page."))

    def _ask_page(self) -> None:
        if self.list.current is not None:
            self.athlete_asked.emit(self.list.current.athlete_id)

    def _complain(self) -> None:
        self._say("")
        if self._board is not None:
            self.asking.complain(self._board, self._day)

    def _ill(self) -> None:
        self._say("")
        if self._board is not None:
            self.asking.ill(self._board, self._day)

    def _form_noted(self) -> None:
        self._tell(_("Noted; Ctrl+Z takes it back."))

    def _show_signed(self, signed: tuple[Standing[EveningSigned], ...]) -> None:
        if self._board is not None:
            self.panel.show_signed(signed, newest_entry(self._board.squad, self._day))

    def _say(self, words: str) -> None:
        self.said.setText(words)
        self.said.setAccessibleName(words)

    def _tell(self, words: str) -> None:
        self._say(words)
        self.told.emit(words)

    def _show_keys(self) -> None:
        self.keys.show_for(self.list.current)

    def _connect(self) -> None:
        self.reading.found.connect(self._show_end)
        self.reading.signed.connect(self._show_signed)
        self.asking.noted.connect(self._form_noted)
        self.list.moved.connect(self._show_keys)
        self.question.confirmed.connect(self._confirmed)
        self.question.left.connect(self._left)
        self.noting.said.connect(self._tell)
        self.noting.refused.connect(self.notice.say)
        self.panel.sheet_asked.connect(self.sheet_asked)
        self.panel.signing.connect(self._sign)


_STEPS: dict[int, int] = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}
