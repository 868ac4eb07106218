"""From a board to the pages of its sheet: slow work, done away from the window."""

from dataclasses import dataclass

from PySide6.QtGui import QImage

from teamrehab.domain.history import History
from teamrehab.reports.disclosure import withheld
from teamrehab.reports.findings import CoachSheet
from teamrehab.reports.sheet_text import sheet_text
from teamrehab.reports.stopped import misled, stopped_unstated
from teamrehab.tasks.board import Board, with_estimates
from teamrehab.tasks.sheets import prepare

_PREVIEW_SCALE, _PRINT_SCALE = 2.0, 4.0
"""Pictures in pixels a point: 144 and 288 dots an inch."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A sheet with the board it was made from, its PDF, its pages and its plain text.

    ``kept_off`` names the athletes whose free words stay off, with the words that did it,
    ``misled`` those who are stopped while the sheet still says that they train or play.
    """

    board: Board
    sheet: CoachSheet
    pdf: bytes
    pages: tuple[QImage, ...]
    words: str
    kept_off: tuple[tuple[str, str], ...] = ()
    misled: tuple[str, ...] = ()

    def for_print(self) -> tuple[QImage, ...]:
        """Return the pages as fine as a printer wants them: slow work as well."""
        return _pictures(self.pdf, _PRINT_SCALE)


def draw(board: Board, past: tuple[History, ...], signed: str) -> Drawn:
    """Return the sheet of a board, always with the likely returns worked out.

    ``past`` are the club's cases that the estimates learn from.
    """
    from teamrehab.reports.paper.coach_sheet import draw_coach_sheet

    full = with_estimates(board, past)
    sheet = prepare(full, signed=signed)
    pdf = draw_coach_sheet(sheet)
    return Drawn(
        board=full,
        sheet=sheet,
        pdf=pdf,
        pages=_pictures(pdf, _PREVIEW_SCALE),
        words=sheet_text(sheet),
        kept_off=_kept_off(full),
        misled=misled(stopped_unstated(full.squad, full.protocols)),
    )


def _pictures(pdf: bytes, scale: float) -> tuple[QImage, ...]:
    from teamrehab.reports.paper.preview import pages_as_png

    return tuple(QImage.fromData(picture) for picture in pages_as_png(pdf, scale))


def _kept_off(board: Board) -> tuple[tuple[str, str], ...]:
    names = {athlete.athlete_id: athlete.name for athlete in board.squad.athletes}
    found = withheld(board.squad, board.rows)
    return tuple((names.get(one.athlete_id, ""), ", ".join(one.words)) for one in found)
