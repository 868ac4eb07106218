"""The way in: start, make, unlock. It hands over a function that opens the casebook."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.start_page import StartPage
from teamrehab.desktop.trouble import Notice, is_known
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.days import Clock
from teamrehab.language import _

if TYPE_CHECKING:
    from teamrehab.desktop.create_page import CreatePage, Wish
    from teamrehab.desktop.unlock_page import UnlockPage
    from teamrehab.records import Casebook


class Entrance(QWidget):
    """All pages before a casebook is open. ``entering(function)`` opens one when called."""

    entering = Signal(object)

    def __init__(self, clock: Clock, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._clock = clock
        self.notice = Notice()
        self.start_page = StartPage()
        self._create_page: CreatePage | None = None
        self.unlock_page: UnlockPage | None = None
        self._waiting = text("", Type.LEAD)
        self._before_waiting: QWidget | None = self.start_page
        self.pages = QStackedWidget()
        self._waiting_page = _centred(self._waiting)
        for page in (self.start_page, self._waiting_page):
            self.pages.addWidget(page)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.notice)
        column.addWidget(self.pages, 1)
        self._connect()

    @property
    def create_page(self) -> "CreatePage":
        """Return the form for a new casebook, made when it is first asked for."""
        if self._create_page is None:
            self._create_page = self._make_create_page()
        return self._create_page

    def forget_secrets(self) -> None:
        """Leave no passphrase on a page that is out of sight."""
        if self._create_page is not None:
            self._create_page.forget_secrets()

    def show_start(self, recent: Sequence[str]) -> None:
        """Show the first page."""
        self.notice.hide()
        self.start_page.show_recent(recent)
        self.pages.setCurrentWidget(self.start_page)
        self.start_page.begin()

    def show_create(self) -> None:
        """Show the form for a new casebook."""
        self.notice.hide()
        self.pages.setCurrentWidget(self.create_page)
        self.create_page.begin()

    def open_folder(self, folder: Path) -> None:
        """Ask for the passphrase of the casebook in ``folder``, or open it if it has none."""
        from teamrehab.records import is_protected, people_of

        people = people_of(folder)
        if people and is_protected(folder):
            self.notice.hide()
            self._show_unlock(folder, people)
        else:
            self._enter(_opening(folder, None, "", self._clock), _("Opening the casebook..."))

    def open_demo(self) -> None:
        """Make the demo squad afresh and open it."""
        self._enter(_demo(self._clock), _("Making the demo squad..."))

    def refuse(self, error: Exception) -> None:
        """Go back to where one came from and say why it did not open."""
        self.pages.setCurrentWidget(self._before_waiting or self.start_page)
        words = str(error) if is_known(error) else _("It did not open. Nothing was changed.")
        if self.unlock_page is not None and self._before_waiting is self.unlock_page:
            self.unlock_page.refuse(words)
        else:
            self.notice.say(words)

    def _connect(self) -> None:
        self.start_page.demo_asked.connect(self.open_demo)
        self.start_page.new_asked.connect(self.show_create)
        self.start_page.folder_chosen.connect(self.open_folder)

    def _make_create_page(self) -> "CreatePage":
        from teamrehab.desktop.create_page import CreatePage

        page = CreatePage()
        page.wished.connect(self._create)
        page.back_asked.connect(self._back)
        self.pages.addWidget(page)
        return page

    def _back(self) -> None:
        self.notice.hide()
        self.pages.setCurrentWidget(self.start_page)
        self.start_page.begin()

    def _show_unlock(self, folder: Path, people: Sequence[str]) -> None:
        from teamrehab.desktop.unlock_page import UnlockPage

        if self.unlock_page is not None:
            self.pages.removeWidget(self.unlock_page)
            self.unlock_page.deleteLater()
        self.unlock_page = UnlockPage(folder, people)
        self.unlock_page.unlocked.connect(self._unlock)
        self.unlock_page.back_asked.connect(self._back)
        self.pages.addWidget(self.unlock_page)
        self.pages.setCurrentWidget(self.unlock_page)
        self.unlock_page.begin()

    def _unlock(self, person: str, passphrase: str) -> None:
        if self.unlock_page is not None:
            opening = _opening(self.unlock_page.folder, person or None, passphrase, self._clock)
            self._enter(opening, _("Unlocking..."))

    def _create(self, wish: "Wish") -> None:
        self._enter(_creation(wish, self._clock), _("Making the casebook..."))

    def _enter(self, unlock: "Callable[[], Casebook]", words: str) -> None:
        self.notice.hide()
        self._before_waiting = self.pages.currentWidget()
        self._waiting.setText(words)
        self.pages.setCurrentWidget(self._waiting_page)
        self.entering.emit(unlock)


def _centred(words: QWidget) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.addStretch(1)
    column.addWidget(words)
    column.addStretch(2)
    return page


def _demo(clock: Clock) -> "Callable[[], Casebook]":
    def make() -> "Casebook":
        from teamrehab.tasks.demo import demo_folder, make_demo

        return make_demo(demo_folder(), clock)

    return make


def _opening(
    folder: Path, person: str | None, passphrase: str, clock: Clock
) -> "Callable[[], Casebook]":
    def unlock() -> "Casebook":
        from teamrehab.records import open_casebook

        return open_casebook(folder, passphrase=passphrase, clock=clock, person=person)

    return unlock


def _creation(wish: "Wish", clock: Clock) -> "Callable[[], Casebook]":
    def create() -> "Casebook":
        from uuid_utils import uuid7

        from teamrehab.records import create_casebook

        return create_casebook(
            wish.folder,
            team=Team(name=wish.team, sport=wish.sport, zone=clock.zone),
            founder=StaffMember(staff_id=str(uuid7()), name=wish.name, role=wish.role),
            passphrase=wish.passphrase,
            clock=clock,
        )

    return create
