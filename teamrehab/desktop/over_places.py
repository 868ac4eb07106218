"""What opens over the places: a roster, fixtures, an athlete to add, the sheet, protocols."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from teamrehab.desktop.session import Session
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.desktop.intakes import Intake
    from teamrehab.desktop.protocol_choice import OpenNow


class OverPlaces(QObject):
    """Opens dialogs over ``page``; ``told`` says what was taken in."""

    told = Signal(str)

    def __init__(self, session: Session, page: QWidget) -> None:
        super().__init__(page)
        self._session, self._page = session, page

    def import_roster(self) -> None:
        """Ask for a roster and show what it would change."""
        from teamrehab.desktop.intakes import roster_intake

        self._import(roster_intake())

    def import_fixtures(self) -> None:
        """Ask for fixtures and show what they would change."""
        from teamrehab.desktop.intakes import fixtures_intake

        self._import(fixtures_intake())

    def add_athlete(self) -> None:
        """Open the form of a new athlete."""
        from teamrehab.desktop.athlete_dialog import AthleteDialog

        AthleteDialog(self._session, self._page).open()

    def show_sheet(self, board: Board | None) -> None:
        """Open the coach's sheet of a board, once there is one."""
        from teamrehab.desktop.sheet.page import SheetDialog

        if board is not None:
            SheetDialog(self._session, board, self._page).open()

    def show_protocols(self, open_now: "OpenNow | None") -> None:
        """Show the protocols, that of the case on the page first."""
        from teamrehab.desktop.protocol_page import protocols_dialog

        protocols_dialog(open_now, self._page, self._session).open()

    def _import(self, intake: "Intake") -> None:
        from teamrehab.desktop.import_dialog import ImportDialog

        name, _kind = QFileDialog.getOpenFileName(self._page, intake.choose, "", intake.files)
        if name:
            dialog = ImportDialog(self._session, intake, Path(name), self._page)
            dialog.taken_in.connect(self.told)
            dialog.open()
