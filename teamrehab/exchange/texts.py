"""Text files of rows: which encoding, which delimiter, which line."""

import csv
import io
import re
from collections.abc import Callable, Iterator, Sequence

from teamrehab.exchange.problems import UnreadableFileError
from teamrehab.language import _

DELIMITERS = ",;\t"
_NAMED = re.compile(r"sep=([,;\t|])\r?\n", re.IGNORECASE)
"""Some spreadsheet programs write the delimiter into a first line of its own."""
_LOOKED_AT = 20_000
"""Letters from the start of a file by which the delimiter is chosen."""


def decoded(data: bytes) -> str:
    """Return the text: by its byte order mark, as UTF-16, as UTF-8, or as Windows-1252.

    Text that is not UTF-8 by its own rules is taken for what older office programs of western
    Europe and the Americas write (common practice).
    """
    for encoding in _encodings(data):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise UnreadableFileError(
        _("The letters of this file could not be read. Save it again as CSV UTF-8.")
    )


def _encodings(data: bytes) -> tuple[str, ...]:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return ("utf-16",)
    start = data[:200]
    if start.count(0) * 3 > len(start) > 1:  # every second byte of Latin UTF-16 is zero
        return ("utf-16-be",) if start[0] == 0 else ("utf-16-le",)
    return ("utf-8-sig", "cp1252")


def records(text: str, delimiter: str) -> Iterator[tuple[int, list[str]]]:
    """Yield (number of its first line, cells) for every record; raise UnreadableFileError."""
    named = _NAMED.match(text)
    line = 2 if named else 1
    rest = io.StringIO(text[named.end() if named else 0 :], newline="")
    reader = csv.reader(rest, delimiter=delimiter)
    above = line - 1
    try:
        for cells in reader:
            yield line, cells
            line = above + reader.line_num + 1
    except csv.Error as damage:
        sentence = _("Line {line} could not be split into cells. Save the file again as CSV.")
        raise UnreadableFileError(sentence.format(line=line)) from damage


def delimiter_of(text: str, headings_in: Callable[[Sequence[str]], int]) -> str:
    """Return the delimiter by which one line shows the most headings; the comma wins a tie."""
    if named := _NAMED.match(text):
        return named[1]
    start = text[:_LOOKED_AT]
    return max(DELIMITERS, key=lambda sign: _best(start, sign, headings_in))


def _best(text: str, delimiter: str, headings_in: Callable[[Sequence[str]], int]) -> int:
    try:
        return max((headings_in(cells) for _line, cells in records(text, delimiter)), default=0)
    except UnreadableFileError:
        return 0
