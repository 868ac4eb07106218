"""The open casebook on screen: a band with its places, the squad beside one athlete."""

from collections.abc import Callable
from enum import IntEnum
from pathlib import Path

from PySide6.QtCore import QByteArray, Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QFileDialog,
    QHBoxLayout,
    QMessageBox,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.page import AthletePage
from teamrehab.desktop.athlete_dialog import AthleteDialog
from teamrehab.desktop.background import Workers
from teamrehab.desktop.boards import Boards
from teamrehab.desktop.casebook_page import CasebookPage, backup_words
from teamrehab.desktop.first_paint import FirstPaint
from teamrehab.desktop.import_dialog import ImportDialog
from teamrehab.desktop.intakes import Intake, fixtures_intake, roster_intake
from teamrehab.desktop.session import Session
from teamrehab.desktop.sheet.page import SheetDialog
from teamrehab.desktop.squad.view import SquadView
from teamrehab.language import _
from teamrehab.tasks.board import Board


class Place(IntEnum):
    """The places there are, in the order they stand in the band."""

    SQUAD = 0
    CASEBOOK = 1


class Workplace(QWidget):
    """Everything one can do while a casebook is open."""

    lock_asked = Signal()
    told = Signal(str)

    def __init__(
        self,
        session: Session,
        workers: Workers,
        split: bytes = b"",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._places = QButtonGroup(self)
        self._painted_once, self._athlete_shown = False, False
        self.squad, self.athlete = SquadView(), AthletePage(session)
        self.casebook = CasebookPage(session)
        self.boards = Boards(session, workers, self)
        self.split = QSplitter(Qt.Orientation.Horizontal)
        self.pages = QStackedWidget()
        self._lay_out(session.about.team.name, split)
        self._connect()
        self.boards.refresh()

    def go_to(self, place: Place) -> None:
        """Show a place, as its button in the band does."""
        self._places.button(place).setChecked(True)
        self.pages.setCurrentIndex(place)
        page = {Place.SQUAD: self.squad, Place.CASEBOOK: self.casebook}[place]
        page.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def show_athlete(self, athlete_id: str) -> None:
        """Show one athlete beside the squad."""
        self._athlete_shown = True
        self.athlete.setVisible(not self.squad.cover.isChecked())
        self.athlete.show_athlete(athlete_id)

    def may_be_left(self) -> bool:
        """Return whether nothing typed would be lost, or a person lets it go."""
        if not self.athlete.has_unsaved:
            return True
        button = QMessageBox.StandardButton
        answer = QMessageBox.question(
            self,
            _("Not saved"),
            _("Something is typed and not saved. Leave it behind?"),
            button.Discard | button.Cancel,
        )
        return answer is button.Discard

    def status_words(self) -> tuple[str, str, str]:
        """Return who writes, how it is protected, and when the last backup was made."""
        about = self._session.about
        me = _("Signed in: {name}").format(name=about.me.name)
        protection = _("Encrypted") if about.protected else _("Demo: not protected")
        return me, protection, backup_words(about)

    def split_state(self) -> bytes:
        """Return where the divider stands, for the next time."""
        return bytes(self.split.saveState().data())

    def commands(self) -> dict[str, Callable[[], object]]:
        """Return what the menus can do here."""
        return {
            "squad": lambda: self.go_to(Place.SQUAD),
            "casebook": lambda: self.go_to(Place.CASEBOOK),
            "roster": self._import_roster,
            "fixtures": self._import_fixtures,
            "athlete": self._add_athlete,
            "sheet": self._show_sheet,
        }

    def _import_roster(self) -> None:
        self._import(roster_intake())

    def _import_fixtures(self) -> None:
        self._import(fixtures_intake())

    def _add_athlete(self) -> None:
        AthleteDialog(self._session, self).open()

    def _import(self, intake: Intake) -> None:
        name, _kind = QFileDialog.getOpenFileName(self, intake.choose, "", intake.files)
        if name:
            dialog = ImportDialog(self._session, intake, Path(name), self)
            dialog.taken_in.connect(self.told)
            dialog.open()

    def _show_sheet(self) -> None:
        if self.boards.board is not None:
            SheetDialog(self._session, self.boards.board, self).open()

    def _lay_out(self, team: str, split: bytes) -> None:
        self.split.addWidget(self.squad)
        self.split.addWidget(self.athlete)
        self.split.setChildrenCollapsible(False)
        self.split.setStretchFactor(0, 3)
        self.split.setStretchFactor(1, 2)
        self.split.restoreState(QByteArray(split))
        self.athlete.hide()
        self.pages.addWidget(self.split)
        self.pages.addWidget(self.casebook)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(self._band(team))
        column.addWidget(self.pages, 1)

    def _band(self, team: str) -> QHBoxLayout:
        band = QHBoxLayout()
        band.setContentsMargins(Space.APART, 0, Space.APART, 0)
        band.addWidget(text(team, Type.LEAD))
        band.addSpacing(Space.WIDE)
        for place, words in ((Place.SQUAD, _("&Squad")), (Place.CASEBOOK, _("&Casebook"))):
            button = QPushButton(words)
            button.setProperty("place", True)  # noqa: FBT003  Qt's own signature
            button.setCheckable(True)
            self._places.addButton(button, place)
            band.addWidget(button)
        band.addStretch(1)
        self._places.button(Place.SQUAD).setChecked(True)
        return band

    def _connect(self) -> None:
        self._places.idClicked.connect(self.pages.setCurrentIndex)
        self.boards.changed.connect(self._show_board)
        self.squad.opened.connect(self.show_athlete)
        self.squad.covered.connect(self._cover)
        self.squad.roster_asked.connect(self._import_roster)
        self.squad.athlete_asked.connect(self._add_athlete)
        self.casebook.roster_asked.connect(self._import_roster)
        self.casebook.fixtures_asked.connect(self._import_fixtures)
        self.casebook.lock_asked.connect(self.lock_asked)

    def _cover(self, covered: bool) -> None:  # noqa: FBT001  a slot of the squad's signal
        self.athlete.setVisible(self._athlete_shown and not covered)

    def _show_board(self, board: Board) -> None:
        self.squad.show_squad(board.squad, board.rows, board.outlook)
        if not self._painted_once:
            self._painted_once = True
            seen = self.squad.table.viewport() if board.rows else self.squad
            FirstPaint(seen).painted.connect(self.boards.begin_estimates)
            seen.update()
        self.athlete.show_board(board)
        self.casebook.show_board(board)
