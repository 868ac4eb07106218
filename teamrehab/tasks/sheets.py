"""The coach's sheet: made from the board, numbered, kept as a fact when it goes out."""

from pathlib import Path

from teamrehab.language import _
from teamrehab.records import Casebook, Receipt
from teamrehab.reports.disclosure import signature_sentences, withheld_sentences
from teamrehab.reports.findings import CoachSheet
from teamrehab.reports.sheet import coach_sheet, issued
from teamrehab.reports.sheet_text import sheet_text
from teamrehab.tasks.board import Board
from teamrehab.tasks.refusals import RefusedError
from teamrehab.tasks.writing import write_whole


def prepare(board: Board, *, signed: str = "") -> CoachSheet:
    """Return the sheet as it would go out now; pure, nothing is noted."""
    return coach_sheet(board.squad, board.rows, now=board.now, signed=signed)


def insist_on_signature(board: Board, sheet: CoachSheet) -> None:
    """Raise RefusedError unless the sheet is signed with words that a coach may read."""
    if not sheet.signed.strip():
        raise RefusedError(_("A sheet goes out signed: type who signs it."))
    unfit = signature_sentences(board.squad, sheet.signed)
    if unfit:
        raise RefusedError("\n".join(unfit))


def issue(casebook: Casebook, board: Board, sheet: CoachSheet) -> Receipt:
    """Note that this sheet went out, so that the next one can say what changed.

    Raises:
        RefusedError: it is not signed, or the signature tells something medical.
    """
    insist_on_signature(board, sheet)
    return casebook.note(issued(sheet, board.squad, board.rows))


def kept_off(board: Board) -> tuple[str, ...]:
    """Return which free words stay off the sheet and why, to be told before it goes out."""
    return withheld_sentences(board.squad, board.rows)


def write_text(sheet: CoachSheet, path: Path) -> None:
    """Write the sheet as plain text where the user chose, whole or not at all."""
    write_whole(path, sheet_text(sheet).encode())


def write_pdf(sheet: CoachSheet, path: Path) -> None:
    """Write the sheet as PDF where the user chose, whole or not at all."""
    from teamrehab.reports.paper.coach_sheet import draw_coach_sheet

    write_whole(path, draw_coach_sheet(sheet))
