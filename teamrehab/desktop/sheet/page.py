"""The coach's sheet before it goes out: looked at, signed, then printed or saved."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QDialog, QFileDialog, QWidget

from teamrehab.desktop.background import Workers
from teamrehab.desktop.entry.dialog import FormDialog
from teamrehab.desktop.session import Session
from teamrehab.desktop.sheet.disclosed_form import DisclosedForm
from teamrehab.desktop.sheet.drawing import Drawn, draw
from teamrehab.desktop.sheet.printing import new_printer, print_pages
from teamrehab.desktop.sheet.view import SheetView
from teamrehab.desktop.trouble import is_known
from teamrehab.domain.history import History
from teamrehab.domain.plausibility import Implausible, check
from teamrehab.language import _
from teamrehab.reports.findings import CoachSheet
from teamrehab.tasks import sheets
from teamrehab.tasks.board import Board, squad_board

if TYPE_CHECKING:
    from teamrehab.records import Casebook

Write = Callable[[CoachSheet, Path], None]

_REDRAW_AFTER_MS = 300
"""A signature is drawn when typing pauses, not at every key."""


class SheetDialog(QDialog):
    """Preview, signature, and three ways out: print, PDF, plain text.

    ``issued`` follows when a sheet went out and is noted.
    """

    issued = Signal()

    def __init__(self, session: Session, board: Board, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._board = session, board
        self._workers = Workers(1, "sheet", self)
        self._past: tuple[History, ...] = ()
        self._drawn: Drawn | None = None
        self._out: Drawn | None = None
        self.form: FormDialog | None = None
        self.setWindowTitle(_("Coach's sheet"))
        self.view = SheetView(self, session.about.me.name)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(_REDRAW_AFTER_MS)
        self._connect()
        self.resize(940, 680)
        self._session.ask(_past_cases, self._learn, self._failed)

    @property
    def sheet(self) -> CoachSheet | None:
        """Return the sheet in the preview, None until it is drawn."""
        return self._drawn.sheet if self._drawn is not None else None

    def save_to(self, path: Path, write: Write) -> None:
        """Write the signed sheet where the user chose, and note that it went out."""
        if (drawn := self._signed()) is not None:
            note = drawn is not self._out
            out = partial(_write_and_note, drawn=drawn, path=path, write=write, note=note)
            self._go_out(out, drawn, _("Saved as {path}.").format(path=path))

    def print_on(self, printer: Any) -> None:
        """Print the signed sheet, and note that it went out."""
        drawn = self._signed()
        if drawn is not None:
            then = partial(self._print_pages, printer, drawn)
            self._workers.ask(drawn.for_print, then, self._failed)

    def _print_pages(self, printer: Any, drawn: Drawn, pages: tuple[QImage, ...]) -> None:
        if print_pages(printer, pages):
            out = partial(_note, drawn=drawn, note=drawn is not self._out)
            self._go_out(out, drawn, _("Handed to the printer."))
        else:
            self.view.notice.say(_("The printer did not take the sheet. Save it as PDF."))

    def _connect(self) -> None:
        view = self.view
        view.printing.connect(self._print)
        view.saving_pdf.connect(self._save_pdf)
        view.saving_text.connect(self._save_text)
        view.disclosing.connect(self._disclose)
        view.signature.textChanged.connect(self._later.start)
        self._later.timeout.connect(self._draw)
        self.finished.connect(self._finish)

    def _learn(self, past: tuple[History, ...]) -> None:
        self._past = past
        self._draw()

    def _draw(self) -> None:
        """Draw the sheet of the squad as it stands now, so that it counts on from the last.

        The sheet that went out stays as long as it is signed alike: all its ways out share
        one number.
        """
        if self._out is not None and self._out.sheet.signed == self.view.signed:
            self._show_drawn(self._out)
            return
        today = self._board.squad.day
        self._session.ask(partial(squad_board, today=today), self._draw_board, self._failed)

    def _draw_board(self, board: Board) -> None:
        """Work the likely returns out and draw, away from the window."""
        self._board = board
        self._workers.ask(
            partial(draw, board, self._past, self.view.signed), self._show_drawn, self._failed
        )

    def _show_drawn(self, drawn: Drawn) -> None:
        self._drawn = drawn
        self.view.show_sheet(drawn)

    def _signed(self) -> Drawn | None:
        """Return the sheet if it is signed as it is shown, else say what is missing."""
        return self._drawn if self.view.may_go_out(self.sheet) else None

    def _go_out(self, out: "Callable[[Casebook], object]", drawn: Drawn, told: str) -> None:
        self._leaving, self._told = drawn, told
        self._session.write(out, "", self._went_out, self._failed)

    def _went_out(self, _receipt: object) -> None:
        self._out = self._leaving
        self.view.tell(self._told)
        self.issued.emit()

    def _failed(self, error: Exception) -> None:
        if is_known(error):
            self.view.notice.say(str(error))
        else:
            self._session.failed.emit(error)

    def _print(self) -> None:
        if self._signed() is None:
            return
        from PySide6.QtPrintSupport import QPrintDialog

        self._printer = new_printer()
        self._print_dialog = QPrintDialog(self._printer, self)
        self._print_dialog.accepted.connect(self._print_now)
        self._print_dialog.show()

    def _print_now(self) -> None:
        self.print_on(self._printer)

    def _save_pdf(self) -> None:
        self._save(_("PDF (*.pdf)"), ".pdf", sheets.write_pdf)

    def _save_text(self) -> None:
        self._save(_("Plain text (*.txt)"), ".txt", sheets.write_text)

    def _save(self, kinds: str, ending: str, write: Write) -> None:
        """Ask where to; the dialog asks before it lets a file be replaced."""
        drawn = self._signed()
        if drawn is None:
            return
        name = _("sheet-{number}").format(number=drawn.sheet.number) + ending
        chosen, _kind = QFileDialog.getSaveFileName(self, self.windowTitle(), name, kinds)
        if chosen:
            path = Path(chosen)
            self.save_to(path if path.suffix else path.with_suffix(ending), write)

    def _disclose(self) -> None:
        if self._drawn is None:
            return
        squad, about = self._board.squad, self._session.about
        until = self._drawn.sheet.valid_until
        form = DisclosedForm(squad.athletes, squad.day, until, about.me.name)
        self.form = FormDialog(form, about="", check=self._check, parent=self)
        self.form.asked.connect(self._save_disclosed)
        self.form.open()

    def _check(self, values: tuple[Any, ...]) -> tuple[Implausible, ...]:
        return tuple(one for value in values for one in check(value, self._board.squad.day))

    def _save_disclosed(self, values: tuple[Any, ...]) -> None:
        self._session.write(
            lambda book: book.note(*values),
            "",
            self._disclosed,
            self._form_failed,
            _("what an athlete agreed to have on the sheet"),
        )

    def _disclosed(self, _receipt: object) -> None:
        if self.form is not None:
            self.form.saved()
        self._out = None
        self._draw()

    def _form_failed(self, error: Exception) -> None:
        if self.form is not None and is_known(error):
            self.form.refuse(str(error))
        else:
            self._failed(error)

    def _finish(self, _result: int) -> None:
        self._later.stop()
        self._workers.finish()


def _past_cases(book: "Casebook") -> tuple[History, ...]:
    return book.past_cases()


def _write_and_note(
    book: "Casebook", drawn: Drawn, path: Path, write: Write, *, note: bool
) -> None:
    """Write the file first: what is noted as gone out did go out."""
    write(drawn.sheet, path)
    _note(book, drawn, note=note)


def _note(book: "Casebook", drawn: Drawn, *, note: bool) -> None:
    """Note that the sheet went out, once for all the ways it goes."""
    if note:
        sheets.issue(book, drawn.board, drawn.sheet)
