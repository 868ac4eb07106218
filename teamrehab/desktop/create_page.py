"""Make a casebook: team, who founds it, a passphrase typed twice, a folder."""

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLineEdit, QWidget

from teamrehab.desktop.appearance import Space, Type, prose, text
from teamrehab.desktop.buttons import main_button, plain_button, quiet_button
from teamrehab.desktop.forms import (
    ChoiceField,
    Field,
    form_layout,
    row,
    secret_field,
    show_troubles,
)
from teamrehab.desktop.reading_column import reading_column
from teamrehab.desktop.trouble import Notice
from teamrehab.domain.athletes import Role
from teamrehab.language import _, counted

SHORTEST_PASSPHRASE = 12
"""Letters a passphrase needs at least (common practice; four words make more)."""

LONGEST_NAME = 120
"""Letters a name can have; longer ones are no names and fit no sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """The casebook that is to be made."""

    folder: Path
    team: str
    sport: str
    name: str
    role: Role
    passphrase: str


class CreatePage(QWidget):
    """The form. ``wished(Wish)`` comes when everything in it can stand."""

    wished = Signal(object)
    back_asked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.team, self.sport, self.name = QLineEdit(), QLineEdit(), QLineEdit()
        self.role = ChoiceField(role_choices())
        self.passphrase, self.again = secret_field(), secret_field()
        self.folder = QLineEdit()
        self.browse = plain_button(_("&Browse..."), self._browse)
        self.notice = Notice()
        column = reading_column(self)
        column.addWidget(text(_("A new casebook"), Type.TITLE))
        column.addWidget(prose(_what_it_is()))
        column.addWidget(self.notice)
        column.addSpacing(Space.NEAR)
        form = QWidget()
        self.fields = self._rows(form)
        column.addWidget(form)
        column.addLayout(self._buttons())
        column.addStretch(1)

    def begin(self) -> None:
        """Start at the first field, without anything secret left over."""
        self.notice.hide()
        self.forget_secrets()
        self.team.setFocus(Qt.FocusReason.OtherFocusReason)

    def forget_secrets(self) -> None:
        """Leave no passphrase on the page."""
        self.passphrase.clear()
        self.again.clear()

    def wish(self) -> Wish:
        """Return what is typed, as it is."""
        return Wish(
            folder=Path(self.folder.text().strip()).expanduser(),
            team=self.team.text().strip(),
            sport=self.sport.text().strip(),
            name=self.name.text().strip(),
            role=self.role.value or Role.GUEST,
            passphrase=self.passphrase.text(),
        )

    def troubles(self) -> dict[str, str]:
        """Return a sentence for each field that cannot stand yet."""
        wish = self.wish()
        found = {
            "team": name_trouble(wish.team, _("Type the name of the team.")),
            "sport": name_trouble(wish.sport or "-", ""),
            "name": name_trouble(wish.name, _("Type your name as colleagues know it.")),
            "role": "" if self.role.value else _("Choose your role in the club."),
            "passphrase": passphrase_trouble(wish.passphrase),
            "again": again_trouble(wish.passphrase, self.again.text()),
            "folder": "" if self.folder.text().strip() else _("Choose a new, empty folder."),
        }
        return {name: sentence for name, sentence in found.items() if sentence}

    def _rows(self, parent: QWidget) -> dict[str, Field]:
        form = form_layout(parent)
        sheet = _("As the coach's sheet shall call it.")
        long = counted(
            "At least {count} letter; several words that belong to nobody are good.",
            "At least {count} letters; several words that belong to nobody are good.",
            SHORTEST_PASSPHRASE,
        )
        where = _("New and empty; anybody can see its name.")
        return {
            "team": row(form, _("&Team"), self.team, sheet),
            "sport": row(form, _("&Sport"), self.sport),
            "name": row(form, _("Your n&ame"), self.name, _("Stands under what you write.")),
            "role": row(form, _("Your &role"), self.role),
            "passphrase": row(form, _("&Passphrase"), self.passphrase, long),
            "again": row(form, _("Passphrase a&gain"), self.again),
            "folder": row(form, _("Fo&lder"), self.folder, where, self.browse),
        }

    def _buttons(self) -> QHBoxLayout:
        self.make = main_button(_("&Make the casebook"), self._make)
        line = QHBoxLayout()
        line.addWidget(self.make)
        line.addWidget(quiet_button(_("Bac&k"), self.back_asked.emit))
        line.addStretch(1)
        return line

    def _make(self) -> None:
        self.notice.hide()
        found = self.troubles()
        show_troubles(self.fields, found)
        if not found:
            self.wished.emit(self.wish())

    def _browse(self) -> None:
        folder = QFileDialog.getExistingDirectory(self, _("Choose an empty folder"))
        if folder:
            self.folder.setText(folder)


def role_choices() -> tuple[tuple[Role, str], ...]:
    """Return the roles in words, physio first."""
    return (
        (Role.PHYSIO, _("Physio")),
        (Role.DOCTOR, _("Doctor")),
        (Role.ASSISTANT, _("Assistant (strength coach, massage, intern)")),
        (Role.GUEST, _("Guest")),
    )


def _what_it_is() -> str:
    return _(
        "A casebook is one folder on this computer, encrypted with your passphrase. There is "
        "no way in without it, for us neither: keep it where you keep other keys."
    )


def name_trouble(name: str, if_empty: str) -> str:
    """Return why a name cannot stand, "" if it can; ``if_empty`` where nothing is typed."""
    if not name:
        return if_empty
    if len(name) > LONGEST_NAME or not name.isprintable():
        return _("{count} letters typed; a name has 1 to {most}, without line breaks.").format(
            count=len(name), most=LONGEST_NAME
        )
    return ""


def passphrase_trouble(passphrase: str) -> str:
    """Return why a passphrase cannot stand, "" if it can."""
    if len(passphrase) >= SHORTEST_PASSPHRASE:
        return ""
    if not passphrase:
        return _("Type a passphrase.")
    return counted(
        "Only {count} letter; use at least {{least}}.",
        "Only {count} letters; use at least {{least}}.",
        len(passphrase),
    ).replace("{least}", str(SHORTEST_PASSPHRASE))


def again_trouble(passphrase: str, again: str) -> str:
    """Return that the two differ, "" if they do not."""
    return "" if passphrase == again else _("The two passphrases differ; type both again.")
