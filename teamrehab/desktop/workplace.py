"""The open casebook on screen: a band with its places, the squad beside one athlete."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, Qt, QTimer, Signal
from PySide6.QtWidgets import QSplitter, QStackedWidget, QVBoxLayout, QWidget

from teamrehab.desktop.background import Workers, import_parts_of_qt, prepare_pages
from teamrehab.desktop.band import Band, Place
from teamrehab.desktop.boards import Boards
from teamrehab.desktop.first_paint import FirstPaint
from teamrehab.desktop.keeping import backup_words
from teamrehab.desktop.leaving import Leaving, Unsaved
from teamrehab.desktop.over_places import OverPlaces
from teamrehab.desktop.session import Session
from teamrehab.desktop.squad.view import SquadView
from teamrehab.desktop.weekly_check import WeeklyCheck
from teamrehab.language import _
from teamrehab.reports.wording import hour_words
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.desktop.athlete.page import AthletePage
    from teamrehab.desktop.casebook_page import CasebookPage
    from teamrehab.desktop.evening.place import AfterTraining

_CHECK_AFTER_MS = 20_000
"""The first seconds of an evening belong to the person at the desk."""


class Workplace(QWidget):
    """Everything one can do while a casebook is open.

    The squad is there at once; the other pages are made, each in a turn of its own, once the
    likely returns are there too, or when they are asked for before.
    """

    lock_asked = Signal()
    told = Signal(str)
    troubled = Signal(str)

    def __init__(
        self,
        session: Session,
        workers: Workers,
        split: bytes = b"",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._session, self._workers, self._split = session, workers, split
        self._athlete: AthletePage | None = None
        self._after_training: AfterTraining | None = None
        self._casebook: CasebookPage | None = None
        self._painted_once, self._athlete_shown = False, False
        self.squad = SquadView()
        self.boards = Boards(session, workers, self)
        self.weekly_check = WeeklyCheck(session, self)
        self.over, self._newest_save = OverPlaces(session, self), ""
        self.split = QSplitter(Qt.Orientation.Horizontal)
        self.band, self.pages = Band(session.about.team.name), QStackedWidget()
        self._lay_out()
        self._connect()
        self.boards.refresh()

    @property
    def athlete(self) -> "AthletePage":
        """Return the page of one athlete, beside the squad; hidden until one is shown."""
        if self._athlete is None:
            self._athlete = self._make_athlete()
        return self._athlete

    @property
    def after_training(self) -> "AfterTraining":
        """Return the page of the evening, the morning and the team session."""
        if self._after_training is None:
            self._after_training = self._make_after_training()
        return self._after_training

    @property
    def casebook(self) -> "CasebookPage":
        """Return the page about the casebook itself."""
        if self._casebook is None:
            self._casebook = self._make_casebook()
        return self._casebook

    def go_to(self, place: Place) -> None:
        """Show a place, as its button in the band does."""
        self._show_place(place)

    def show_athlete(self, athlete_id: str) -> None:
        """Show one athlete beside the squad."""
        self._athlete_shown = True
        self.athlete.setVisible(not self.squad.cover.isChecked())
        self.athlete.show_athlete(athlete_id)
        self.squad.mark_open(athlete_id)

    def may_be_left(self) -> bool:
        """Return whether nothing typed would be lost, or a person lets it go.

        What can be kept is kept as a draft before anybody is asked.
        """
        unsaved = self._unsaved()
        if not unsaved:
            return True
        if self._after_training is not None:
            self._after_training.keep()
        asked = Leaving(self, unsaved)
        asked.exec()
        asked.deleteLater()
        return asked.left

    def _unsaved(self) -> tuple[Unsaved, ...]:
        dialog = None if self._athlete is None else self._athlete.dialog
        form = () if dialog is None else dialog.unsaved
        rows = () if self._after_training is None else self._after_training.unsaved
        return (*form, *rows)

    def status_words(self) -> tuple[str, str, str]:
        """Return who writes, how it is protected, and when the last backup was made."""
        about = self._session.about
        me = _("Signed in: {name}").format(name=about.me.name)
        protection = _("Encrypted") if about.protected else _("Demo: not protected")
        return me, protection, backup_words(about)

    def split_state(self) -> bytes:
        """Return where the divider stands, for the next time."""
        return self._split if self._athlete is None else bytes(self.split.saveState().data())

    def commands(self) -> dict[str, Callable[[], object]]:
        """Return what the menus can do here."""
        return {
            "squad": lambda: self.go_to(Place.SQUAD),
            "after": lambda: self.go_to(Place.AFTER_TRAINING),
            "casebook": lambda: self.go_to(Place.CASEBOOK),
            "roster": self.over.import_roster,
            "fixtures": self.over.import_fixtures,
            "athlete": self.over.add_athlete,
            "sheet": self._show_sheet,
            "protocols": self._show_protocols,
        }

    def _show_sheet(self) -> None:
        self.over.show_sheet(self.boards.board)

    def _show_protocols(self) -> None:
        self.over.show_protocols(self.athlete.open_now())

    def _show_place(self, place: Place) -> None:
        self.band.show_place(place)
        page: QWidget = self.split
        if place is not Place.SQUAD:
            page = self.casebook if place is Place.CASEBOOK else self.after_training
        self.pages.setCurrentWidget(page)
        begun = self.squad if place is Place.SQUAD else page
        begun.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _show_in_squad(self, athlete_id: str) -> None:
        """Show an athlete that another place asked for."""
        self.go_to(Place.SQUAD)
        self.show_athlete(athlete_id)

    def _make_pages(self) -> None:
        if self._athlete is not None:
            self._athlete.view.graphs.release()
        QTimer.singleShot(0, self, self._prepare_athlete)
        QTimer.singleShot(0, self, self._prepare_after_training)
        QTimer.singleShot(0, self, self._prepare_casebook)

    def _prepare_athlete(self) -> None:
        _ = self.athlete

    def _prepare_after_training(self) -> None:
        _ = self.after_training

    def _prepare_casebook(self) -> None:
        _ = self.casebook

    def _make_athlete(self) -> "AthletePage":
        from teamrehab.desktop.athlete.page import AthletePage

        page = AthletePage(self._session)
        page.hide()
        self.split.addWidget(page)
        for place in (0, 1):
            self.split.setStretchFactor(place, 1)
        if not self.split.restoreState(QByteArray(self._split)):
            whole = self.split.width()
            self.split.setSizes([whole * 9 // 20, whole * 11 // 20])
        if not self.boards.is_warm:
            page.view.graphs.hold()
        if self.boards.board is not None:
            page.show_board(self.boards.board)
        return page

    def _make_after_training(self) -> "AfterTraining":
        from teamrehab.desktop.evening.place import AfterTraining

        page = AfterTraining(self._session)
        page.athlete_asked.connect(self._show_in_squad)
        page.sheet_asked.connect(self._show_sheet)
        page.told.connect(self._tell)
        page.cover_asked.connect(self.squad.cover.toggle)
        page.cover(covered=self.squad.cover.isChecked())
        self.pages.addWidget(page)
        if self.boards.board is not None:
            page.show_board(self.boards.board)
        return page

    def _make_casebook(self) -> "CasebookPage":
        from teamrehab.desktop.casebook_page import CasebookPage

        page = CasebookPage(self._session)
        page.roster_asked.connect(self.over.import_roster)
        page.fixtures_asked.connect(self.over.import_fixtures)
        page.lock_asked.connect(self.lock_asked)
        self.pages.addWidget(page)
        if self.boards.board is not None:
            page.show_board(self.boards.board)
        return page

    def _lay_out(self) -> None:
        self.split.addWidget(self.squad)
        self.split.setChildrenCollapsible(False)
        self.pages.addWidget(self.split)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.band)
        column.addWidget(self.pages, 1)

    def _connect(self) -> None:
        self.band.chosen.connect(self._show_place)
        self.band.sheet_asked.connect(self._show_sheet)
        self.boards.changed.connect(self._show_board)
        self.boards.warm.connect(self._make_pages)
        self._session.noted.connect(self._say_saved)
        self._session.last_saves.changed.connect(self._remember)
        self._session.failed.connect(self._forget)
        self.over.told.connect(self.told)
        self.weekly_check.troubled.connect(self.troubled)
        self.squad.opened.connect(self.show_athlete)
        self.squad.covered.connect(self._cover)
        self.squad.roster_asked.connect(self.over.import_roster)
        self.squad.athlete_asked.connect(self.over.add_athlete)

    def _remember(self, words: str) -> None:
        self._newest_save = words

    def _forget(self, _error: Exception) -> None:
        self._newest_save = ""  # what could not be taken back was not saved just now

    def _say_saved(self, _case_id: str) -> None:
        """Say when, of whom and what was saved; not what it says."""
        hour = hour_words(self._session.about.clock.local())
        what, self._newest_save = self._newest_save.removesuffix(", "), ""
        if not what or self.squad.cover.isChecked():
            self.told.emit(_("Saved at {hour}").format(hour=hour))
        else:
            self.told.emit(_("Saved at {hour}: {what}").format(hour=hour, what=what))

    def _tell(self, words: str) -> None:
        """Pass on what a page says, but no name while a passer-by may read it."""
        self.told.emit("" if self.squad.cover.isChecked() else words)

    def _cover(self, covered: bool) -> None:  # noqa: FBT001  a slot of the squad's signal
        if self._athlete_shown:
            self.athlete.setVisible(not covered)
        if self._after_training is not None:
            self._after_training.cover(covered=covered)
        self.told.emit("")

    def _show_board(self, board: Board) -> None:
        self.squad.show_squad(board.squad, board.rows, board.outlook)
        if not self._painted_once:
            self._painted_once = True
            seen = self.squad.table.viewport() if board.rows else self.squad
            FirstPaint(seen).painted.connect(self.begin_the_rest)
            seen.update()
        for page in (self._athlete, self._after_training, self._casebook):
            if page is not None:
                page.show_board(board)

    def begin_the_rest(self) -> None:
        """The squad is painted: import the other pages, and work out the likely returns."""
        import_parts_of_qt()
        self._workers.ask(prepare_pages, None, self._session.failed.emit)
        self.boards.begin_estimates()
        QTimer.singleShot(_CHECK_AFTER_MS, self.weekly_check, self.weekly_check.begin)
