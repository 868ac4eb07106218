"""What a physio does at the window, by keys and clicks, each waited for until it is done."""

from collections.abc import Callable
from datetime import UTC, datetime, time
from pathlib import Path
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

from PySide6.QtCore import QElapsedTimer, Qt, QTimer
from PySide6.QtWidgets import QApplication, QFileDialog, QLineEdit, QWidget

from teamrehab.desktop.import_dialog import ImportDialog
from teamrehab.desktop.main_window import MainWindow
from teamrehab.desktop.sheet.page import SheetDialog
from teamrehab.domain.days import Clock
from teamrehab.reports.findings import CoachSheet, SquadRow
from tests.builders import day

W = TypeVar("W", bound=QWidget)

ZONE = "Europe/Lisbon"
CTRL = Qt.KeyboardModifier.ControlModifier


class ClubTime:
    """A clock that stands still until it is set: days are counted from the onset."""

    def __init__(self) -> None:
        self.set(0)
        self.clock = Clock(lambda: self._instant, ZONE)

    def set(self, number: int, at: time = time(21, 40)) -> None:
        """Make it ``at`` by the club's wall clock, ``number`` days after the onset."""
        local = datetime.combine(day(number), at, ZoneInfo(ZONE))
        self._instant = local.astimezone(UTC)


class Physio:
    """One person at one window."""

    def __init__(self, qtbot: Any, window: MainWindow, time: ClubTime) -> None:
        self.qtbot, self.window, self.time = qtbot, window, time

    # --- hands

    def write(self, widget: QWidget, words: str) -> None:
        """Go to a field and type; only what can be reached can be typed into."""
        self._go_to(widget)
        self.qtbot.keyClicks(QApplication.focusWidget(), words)

    def press(self, widget: QWidget, key: Qt.Key, times: int = 1) -> None:
        """Go to a field and press a key there."""
        self._go_to(widget)
        for _ in range(times):
            self.qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
            self.qtbot.keyClick(QApplication.focusWidget(), key)

    def click(self, button: QWidget) -> None:
        """Click a button that is there and can be pressed."""
        assert button.isVisible()
        assert button.isEnabled()
        self.qtbot.mouseClick(button, Qt.MouseButton.LeftButton)

    def keys(self, key: Qt.Key) -> None:
        """Press Ctrl and a key in the main window."""
        self._come_to(self.window)
        self.qtbot.keyClick(self.window, key, CTRL)

    def until(self, true: Callable[[], bool]) -> None:
        """Wait until something holds."""
        self.qtbot.waitUntil(true, timeout=10_000)

    def _go_to(self, widget: QWidget) -> None:
        self._come_to(widget.window())
        widget.setFocus(Qt.FocusReason.TabFocusReason)
        reached = QApplication.focusWidget()
        assert reached is not None
        assert reached is widget or widget.isAncestorOf(reached)

    def _come_to(self, window: QWidget) -> None:
        window.activateWindow()
        self.until(window.isActiveWindow)

    # --- the way in and out

    def create(self, folder: Path, team: str, name: str, passphrase: str) -> None:
        """Make a casebook in the form and come into it."""
        start = self.window.entrance.start_page
        self.click(start.new)
        page = self.window.entrance.create_page
        for field, words in (
            (page.team, team),
            (page.sport, "football"),
            (page.name, name),
            (page.role, "phys"),
            (page.passphrase, passphrase),
            (page.again, passphrase),
            (page.folder, str(folder)),
        ):
            self.write(field, words)
        self.click(page.make)
        self._inside()

    def lock(self) -> None:
        """Lock by key; the page that asks for the passphrase comes."""
        self.keys(Qt.Key.Key_L)
        self.until(lambda: self.window.session is None)

    def unlock(self, passphrase: str) -> None:
        """Type the passphrase and Enter."""
        page = self.unlock_page
        self.write(page.passphrase, passphrase)
        self.press(page.passphrase, Qt.Key.Key_Return)
        self._inside()

    @property
    def unlock_page(self) -> Any:
        """Return the page that asks for the passphrase."""
        page = self.window.entrance.unlock_page
        assert page is not None
        assert page.isVisible()
        return page

    def night(self, number: int) -> None:
        """Leave the window open until the evening ``number`` days after the onset."""
        self.time.set(number)
        self._followed_by_board(self.boards._turn_day)
        assert self.board.squad.day == day(number)

    def _inside(self) -> None:
        self.until(lambda: self.window.workplace is not None)
        self.until(lambda: self.boards.has_estimates)

    def drop_what_is_open(self) -> None:
        """Leave forms as after a failed step, so that closing the window asks nothing."""
        if self.window.workplace is not None and (dialog := self.place.athlete.dialog):
            dialog.form._touched = False
            dialog.reject()
        for sheet in self.window.findChildren(SheetDialog):
            sheet.close()

    # --- what is seen

    @property
    def place(self) -> Any:
        """Return what is on screen while a casebook is open."""
        assert self.window.workplace is not None
        return self.window.workplace

    @property
    def boards(self) -> Any:
        """Return where the boards come from."""
        return self.place.boards

    @property
    def board(self) -> Any:
        """Return the newest board."""
        return self.boards.board

    @property
    def view(self) -> Any:
        """Return the athlete's page."""
        assert self.place.athlete.isVisible()
        return self.place.athlete.view

    @property
    def row(self) -> SquadRow:
        """Return the row of the athlete on the page."""
        row: SquadRow = self.place.athlete.portrait().row
        return row

    def entries(self) -> list[str]:
        """Return the results in the athlete's list of entries, newest first."""
        model = self.view.entries.model
        return [model.index(n, 2).data() for n in range(model.rowCount())]

    @property
    def case(self) -> Any:
        """Return the open case of the athlete on the page as the casebook holds it."""
        return self.place.athlete.portrait().history

    # --- what is done

    def take_in(self, item: str, file: Path) -> list[str]:
        """Import a file by its menu item; return what was told of rows that cannot stand."""
        self._choose_file(file, lambda: self.window.do(item))
        dialog = self._open_one(ImportDialog)
        self.until(dialog.keep.isEnabled)
        told: list[str] = dialog.problems.toPlainText().splitlines()
        self._followed_by_board(lambda: self.click(dialog.keep))
        assert not dialog.isVisible()
        return told

    def find(self, words: str) -> None:
        """Search the squad by key and open the first athlete found."""
        self.keys(Qt.Key.Key_F)
        search = QApplication.focusWidget()
        self.qtbot.keyClicks(search, words)
        self.qtbot.keyClick(search, Qt.Key.Key_Return)

    def open_form(self, key: Qt.Key) -> Any:
        """Open a form of the athlete's page by its key; return its window."""
        self.keys(key)
        return self.dialog()

    def dialog(self) -> Any:
        """Return the form that is open; no window's title names an athlete."""
        dialog = self.place.athlete.dialog
        assert dialog is not None
        self._come_to(dialog)
        names = [row.surname for row in self.board.rows]
        titles = " ".join(w.windowTitle() for w in QApplication.topLevelWidgets())
        assert [name for name in names if name in titles] == []
        return dialog

    def ctrl_enter(self) -> None:
        """Press Ctrl+Enter in the form that is open."""
        self.qtbot.keyClick(self.dialog(), Qt.Key.Key_Return, CTRL)

    def save(self) -> None:
        """Press Ctrl+Enter; the form goes and the board follows."""
        self._followed_by_board(self.ctrl_enter)
        assert self.place.athlete.dialog is None

    def sign_and_save(self, name: str, path: Path) -> CoachSheet:
        """Open the coach's sheet by key, sign it, save it as PDF; return what went out."""
        self.keys(Qt.Key.Key_P)
        dialog = self._open_one(SheetDialog)
        self.write(dialog.view.signature, name)
        self.until(lambda: dialog.sheet is not None and dialog.sheet.signed == name)
        self._followed_by_board(
            lambda: self._choose_file(path, lambda: self.click(dialog.view.pdf))
        )
        assert path.name in dialog.view.told.text()
        self.press(dialog.view.signature, Qt.Key.Key_Escape)
        assert not dialog.isVisible()
        assert dialog.sheet is not None
        return dialog.sheet

    def _followed_by_board(self, do: Callable[[], object]) -> None:
        """Do something and wait for the board with its likely returns that follows."""
        boards, before = self.boards, self.board
        do()
        self.until(lambda: boards.board is not before and boards.has_estimates)

    def _open_one(self, kind: type[W]) -> W:
        found = [w for w in self.window.findChildren(kind) if w.isVisible()]
        (dialog,) = found
        return dialog

    def _choose_file(self, path: Path, ask: Callable[[], object]) -> None:
        """Do what asks for a file, and answer the file dialog by keys."""
        answering = _Answer(self, path)
        ask()
        assert answering.given, "no file was asked for"


class _Answer:
    """Types a path into the next file dialog; gives it up where it does not take the path."""

    def __init__(self, physio: Physio, path: Path) -> None:
        self.given = False
        self._physio, self._path = physio, path
        self._since = QElapsedTimer()
        self._timer = QTimer(physio.window)
        self._timer.timeout.connect(self._look)
        self._timer.start(5)

    def _look(self) -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, QFileDialog):
            if self.given:
                self._timer.stop()
            return
        if not self.given:
            self.given = True
            self._since.start()
            self._type(dialog)
        elif self._since.hasExpired(5_000):
            dialog.reject()

    def _type(self, dialog: QFileDialog) -> None:
        field = dialog.findChild(QLineEdit, "fileNameEdit")
        assert isinstance(field, QLineEdit)
        field.selectAll()
        self._physio.write(field, str(self._path))
        self._physio.press(field, Qt.Key.Key_Return)
