"""Spreadsheets (.xlsx): measured part by part before anything unpacks them for real.

A few kilobytes can hold gigabytes of zeros, and one cell at the far corner of a sheet makes
a reader reserve the whole sheet: both end the program, so both are refused beforehand.
"""

import io
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, datetime
from typing import IO
from xml.parsers import expat

from teamrehab.exchange.problems import UnreadableFileError
from teamrehab.language import _

UNPACKED = 100_000_000
RATIO = 100
PARTS = 1_000
ROWS = 10_000
COLUMNS = 200

_PIECE = 1 << 16
_DAMAGE = (
    zipfile.BadZipFile,
    zlib.error,
    expat.ExpatError,
    LookupError,  # letters encoded in a way that is not known
    NotImplementedError,  # a way of packing that is not known
    RuntimeError,  # encrypted
    EOFError,
    ValueError,
)

Cell = str | date


def is_workbook(data: bytes) -> bool:
    """Return whether the bytes are a zip file, as every .xlsx is."""
    return data.startswith(b"PK\x03\x04")


def rows_of(data: bytes) -> Iterator[list[Cell]]:
    """Yield the rows of the first visible sheet; raise UnreadableFileError."""
    _measure(data)
    from python_calamine import CalamineError, CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        sheets = [
            sheet.name
            for sheet in book.sheets_metadata
            if sheet.visible is SheetVisibleEnum.Visible
            and sheet.typ is SheetTypeEnum.WorkSheet
        ]
        if not sheets:
            raise UnreadableFileError(_("The spreadsheet has no visible sheet."))
        rows = book.get_sheet_by_name(sheets[0]).to_python(skip_empty_area=False)
    except CalamineError as damage:
        raise _damaged() from damage
    for row in rows:
        yield [_cell(value) for value in row]


def _cell(value: object) -> Cell:
    """Return a text, or a day where the spreadsheet holds a date."""
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, date):
        return value
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    return str(value)


def _damaged() -> UnreadableFileError:
    return UnreadableFileError(
        _("The spreadsheet is damaged or protected. Open it, save it again as .xlsx or as CSV.")
    )


def _too_much(what: str) -> UnreadableFileError:
    sentence = _("The spreadsheet was not opened because {what}. Save the roster alone as CSV.")
    return UnreadableFileError(sentence.format(what=what))


def _measure(data: bytes) -> None:
    """Refuse a workbook whose parts are too many, too big, packed too tightly or damaged."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as book:
            _measure_parts(book, len(data))
            for part in book.infolist():
                with book.open(part) as unpacked:
                    _measure_sheet(unpacked)
    except _DAMAGE as damage:
        raise _damaged() from damage


def _measure_parts(book: zipfile.ZipFile, packed: int) -> None:
    """The sizes stated are the true ones: ``read`` stops there and compares the checksum."""
    names = set(book.namelist())
    unpacked = sum(part.file_size for part in book.infolist())
    if len(book.infolist()) > PARTS:
        raise _too_much(_("it has more than {parts} parts").format(parts=PARTS))
    if unpacked > UNPACKED or unpacked > RATIO * packed:
        raise _too_much(_("it unpacks to {size} MB").format(size=unpacked // 1_000_000))
    if not {"[Content_Types].xml", "xl/workbook.xml"} <= names:
        raise UnreadableFileError(
            _("This is not an .xlsx spreadsheet. Save it as .xlsx or as CSV.")
        )


def _measure_sheet(part: IO[bytes]) -> None:
    """Refuse a sheet with far-away cells, and any part that declares entities of its own.

    Unpacked piece by piece: what its head says of its size need not be true.
    """
    extent = _Extent()
    parser = expat.ParserCreate()
    parser.StartElementHandler = extent.start
    parser.StartDoctypeDeclHandler = extent.doctype
    piece = part.read(_PIECE)
    is_xml = b"<" in piece[:4]
    while piece:
        if is_xml:
            parser.Parse(piece)
        piece = part.read(_PIECE)
    if is_xml:
        parser.Parse(b"", True)  # noqa: FBT003  the standard library's own way to say: the end


class _Extent:
    """How far the cells of a sheet reach, row and column counted as a reader counts them."""

    def __init__(self) -> None:
        self.row = 0
        self.column = 0

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """Take in one element."""
        name, place = tag.rpartition(":")[2], attributes.get("r", "")
        if name == "row":
            self.row = int(place) if place.isdecimal() else self.row + 1
            self.column = 0
        elif name == "c":
            letters = place.rstrip("0123456789")
            self.column = _column(letters) if letters else self.column + 1
            self.row = int(place[len(letters) :] or self.row)
        if self.row > ROWS or self.column > COLUMNS:
            sentence = _("it reaches beyond row {rows} or column {columns}")
            raise _too_much(sentence.format(rows=ROWS, columns=COLUMNS))

    def doctype(self, *_declared: object) -> None:
        """Refuse declarations: no spreadsheet program writes them."""
        raise _too_much(_("it declares entities of its own"))


def _column(letters: str) -> int:
    """Return the number of a column named by letters: A is 1, AA is 27."""
    number = 0
    for letter in letters.upper()[:4]:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number
