"""The casebook itself: whose it is, where it lies, whether it is whole, how the club counts."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, prose, text
from teamrehab.desktop.buttons import plain_button
from teamrehab.desktop.create_page import role_choices
from teamrehab.desktop.keeping import backup_words, protection_words
from teamrehab.desktop.key_dialog import KeyDialog
from teamrehab.desktop.reading_column import reading_column
from teamrehab.desktop.session import About, Session
from teamrehab.desktop.settings_form import SettingsForm
from teamrehab.domain.athletes import StaffMember
from teamrehab.domain.settings import ClubSettings
from teamrehab.language import _, counted
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.records import Casebook, CasebookCheck, Receipt


class CasebookPage(QWidget):
    """Everything about the open casebook that is not about an athlete."""

    roster_asked = Signal()
    fixtures_asked = Signal()
    lock_asked = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._people: tuple[StaffMember, ...] = ()
        about = session.about
        column = reading_column(self)
        column.setSpacing(Space.NEAR)
        column.addWidget(text(about.team.name, Type.DISPLAY))
        column.addWidget(text(about.team.sport, Type.LEAD))
        self._add_files(column)
        self._add_people(column, about)
        self._add_place(column, about)
        self._add_check(column)
        self._add_settings(column)
        column.addStretch(1)

    def show_board(self, board: Board) -> None:
        """Show the people and settings that stand now."""
        self._people = board.squad.staff
        roles = dict(role_choices())
        lines = [_person(member, roles[member.role]) for member in self._people]
        self.people.setText("\n".join(lines) or _("Nobody yet."))
        self.settings.show_settings(board.squad.settings)

    def _add_files(self, column: QVBoxLayout) -> None:
        _heading(column, _("Import files"))
        column.addWidget(prose(_("Who is known already is updated; nobody is doubled.")))
        roster = plain_button(_("&Roster (CSV, XLSX)..."), self.roster_asked.emit)
        fixtures = plain_button(_("&Fixtures (iCalendar)..."), self.fixtures_asked.emit)
        _line(column, roster, fixtures)

    def _add_people(self, column: QVBoxLayout, about: About) -> None:
        _heading(column, _("People"))
        self.people = text("")
        column.addWidget(self.people)
        self.give_key = plain_button(_("&Give a colleague a key..."), self._give_key)
        self.give_key.setEnabled(about.protected)
        _line(column, self.give_key)

    def _add_place(self, column: QVBoxLayout, about: About) -> None:
        _heading(column, _("Where it lies"))
        place = text(str(about.folder))
        place.setWordWrap(True)
        place.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        column.addWidget(place)
        column.addWidget(prose(protection_words(about)))
        column.addWidget(text(backup_words(about)))
        _line(column, plain_button(_("&Lock and make a backup"), self.lock_asked.emit))

    def _add_check(self, column: QVBoxLayout) -> None:
        _heading(column, _("Is it whole?"))
        self.found = prose(_("The check reads every entry and recomputes its sum."))
        column.addWidget(self.found)
        self.check = plain_button(_("&Check now"), self._check)
        _line(column, self.check)

    def _add_settings(self, column: QVBoxLayout) -> None:
        _heading(column, _("How this club counts"))
        self.settings = SettingsForm()
        self.settings.saved.connect(self._save_settings)
        column.addWidget(self.settings)
        self.saved = text("", Type.SMALL)
        column.addWidget(self.saved)

    def _give_key(self) -> None:
        known = [member.name for member in self._people]
        KeyDialog(self._session, known, self).open()

    def _check(self) -> None:
        self.check.setEnabled(False)
        self.found.setText(_("Checking..."))
        self._session.ask(_checked, self._show_check, self._check_failed)

    def _show_check(self, found: "CasebookCheck") -> None:
        self.check.setEnabled(True)
        whole = counted(
            "{count} entry read; everything is whole.",
            "{count} entries read; everything is whole.",
            found.facts,
        )
        self.found.setText("\n".join(found.troubles) or whole)

    def _check_failed(self, error: Exception) -> None:
        self.check.setEnabled(True)
        self.found.setText(_("The check could not be finished."))
        self._session.failed.emit(error)

    def _save_settings(self, settings: ClubSettings) -> None:
        self.saved.setText("")
        self._session.write(lambda casebook: casebook.note(settings), "", self._settings_saved)

    def _settings_saved(self, _receipt: "Receipt") -> None:
        self.saved.setText(_("Saved."))


def _checked(casebook: "Casebook") -> "CasebookCheck":
    return casebook.check()


def _person(member: StaffMember, role: str) -> str:
    return _("{name}, {role}").format(name=member.name, role=role)


def _heading(column: QVBoxLayout, words: str) -> None:
    column.addSpacing(Space.APART)
    column.addWidget(text(words, Type.TITLE))


def _line(column: QVBoxLayout, *buttons: QPushButton) -> None:
    line = QHBoxLayout()
    for button in buttons:
        line.addWidget(button)
    line.addStretch(1)
    column.addLayout(line)
