"""Let another member of staff open the casebook, with a passphrase of their own."""

from collections.abc import Collection
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QDialog, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget
from uuid_utils import uuid7

from teamrehab.desktop.appearance import Space, prose
from teamrehab.desktop.buttons import main_button, plain_button
from teamrehab.desktop.create_page import (
    again_trouble,
    name_trouble,
    passphrase_trouble,
    role_choices,
)
from teamrehab.desktop.forms import (
    ChoiceField,
    Field,
    form_layout,
    row,
    secret_field,
    show_troubles,
)
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import Notice, is_known
from teamrehab.domain.athletes import Role, StaffMember
from teamrehab.language import _

if TYPE_CHECKING:
    from teamrehab.records import Casebook


class KeyDialog(QDialog):
    """A name, a role and a passphrase; the colleague types the passphrase."""

    def __init__(
        self, session: Session, known: Collection[str], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, self._known = session, known
        self.setWindowTitle(_("Give a colleague a key"))
        self.name, self.role = QLineEdit(), ChoiceField(role_choices())
        self.passphrase, self.again = secret_field(), secret_field()
        self.notice = Notice()
        self.give = main_button(_("&Give the key"), self._give)
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.WIDE, Space.APART, Space.WIDE, Space.APART)
        column.addWidget(
            prose(_("Hand over the keyboard: the passphrase is your colleague's."))
        )
        column.addWidget(self.notice)
        inner = QWidget()
        self.fields = self._rows(inner)
        column.addWidget(inner)
        column.addLayout(self._buttons())
        self.resize(480, self.sizeHint().height())

    def troubles(self) -> dict[str, str]:
        """Return a sentence for each field that cannot stand yet."""
        name = self.name.text().strip()
        taken = _("There is a key with this name; type another name.")
        found = {
            "name": name_trouble(name, _("Type the colleague's name."))
            or (taken if name in self._known else ""),
            "role": "" if self.role.value else _("Choose a role in the club."),
            "passphrase": passphrase_trouble(self.passphrase.text()),
            "again": again_trouble(self.passphrase.text(), self.again.text()),
        }
        return {name: sentence for name, sentence in found.items() if sentence}

    def _rows(self, parent: QWidget) -> dict[str, Field]:
        form = form_layout(parent)
        return {
            "name": row(form, _("&Name"), self.name),
            "role": row(form, _("&Role"), self.role),
            "passphrase": row(form, _("&Passphrase"), self.passphrase),
            "again": row(form, _("Passphrase &again"), self.again),
        }

    def _buttons(self) -> QHBoxLayout:
        line = QHBoxLayout()
        line.addStretch(1)
        line.addWidget(plain_button(_("&Cancel"), self.reject))
        line.addWidget(self.give)
        return line

    def _give(self) -> None:
        found = self.troubles()
        show_troubles(self.fields, found)
        if found:
            return
        role = self.role.value or Role.GUEST
        name = self.name.text().strip()
        member = StaffMember(staff_id=str(uuid7()), name=name, role=role)
        give = partial(_give_key, member, self.passphrase.text())
        self.give.setEnabled(False)
        self._session.write(give, "", self._given, self._refuse)

    def _given(self, _nothing: None) -> None:
        self.accept()

    def _refuse(self, error: Exception) -> None:
        self.give.setEnabled(True)
        if not is_known(error):
            raise error
        self.notice.say(str(error))


def _give_key(member: StaffMember, passphrase: str, casebook: "Casebook") -> None:
    """Note who it is first: a key without a person would sign with no name."""
    casebook.note(member)
    casebook.give_key(member, passphrase)
