"""The coach's sheet of 40 against a bare table of the same cells in the same font."""

from collections.abc import Iterator
from io import BytesIO

from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph, SimpleDocTemplate, Table

from teamrehab.reports.paper.coach_sheet import draw_coach_sheet
from teamrehab.reports.paper.letters import REGULAR, marked, register_fonts
from teamrehab.reports.sheet import coach_sheet
from teamrehab.reports.sheet_text import sheet_text
from teamrehab.reports.wording_sheet import (
    may_not_words,
    may_words,
    return_words,
    until_words,
    update_words,
)
from tests.benchmarks.figures import Figure, compare
from tests.reports.squads import NOW, club, rows_of


def figures() -> Iterator[Figure]:
    """Yield the figure of a sheet of 40, and of one of 35 that is fitted to one page."""
    yield _figure(40, "coach's sheet of 40, bare table of its cells", bound=2.0)
    yield _figure(35, "coach's sheet of 35 fitted to one page, the same")


def _figure(count: int, name: str, bound: float | None = None) -> Figure:
    squad = club(count)
    sheet = coach_sheet(squad, rows_of(squad), now=NOW, signed="Ines Duarte")
    cells = same_cells(sheet)
    return compare(
        name, lambda: draw_coach_sheet(sheet), lambda: bare_table(cells), bound=bound
    )


def same_cells(sheet):
    """Return the texts of the sheet, a row an athlete and a row a line above them."""
    above = sheet_text(sheet).split("\n\nTrains with limits")[0].splitlines()
    rows = [[line, "", "", "", "", "", ""] for line in above if line]
    rows.append([sheet.caution, *[""] * 6])
    return rows + [_cells(line) for line in sheet.lines]


def _cells(line):
    return_or_limits = [may_words(line), may_not_words(line), until_words(line)]
    if not line.may and not line.may_not:
        return_or_limits = [return_words(line), update_words(line)]
    if line.match_words == "available":
        return_or_limits = []
    chances = [chance.words for chance in line.chances]
    chances += [""] * (3 - len(chances))
    return [str(line.number), line.name, line.reason, " ".join(return_or_limits), *chances]


def bare_table(cells) -> bytes:
    """Return a PDF of one table, every cell a paragraph in our font."""
    register_fonts()
    style = ParagraphStyle("bare", fontName=REGULAR, fontSize=8, leading=10)
    rows = [[Paragraph(marked(text), style) for text in row] for row in cells]
    out = BytesIO()
    document = SimpleDocTemplate(out, pagesize=A4, invariant=1)
    document.build([Table(rows, colWidths=[60, 90, 50, 130, 60, 60, 60], repeatRows=1)])
    return out.getvalue()
