"""The one window: the way in or the open casebook, menus, status line, closing in order."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QSettings, Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QMainWindow,
    QStackedWidget,
)
from typing_extensions import override

from teamrehab.desktop import menus, preferences
from teamrehab.desktop.appearance import Appearance, Scheme
from teamrehab.desktop.background import Workers, prepare_to_enter
from teamrehab.desktop.entrance import Entrance
from teamrehab.desktop.first_paint import FirstPaint
from teamrehab.desktop.logbook import Event, write, write_error
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import Notice, is_known, tell
from teamrehab.desktop.undo_key import UndoKey
from teamrehab.desktop.window_frame import lay_out
from teamrehab.domain.days import Clock
from teamrehab.language import _

if TYPE_CHECKING:
    from teamrehab.desktop.workplace import Workplace
    from teamrehab.records import Casebook


class MainWindow(QMainWindow):
    """Holds at most one session. Its title never names anybody."""

    def __init__(self, clock: Clock, appearance: Appearance, store: QSettings) -> None:
        super().__init__()
        self._appearance, self._store = appearance, store
        self._preferences = preferences.read(store)
        self._workers = Workers(1, "estimates", self)
        self._after_leaving: Callable[[], object] | None = None
        self._said_while_closing = ""
        self.session: Session | None = None
        self.workplace: Workplace | None = None
        self.entrance, self.notice, self.pages = Entrance(clock), Notice(), QStackedWidget()
        self.status = lay_out(self, self.notice, self.pages)
        self.pages.addWidget(self.entrance)
        self.restoreGeometry(QByteArray(self._preferences.window))
        self._inside = menus.build_menus(self, self.do, self._choose_scheme)
        menus.choose_in(self, self._preferences.scheme)
        appearance.choose(self._preferences.scheme)
        self.entrance.entering.connect(self.enter)
        UndoKey(self)
        FirstPaint(self).painted.connect(self._prepare)
        self._show_start()

    def enter(self, unlock: "Callable[[], Casebook]") -> None:
        """Open a casebook by calling ``unlock`` on a thread of its own."""
        self.session = Session(unlock, self)
        self.session.opened.connect(self._opened)
        self.session.failed.connect(self._failed)
        self.session.closed.connect(self._closed)
        self.session.last_saves.changed.connect(self._show_undo)

    def open_folder(self, folder: Path) -> None:
        """Leave what is open and ask for the passphrase of the casebook in ``folder``."""
        self._leave(lambda: self.entrance.open_folder(folder))

    def come_up(self) -> None:
        """Come to the front, as when the program is started a second time."""
        self.setWindowState(self.windowState() & ~Qt.WindowState.WindowMinimized)
        self.show()
        self.raise_()
        self.activateWindow()

    def do(self, key: str) -> object:
        """Do what a line of the menu says."""
        inside = {} if self.workplace is None else self.workplace.commands()
        return (inside | self._commands())[key]()

    def _prepare(self) -> None:
        self._workers.ask(prepare_to_enter, None, tell)

    def _help(self, name: str) -> None:
        from teamrehab.desktop import help_dialogs

        dialogs = {
            "first": help_dialogs.first_steps_dialog,
            "keys": help_dialogs.keys_dialog,
            "about": help_dialogs.about_dialog,
        }
        dialogs[name](self).open()

    def _commands(self) -> dict[str, Callable[[], object]]:
        return {
            "new": lambda: self._leave(self.entrance.show_create),
            "open": lambda: self._leave(self._choose_folder),
            "demo": lambda: self._leave(self.entrance.open_demo),
            "undo": self._undo,
            "lock": self._lock,
            "quit": self.close,
            **{name: partial(self._help, name) for name in ("first", "keys", "about")},
        }

    def _show_undo(self, words: str) -> None:
        menus.show_undo(self, words)

    def _undo(self) -> None:
        if self.session is not None:
            self.session.undo(self._undone)

    def _undone(self, told: tuple[str, str]) -> None:
        if self.session is None or not self.session.is_open:
            return
        from teamrehab.reports.wording import hour_words

        what, stays = told
        hour = hour_words(self.session.about.clock.local())
        words = _("Taken back at {hour}: {what}, as a correcting entry.")
        self.statusBar().showMessage(words.format(hour=hour, what=what))
        if stays:
            self.notice.say(stays)

    # --- opening

    def _opened(self) -> None:
        from teamrehab.desktop.workplace import Workplace

        if self.session is None or not self.session.is_open:  # given up in the meantime
            return
        about = self.session.about
        self.entrance.forget_secrets()
        write(Event.OPENED)
        if about.protected:
            self._keep(self._preferences.with_recent(about.folder))
        self.workplace = Workplace(self.session, self._workers, self._preferences.split)
        self.workplace.lock_asked.connect(self._lock)
        self.workplace.told.connect(self.statusBar().showMessage)
        self.workplace.troubled.connect(self.notice.say)
        self.pages.addWidget(self.workplace)
        self.pages.setCurrentWidget(self.workplace)
        self._show_inside(self.workplace.status_words())

    def _show_inside(self, words: tuple[str, ...]) -> None:
        self.notice.hide()
        self.statusBar().clearMessage()
        for action in self._inside:
            action.setEnabled(bool(words))
        self._show_undo("")
        for label, said in zip(self.status, words or ("", "", ""), strict=True):
            label.setText(said)

    def _failed(self, error: Exception) -> None:
        write_error(Event.REFUSED, error)
        if not is_known(error):
            tell(error)
        if self.workplace is None:
            self._forget_session()
            self.entrance.refuse(error)
            self._go_on()
        elif is_known(error):
            self._said_while_closing = (
                "" if self.session and self.session.is_open else str(error)
            )
            self.notice.say(str(error))

    # --- leaving

    def _lock(self) -> None:
        if self.session is None or self.workplace is None:
            return
        about = self.session.about
        back = (lambda: self.entrance.open_folder(about.folder)) if about.protected else None
        self._leave(back or self._show_start)

    def _leave(self, then: Callable[[], object]) -> None:
        """Close the casebook, if one is open, and do ``then`` afterwards."""
        if self.session is None:
            then()
        elif self.workplace is None or self.workplace.may_be_left():
            self._after_leaving = then
            self.statusBar().showMessage(_("Closing: all is saved, a backup is being made..."))
            self.pages.setEnabled(False)
            self.session.close()

    def _closed(self) -> None:
        write(Event.CLOSED)
        if self.workplace is not None:
            self._keep(replace(self._preferences, split=self.workplace.split_state()))
            self.pages.removeWidget(self.workplace)
            self.workplace.deleteLater()
            self.workplace = None
        self._forget_session()
        self.pages.setEnabled(True)
        self._show_start()
        if self._said_while_closing:  # such as a backup that failed: to be read before going on
            self.notice.say(self._said_while_closing)
            self._said_while_closing, self._after_leaving = "", None
        self._go_on()

    def _go_on(self) -> None:
        """Do what was to be done once the casebook is closed."""
        then, self._after_leaving = self._after_leaving, None
        if then is not None:
            then()

    def _forget_session(self) -> None:
        if self.session is not None:
            self.session.deleteLater()
            self.session = None

    def _show_start(self) -> None:
        self._show_inside(())
        self.pages.setCurrentWidget(self.entrance)
        self.entrance.show_start(self._preferences.recent)

    def _choose_folder(self) -> None:
        self._show_start()
        self.entrance.start_page.choose()

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        if self.session is not None:
            event.ignore()
            self._leave(self.close)
            return
        window = bytes(self.saveGeometry().data())
        self._keep(replace(self._preferences, window=window))
        self._workers.finish()
        event.accept()

    def _keep(self, changed: preferences.Preferences) -> None:
        self._preferences = changed
        preferences.keep(self._store, changed)

    def _choose_scheme(self, scheme: Scheme) -> None:
        self._appearance.choose(scheme)
        self._keep(replace(self._preferences, scheme=scheme))
