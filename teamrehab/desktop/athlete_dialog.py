"""Add one athlete to the squad by hand."""

from datetime import date
from functools import partial

from PySide6.QtWidgets import QDialog, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget
from typing_extensions import override
from uuid_utils import uuid7

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.buttons import main_button, plain_button
from teamrehab.desktop.forms import (
    Field,
    NumberField,
    by_field,
    form_layout,
    row,
    show_troubles,
    without_mnemonic,
)
from teamrehab.desktop.leaving import Leaving, Unsaved
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import Notice, is_known
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.plausibility import check
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt


class AthleteDialog(QDialog):
    """Name, number, birth date, position; only the surname is needed."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.setWindowTitle(_("Add an athlete"))
        self.surname, self.first_name, self.latin = QLineEdit(), QLineEdit(), QLineEdit()
        self.number, self.born, self.position = NumberField(), QLineEdit(), QLineEdit()
        self.born.setPlaceholderText(_("2004-12-31"))
        self.notice = Notice()
        self.add = main_button(_("&Add"), self._add)
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.WIDE, Space.APART, Space.WIDE, Space.APART)
        column.addWidget(self.notice)
        inner = QWidget()
        self.fields = self._rows(inner)
        column.addWidget(inner)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(plain_button(_("&Cancel"), self.reject))
        buttons.addWidget(self.add)
        column.addLayout(buttons)
        self.setMinimumWidth(460)

    @override
    def reject(self) -> None:
        """Leave, but ask before what was typed is lost."""
        typed = (self.surname, self.first_name, self.number, self.born, self.position)
        if not any(field.text().strip() for field in (*typed, self.latin)):
            super().reject()
            return
        self.question = Leaving(self, [Unsaved(self.windowTitle(), self._athlete().name)])
        self.question.finished.connect(self._answered)
        self.question.open()

    def troubles(self) -> dict[str, str]:
        """Return a sentence for each field that cannot stand, by the field's own words."""
        today = self._session.about.clock.today()
        found = by_field(check(self._athlete(), today))
        if self.born.text().strip() and self._born() is None:
            found[_("Born")] = _("Type year, month and day: 2004-12-31.")
        return found

    def _rows(self, parent: QWidget) -> dict[str, Field]:
        form = form_layout(parent)
        latin = _("Only for a name in a script that the coach does not read.")
        rows = (
            (_("&Surname"), self.surname, ""),
            (_("&First name"), self.first_name, ""),
            (_("&Number"), self.number, ""),
            (_("&Born"), self.born, _("Year, month, day.")),
            (_("&Position"), self.position, ""),
            (_("Name in &Latin letters"), self.latin, latin),
        )
        return {
            without_mnemonic(label): row(form, label, widget, help_text)
            for label, widget, help_text in rows
        }

    def _born(self) -> date | None:
        try:
            return date.fromisoformat(self.born.text().strip())
        except ValueError:
            return None

    def _athlete(self) -> Athlete:
        return Athlete(
            athlete_id=str(uuid7()),
            surname=self.surname.text().strip(),
            first_name=self.first_name.text().strip(),
            number=self.number.value,
            born=self._born(),
            position=self.position.text().strip(),
            printed_name=self.latin.text().strip(),
        )

    def _add(self) -> None:
        found = self.troubles()
        elsewhere = show_troubles(self.fields, found)
        if elsewhere:
            self.notice.say("\n".join(elsewhere))
        if not found:
            self.add.setEnabled(False)
            note = partial(_note, self._athlete())
            self._session.write(note, "", self._added, self._refuse)

    def _answered(self, _result: int) -> None:
        if self.question.left:
            super().reject()

    def _added(self, _receipt: Receipt) -> None:
        self.accept()

    def _refuse(self, error: Exception) -> None:
        self.add.setEnabled(True)
        if not is_known(error):
            raise error
        self.notice.say(str(error))


def _note(athlete: Athlete, casebook: Casebook) -> Receipt:
    return casebook.note(athlete)
