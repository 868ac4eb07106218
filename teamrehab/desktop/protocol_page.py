"""The protocols at hand, to be read: the list on the left, the text on the right."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import plain_button
from teamrehab.desktop.forms import without_mnemonic
from teamrehab.desktop.protocol_acts import ProtocolFile, VersionDialog
from teamrehab.desktop.protocol_choice import (
    OpenNow,
    case_words,
    first_row,
    listed,
    name_in,
    newer_than_followed,
    stage_in,
)
from teamrehab.desktop.protocol_reader import ProtocolReader
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import Notice
from teamrehab.domain.protocol import InjuryKind, Protocol
from teamrehab.language import _
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.protocol_text import ProtocolSection, protocol_text

if TYPE_CHECKING:
    from teamrehab.records import Casebook

_SIZE = (1180, 700)
_LIST_WIDTH = 300
_NAMES_SHOWN = 8
"""A longer list of protocols scrolls: the sections below it need their room."""

_GAP = 1
"""Pixels around each line of a list."""


def protocols_dialog(
    open_now: OpenNow | None, parent: QWidget, session: Session | None = None
) -> "ProtocolDialog":
    """Return the protocols at hand, the one that is followed now first.

    With a session those of its casebook too, and files can be taken in.
    """
    dialog = ProtocolDialog(load_protocols(), injury_catalogue(), open_now, parent, session)
    if session is not None:
        session.ask(_here, dialog.show_protocols)
    return dialog


def _here(casebook: "Casebook") -> dict[str, Protocol]:
    from teamrehab.tasks.own_protocols import protocols_here

    return protocols_here(casebook)


class ProtocolDialog(QDialog):
    """Reads the protocols; with a session files are taken in. Its title names nobody."""

    def __init__(
        self,
        protocols: Mapping[str, Protocol],
        catalogue: Mapping[str, InjuryKind],
        open_now: OpenNow | None = None,
        parent: QWidget | None = None,
        session: Session | None = None,
    ) -> None:
        super().__init__(parent)
        self._session, self._catalogue = session, catalogue
        self._open_now = open_now
        self._protocols = listed(protocols, open_now)
        self._sections: tuple[ProtocolSection, ...] = ()
        self.setWindowTitle(_("Protocols"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.names, self.parts, self.reader = QListWidget(), QListWidget(), ProtocolReader()
        self.wanted, self.found = QLineEdit(), text("", Type.COMPLAINT)
        self.close_button = plain_button(_("&Close"), self.reject)
        self.file = None if session is None else ProtocolFile(session)
        self.notice = Notice()
        self.newer = plain_button("", self._ask_to_move)
        self.newer.hide()
        self._lay_out()
        self._connect()
        self.resize(*_SIZE)
        self._begin()

    @property
    def protocol(self) -> Protocol:
        """Return the protocol that is shown."""
        return self._protocols[max(self.names.currentRow(), 0)]

    def show_protocols(self, protocols: Mapping[str, Protocol], shown: str = "") -> None:
        """Show these protocols instead, with the newest of the key ``shown`` if it is named."""
        new = listed(protocols, self._open_now)
        if new == self._protocols and not shown:
            return
        self._protocols = new
        blocked = QSignalBlocker(self.names)
        self.names.clear()
        blocked.unblock()
        self._begin(shown)

    def _begin(self, shown_key: str = "") -> None:
        self.names.addItems([name_in(self._protocols, one) for one in self._protocols])
        keys = [protocol.key for protocol in self._protocols]
        shown = min(len(keys), _NAMES_SHOWN)
        height = (self.names.sizeHintForRow(0) + 2 * _GAP) * shown
        self.names.setFixedHeight(height + 2 * self.names.frameWidth() + Space.TIGHT)
        followed = shown_key or (self._open_now.protocol if self._open_now else "")
        self.names.setCurrentRow(first_row(self._protocols, self._open_now, shown_key))
        first = self.parts if followed in keys else self.names
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        beside = QVBoxLayout()
        beside.setSpacing(Space.TIGHT)
        for label, widget in (
            (_("&Protocols at hand"), self.names),
            (_("&In this protocol"), self.parts),
            (_("&Find in the text"), self.wanted),
        ):
            beside.addWidget(_caption(label, widget))
            beside.addWidget(widget)
            beside.addSpacing(Space.NEAR)
        self.found.setWordWrap(True)
        self.names.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        for each in (self.names, self.parts):
            each.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            each.setWordWrap(True)
            each.setSpacing(_GAP)
        beside.addWidget(self.found)
        beside.addWidget(self.newer, 0, Qt.AlignmentFlag.AlignLeft)
        if self.file is not None:
            beside.addWidget(self.file)
        beside.addWidget(self.close_button, 0, Qt.AlignmentFlag.AlignLeft)
        left = QWidget()
        left.setFixedWidth(_LIST_WIDTH)
        left.setLayout(beside)
        line = QHBoxLayout(self)
        line.setContentsMargins(Space.NEAR, Space.NEAR, 0, Space.NEAR)
        line.addWidget(left)
        right = QVBoxLayout()
        right.addWidget(self.notice)
        right.addWidget(self.reader, 1)
        line.addLayout(right, 1)

    def _connect(self) -> None:
        self.names.currentRowChanged.connect(self._show_protocol)
        self.parts.currentRowChanged.connect(self._go_to)
        self.parts.itemActivated.connect(self._read_on)
        self.names.itemActivated.connect(self._read_on)
        self.wanted.textChanged.connect(self._search)
        if self.file is not None:
            self.file.taken.connect(self._show_taken)
            self.file.told.connect(self.notice.say)
        self.wanted.returnPressed.connect(self._search_on)
        self.reader.typed.connect(self._begin_search)
        QShortcut(QKeySequence.StandardKey.Find, self, self._ask_for_words)

    def _show_protocol(self, _row: int) -> None:
        stage = self._stage()
        self._sections = protocol_text(self.protocol, self._catalogue)
        self.reader.show_sections(self._sections, stage, self._said())
        self.parts.clear()
        self.parts.addItems([_part(section, stage) for section in self._sections])
        self.parts.setCurrentRow(0)
        self.found.setText("")
        self._offer_newer()

    def _stage(self) -> int | None:
        return stage_in(self.protocol, self._protocols, self._open_now)

    def _offer_newer(self) -> None:
        newer, now = newer_than_followed(self._protocols, self._open_now), self._open_now
        offered = newer is not None and newer[0].key == self.protocol.key
        self.newer.setVisible(
            offered and self._session is not None and now is not None and bool(now.case_id)
        )
        if newer is not None:
            words = _("&Move the case to version {version}...")
            self.newer.setText(words.format(version=newer[1].version))

    def _ask_to_move(self) -> None:
        newer, now = newer_than_followed(self._protocols, self._open_now), self._open_now
        if newer is not None and now is not None and self._session is not None:
            asked = VersionDialog(self._session, now.case_id, *newer, self)
            asked.accepted.connect(self.accept)
            asked.open()

    def _show_taken(self, key: str, protocols: object) -> None:
        self.show_protocols(cast("Mapping[str, Protocol]", protocols), key)

    def _said(self) -> tuple[str, ...]:
        return case_words(self.protocol, self._stage(), self._open_now)

    def _go_to(self, row: int) -> None:
        if row >= 0:
            self.reader.go_to(row)

    def _read_on(self) -> None:
        self.reader.setFocus(Qt.FocusReason.OtherFocusReason)

    def _ask_for_words(self) -> None:
        self.wanted.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.wanted.selectAll()

    def _begin_search(self, letter: str) -> None:
        self.wanted.setFocus(Qt.FocusReason.OtherFocusReason)
        self.wanted.setText(letter)

    def _search(self, words: str) -> None:
        self._tell_found(self.reader.search(words))

    def _search_on(self) -> None:
        self._tell_found(self.reader.search(self.wanted.text(), on=True))

    def _tell_found(self, found: bool) -> None:  # noqa: FBT001  told as the reader answers
        self.found.setText("" if found else _("Not in this protocol."))


def _part(section: ProtocolSection, stage: int | None) -> str:
    if stage is not None and section.stage == stage:
        return _("{part}, open now").format(part=section.heading)
    return section.heading


def _caption(label: str, widget: QWidget) -> QLabel:
    caption = QLabel(label)
    caption.setBuddy(widget)
    widget.setAccessibleName(without_mnemonic(label))
    return caption
