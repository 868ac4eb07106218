"""A table file, CSV or XLSX, as rows that know their line."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from teamrehab.exchange import texts, workbooks
from teamrehab.exchange.files import MEGABYTE, contents
from teamrehab.exchange.headings import columns_of
from teamrehab.exchange.problems import UnreadableFileError
from teamrehab.exchange.workbooks import Cell
from teamrehab.language import _

AT_MOST = 20 * MEGABYTE
_OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"


@dataclass(frozen=True, slots=True)
class Row:
    """One row that is not empty; ``line`` is where it starts in the file, from 1."""

    line: int
    cells: Sequence[Cell]

    def at(self, index: int) -> Cell:
        """Return a cell; short rows are empty at their end."""
        return self.cells[index] if index < len(self.cells) else ""


def read_rows(path: Path) -> list[Row]:
    """Return the rows of a CSV or XLSX file that are not empty; raise UnreadableFileError."""
    rows = []
    for line, found in _numbered(contents(path, AT_MOST), path.name):
        if line > workbooks.ROWS:
            sentence = _("{file} has more than {rows} rows. Save the roster alone.")
            raise UnreadableFileError(sentence.format(file=path.name, rows=workbooks.ROWS))
        if any(not isinstance(cell, str) or cell.strip() for cell in found):
            rows.append(Row(line, found))
    return rows


def _numbered(data: bytes, file: str) -> Iterator[tuple[int, Sequence[Cell]]]:
    if workbooks.is_workbook(data):
        yield from enumerate(workbooks.rows_of(data), start=1)
        return
    if data.startswith(_OLD_WORKBOOK):
        sentence = _("{file} is an old or protected spreadsheet. Save it as .xlsx or as CSV.")
        raise UnreadableFileError(sentence.format(file=file))
    text = texts.decoded(data)
    delimiter = texts.delimiter_of(text, lambda headings: len(columns_of(headings)))
    yield from texts.records(text, delimiter)
