"""The place After training: the evening and its end, the next morning, the team session."""

from collections.abc import Iterable
from datetime import date
from enum import IntEnum

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)
from shiboken6 import isValid
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.evening.closing_view import ClosingView
from teamrehab.desktop.evening.curtain import Curtain
from teamrehab.desktop.evening.evening_work import evening_work
from teamrehab.desktop.evening.morning_lines import MorningLine
from teamrehab.desktop.evening.morning_view import MorningView
from teamrehab.desktop.evening.view import EveningView
from teamrehab.desktop.group.view import TeamSessionView
from teamrehab.desktop.leaving import Unsaved
from teamrehab.desktop.session import Session
from teamrehab.language import _
from teamrehab.reports.evening import EveningLine
from teamrehab.reports.wording import day_words
from teamrehab.tasks.board import Board

_NOON = 12

_WIDEST = 1800
"""Width in pixels beyond which the eye would lose the way from a name to its cells."""


class Part(IntEnum):
    """What can be entered here, in the order of the buttons."""

    EVENING = 0
    MORNING = 1
    TEAM_SESSION = 2


class AfterTraining(QWidget):
    """Shows one part at a time; before noon it begins with the morning.

    ``cover_asked`` comes with F8; whoever hides the squad hides this place too.
    """

    athlete_asked = Signal(str)
    sheet_asked = Signal()
    cover_asked = Signal()
    told = Signal(str)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._board: Board | None = None
        self.evening, self.closing = EveningView(session, evening_work()), ClosingView(session)
        self.morning, self.team_session = MorningView(session), TeamSessionView(session)
        self.pages, self._buttons = QStackedWidget(), QButtonGroup(self)
        for page in (self.evening, self.morning, self.team_session, self.closing):
            self.pages.addWidget(page)
        self.curtain, self._top = Curtain(), self._parts()
        self._came_from: QWidget | None = None
        self._lay_out()
        self._connect()
        before_noon = session.about.clock.local().hour < _NOON
        self.show_part(Part.MORNING if before_noon else Part.EVENING)

    @property
    def has_unsaved(self) -> bool:
        """Return whether something is typed that is not in the casebook yet."""
        pages = (self.evening, self.closing, self.morning, self.team_session)
        return any(page.has_unsaved for page in pages)

    @property
    def unsaved(self) -> tuple[Unsaved, ...]:
        """Return what is typed here and of whom; rows that have a draft count as kept."""
        typed = [r.entry.tonight.line for r in self.evening.rows if r.entry.is_typed]
        group = [row.athlete.name for row in self.team_session.table.rows.rows if row.touched]
        mornings = [row.line for row in self.morning.rows if not row.typed.is_empty]
        dialog = self.closing.asking.dialog
        pages = (
            _of(_("Evening, {day}"), self.evening.day, _names(typed), kept=True),
            _of(_("Team session, {day}"), self.team_session.occasion.on, group, kept=True),
            _of(_("Morning, {day}"), self.morning.day, _names(mornings), kept=True),
        )
        found = [page for page in pages if page is not None]
        forms = () if dialog is None else dialog.unsaved
        return (*found, *forms, *self.evening.stating.unsaved, *self.morning.stating.unsaved)

    def keep(self) -> None:
        """Keep what is typed in rows, lines and of the team session as drafts, now."""
        self.evening.drafts.keep()
        self.morning.drafts.keep()
        self.team_session.keep()

    def show_board(self, board: Board) -> None:
        """Show what stands now; what is typed stays."""
        self._board = board
        for page in (self.evening, self.closing, self.morning, self.team_session):
            page.show_board(board)

    def show_part(self, part: Part) -> None:
        """Show a part and put the cursor where typing begins."""
        self._buttons.button(part).setChecked(True)
        self.pages.setCurrentIndex(part)
        self.begin()

    def show_closing(self) -> None:
        """Show the end of the evening that is entered."""
        if self._board is not None:
            typed = [r.entry.tonight.line for r in self.evening.rows if r.entry.is_typed]
            names = tuple(dict.fromkeys(_names(typed)))
            self.closing.show_evening(self._board, self.evening.day, names)
            self.pages.setCurrentWidget(self.closing)
            self.closing.begin()

    def cover(self, *, covered: bool) -> None:
        """Hide everybody, or show all again with the cursor where it was."""
        if covered == self.is_covered:
            return
        was_here = self.window().focusWidget()
        self._top.setHidden(covered)
        self.pages.setHidden(covered)
        self.curtain.setVisible(covered)
        if covered:
            self._came_from = was_here
            self.begin()
        elif self._came_from is not None and isValid(self._came_from):
            self._came_from.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.begin()

    @property
    def is_covered(self) -> bool:
        """Return whether everybody is hidden."""
        return not self.curtain.isHidden()

    def begin(self) -> None:
        """Put the cursor where typing begins on the page that is shown."""
        if self.is_covered:
            if self.isVisible():
                self.curtain.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        page = self.pages.currentWidget()
        if isinstance(page, EveningView | MorningView | TeamSessionView | ClosingView):
            page.begin()

    def _lay_out(self) -> None:
        """Put all in one column, in the middle of a wide screen."""
        middle = QWidget()
        middle.setMaximumWidth(_WIDEST)
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        self.curtain.hide()
        column.addWidget(self._top)
        for part in (self.pages, self.curtain):
            column.addWidget(part, 1)
        across = QHBoxLayout(self)
        across.setContentsMargins(Space.WIDE, Space.NEAR, Space.WIDE, 0)
        across.addWidget(middle)

    def _parts(self) -> QWidget:
        holder = QWidget()
        line = QHBoxLayout(holder)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(Space.NEAR)
        for part, words in _words().items():
            button = QPushButton(words)
            button.setProperty("choice", True)  # noqa: FBT003  Qt's own signature
            button.setCheckable(True)
            self._buttons.addButton(button, part)
            line.addWidget(button)
        line.addStretch(1)
        cover = quiet_button(_("Cover for a passer-by (F8)"), self.cover_asked.emit)
        cover.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        line.addWidget(cover)
        return holder

    def _connect(self) -> None:
        self._buttons.idClicked.connect(self._show_pressed)
        self.curtain.uncover_asked.connect(self.cover_asked)
        QShortcut(QKeySequence(Qt.Key.Key_F8), self).activated.connect(self.cover_asked)
        self.evening.closing_asked.connect(self.show_closing)
        self.closing.back_asked.connect(self._show_evening)
        self.closing.sheet_asked.connect(self.sheet_asked)
        for page in (self.evening, self.closing):
            page.athlete_asked.connect(self.athlete_asked)
        for told in (self.evening.told, self.morning.told, self.team_session.told):
            told.connect(self.told)

    def _show_pressed(self, part: int) -> None:
        self.show_part(Part(part))

    def _show_evening(self) -> None:
        self.show_part(Part.EVENING)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        """Hand the cursor on: one comes here to type."""
        super().focusInEvent(event)
        self.begin()


def _of(words: str, day: date, names: Iterable[str], *, kept: bool) -> Unsaved | None:
    """Return what is typed on a page, None where nothing is."""
    whose = ", ".join(dict.fromkeys(names))
    return Unsaved(words.format(day=day_words(day)), whose, kept) if whose else None


def _names(lines: Iterable[EveningLine | MorningLine]) -> list[str]:
    return [line.history.athlete.name for line in lines]


def _words() -> dict[Part, str]:
    return {
        Part.EVENING: _("Eve&ning"),
        Part.MORNING: _("&Morning"),
        Part.TEAM_SESSION: _("&Team session"),
    }
