"""Take in a file: what was read, what could not be, and only then a decision."""

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPlainTextEdit,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import main_button, plain_button
from teamrehab.desktop.forms import ChoiceField, without_mnemonic
from teamrehab.desktop.intakes import Intake, taken_in_words
from teamrehab.desktop.row_table import RowTableModel
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import Notice, is_known
from teamrehab.language import _, counted

if TYPE_CHECKING:
    from teamrehab.records import Casebook
    from teamrehab.tasks.importing import TakenIn

_DAY_FIRST = {"file": None, "day": True, "month": False}


class ImportDialog(QDialog):
    """Shows what a file holds. Nothing is written before the main button is pressed."""

    taken_in = Signal(str)

    def __init__(
        self, session: Session, intake: Intake, file: Path, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, self._intake, self._file = session, intake, file
        self._preview: Any = None
        self.setWindowTitle(intake.title)
        self.heading = text("", Type.LEAD)
        self.notice = Notice()
        self.order = ChoiceField(_date_orders(), "file")
        self.rows: RowTableModel[Any] = RowTableModel(intake.columns, repr, self)
        self.problems = QPlainTextEdit()
        self.problems_heading = text("")
        self.keep = main_button(_("&Import"), self._keep)
        self._lay_out()
        self.order.activated.connect(self._read)
        self._read()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.WIDE, Space.APART, Space.WIDE, Space.APART)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.heading)
        column.addWidget(self.notice)
        if self._intake.asks_date_order:
            column.addLayout(self._order_line())
        column.addWidget(self._table(), 2)
        column.addWidget(self.problems_heading)
        column.addWidget(self.problems, 1)
        column.addLayout(self._buttons())
        self.problems.setReadOnly(True)
        self.problems.setTabChangesFocus(True)
        self.problems.setAccessibleName(_("What could not be read"))
        self._show_problems((), ())
        self.resize(760, 520)

    def _order_line(self) -> QHBoxLayout:
        words = QLabel(_("&Dates such as 03/04/2005 are"))
        words.setBuddy(self.order)
        self.order.setAccessibleName(without_mnemonic(words.text()))
        line = QHBoxLayout()
        line.addWidget(words)
        line.addWidget(self.order)
        line.addStretch(1)
        return line

    def _table(self) -> QTableView:
        table = QTableView()
        table.setModel(self.rows)
        table.setAccessibleName(_("What was read"))
        table.setTabKeyNavigation(False)
        table.setShowGrid(False)
        table.verticalHeader().hide()
        table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        return table

    def _buttons(self) -> QHBoxLayout:
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(plain_button(_("&Cancel"), self.reject))
        buttons.addWidget(self.keep)
        return buttons

    def _read(self) -> None:
        self.keep.setEnabled(False)
        self.notice.hide()
        self.heading.setText(_("Reading {name}...").format(name=self._file.name))
        read = partial(_read, self._intake, self._file, self.order.value or "file")
        self._session.ask(read, self._show, self._refuse)

    def _show(self, preview: Any) -> None:
        self._preview = preview
        found = self._intake.rows(preview)
        self.rows.show_rows(found)
        self.heading.setText(self._intake.found(len(found)))
        self.keep.setEnabled(bool(found))
        self._show_problems(
            [str(problem) for problem in preview.problems], self._intake.doubts(preview)
        )

    def _show_problems(self, left_out: Sequence[str], doubts: Sequence[str]) -> None:
        """Show what is left out, and below it what is read but should be looked at."""
        self.problems_heading.setText(" ".join(_counts(len(left_out), len(doubts))))
        self.problems.setPlainText("\n".join([*left_out, *doubts]))
        self.problems_heading.setVisible(bool(left_out or doubts))
        self.problems.setVisible(bool(left_out or doubts))

    def _keep(self) -> None:
        self.keep.setEnabled(False)
        keep = partial(_keep, self._intake, self._preview)
        self._session.write(keep, "", self._kept, self._refuse)

    def _kept(self, done: "TakenIn") -> None:
        self.taken_in.emit(taken_in_words(done))
        self.accept()

    def _refuse(self, error: Exception) -> None:
        if not is_known(error):
            raise error
        self.heading.setText(_("{name} was not imported.").format(name=self._file.name))
        self.keep.setEnabled(self._preview is not None)
        self.notice.say(str(error))


def _counts(left_out: int, doubts: int) -> Iterator[str]:
    if left_out:
        yield counted(
            "{count} entry cannot stand; its line is left out.",
            "{count} entries cannot stand; their lines are left out.",
            left_out,
        )
    if doubts:
        yield counted(
            "{count} thing to look at first.", "{count} things to look at first.", doubts
        )


def _read(intake: Intake, file: Path, order: str, casebook: "Casebook") -> Any:
    return intake.preview(casebook, file, _DAY_FIRST[order])


def _keep(intake: Intake, preview: Any, casebook: "Casebook") -> "TakenIn":
    return intake.take_in(casebook, preview)


def _date_orders() -> tuple[tuple[str, str], ...]:
    return (
        ("file", _("as the file itself shows")),
        ("day", _("day first (3 April)")),
        ("month", _("month first (4 March)")),
    )
