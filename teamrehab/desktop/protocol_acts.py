"""What is done with protocols in the window: files taken in, cases moved to a version."""

from collections.abc import Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from teamrehab.desktop.appearance import Space, Type, prose, text
from teamrehab.desktop.buttons import main_button, plain_button
from teamrehab.desktop.forms import without_mnemonic
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import Notice, is_known
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _
from teamrehab.reports.version_changes import version_changes

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt
    from teamrehab.tasks.own_protocols import TakenProtocol

_SIZE = (720, 560)


class ProtocolFile(QWidget):
    """Asks for a protocol file of the club's own and takes it in.

    ``taken`` carries the key of its protocol and all protocols at hand after it; ``told`` what
    became of the file, in sentences.
    """

    taken = Signal(str, object)
    told = Signal(str)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.add = plain_button(_("&Add a protocol file..."), self._ask)
        self.add.setAutoDefault(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.add, 0, Qt.AlignmentFlag.AlignLeft)

    def take_in(self, file: Path) -> None:
        """Check a file in full and keep it; what is wrong with it is told."""
        self.told.emit(_("Checking {name}...").format(name=file.name))
        self._session.write(partial(_take_in, file), "", self._taken, self._refuse)

    def _ask(self) -> None:
        kinds = _("Protocol files (*.toml)")
        name, _kind = QFileDialog.getOpenFileName(self, _("Choose a protocol file"), "", kinds)
        if name:
            self.take_in(Path(name))

    def _taken(self, found: "tuple[TakenProtocol, Mapping[str, Protocol]]") -> None:
        from teamrehab.tasks.own_protocols import taken_words

        done, here = found
        self.taken.emit(done.protocol.key, here)
        self.told.emit(taken_words(done))

    def _refuse(self, error: Exception) -> None:
        if not is_known(error):
            raise error
        self.told.emit(str(error))


class VersionDialog(QDialog):
    """Shows what another version changes for a case, asks why, and moves the case to it."""

    def __init__(
        self,
        session: Session,
        case_id: str,
        old: Protocol,
        new: Protocol,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._session, self._case_id, self._version = session, case_id, new.version
        self.setWindowTitle(_("Another version of the protocol"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.notice = Notice()
        self.changes, self.why = QPlainTextEdit(), QLineEdit()
        self.changes.setPlainText("\n\n".join(_told(version_changes(old, new))))
        self.changes.setReadOnly(True)
        self.changes.setTabChangesFocus(True)
        self.move_case = main_button(_("&Move the case"), self._move)
        heading = _("{name}: version {old} until now, version {new} from today on").format(
            name=new.name, old=old.version, new=new.version
        )
        self._lay_out(heading)
        self.resize(*_SIZE)
        self.why.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self, heading: str) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.WIDE, Space.APART, Space.WIDE, Space.APART)
        column.setSpacing(Space.NEAR)
        column.addWidget(text(heading, Type.LEAD))
        column.addWidget(self.notice)
        for label, widget in (
            (_("What &changes"), self.changes),
            (_("&Why the case is moved"), self.why),
        ):
            caption = QLabel(label)
            caption.setBuddy(widget)
            widget.setAccessibleName(without_mnemonic(label))
            column.addWidget(caption)
            column.addWidget(widget)
        column.addWidget(
            prose(
                _(
                    "The stage stays or goes back to an earlier one, never on. What was tested"
                    " stays, and is judged by the version the case follows then."
                )
            )
        )
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(plain_button(_("&Cancel"), self.reject))
        buttons.addWidget(self.move_case)
        column.addLayout(buttons)

    def _move(self) -> None:
        self.move_case.setEnabled(False)
        said = _("another version of the protocol")
        work = partial(_move, self._case_id, self._version, self.why.text())
        self._session.write(work, self._case_id, self._moved, self._refuse, said)

    def _moved(self, _receipt: "Receipt") -> None:
        self.accept()

    def _refuse(self, error: Exception) -> None:
        self.move_case.setEnabled(True)
        if not is_known(error):
            raise error
        self.notice.say(str(error))


def _told(changes: Sequence[str]) -> Sequence[str]:
    return changes or (_("Nothing that a case is treated by."),)


def _take_in(
    file: Path, casebook: "Casebook"
) -> "tuple[TakenProtocol, Mapping[str, Protocol]]":
    from teamrehab.tasks.own_protocols import protocols_here, take_in_protocol

    return take_in_protocol(casebook, file), protocols_here(casebook)


def _move(case_id: str, version: str, why: str, casebook: "Casebook") -> "Receipt":
    from teamrehab.tasks.own_protocols import protocols_here
    from teamrehab.tasks.protocol_versions import move_to_version

    here = protocols_here(casebook)
    return move_to_version(casebook, casebook.case(case_id), version, why, here)
