"""Cells of a roster read as what their column holds."""

import re
import unicodedata
from datetime import date
from decimal import Decimal

from teamrehab.domain.plausibility import Implausible
from teamrehab.domain.written import NAME, shortened, unfit_text
from teamrehab.exchange.headings import Column, in_words
from teamrehab.exchange.workbooks import Cell
from teamrehab.language import _

_FORMULA_SIGNS = ("=", "+", "-", "@")
_SPACES = re.compile("[ \N{NO-BREAK SPACE}]+")
_NUMBER = re.compile(r"#?\s*(\d{1,3})(?:[.,]0+)?", re.ASCII)
_WEIGHT = re.compile(r"(\d{1,3}(?:[.,]\d{1,3})?)\s*(?:kg)?", re.ASCII | re.IGNORECASE)


class RefusedCellError(ValueError):
    """A cell that cannot be read as what its column holds."""

    def __init__(self, what: Implausible) -> None:
        super().__init__(str(what))
        self.what = what


def refused(field: str, value: str, allowed: str, remedy: str) -> RefusedCellError:
    """Return why a cell is refused, its value shortened to what can be shown."""
    return RefusedCellError(
        Implausible(field=field, value=shortened(value), allowed=allowed, remedy=remedy)
    )


def text_of(cell: Cell) -> str:
    """Return a cell as text; a day as year-month-day."""
    return cell.isoformat() if isinstance(cell, date) else cell


def read_text(column: Column, cell: Cell) -> str:
    """Return a name or word, NFC, with single spaces; raise RefusedCellError."""
    return fit_text(in_words(column), unarmed(text_of(cell).strip()))


def fit_text(field: str, text: str) -> str:
    """Return ``text`` as it may be kept, NFC, single spaces; raise RefusedCellError."""
    spaced = unicodedata.normalize("NFC", " ".join(_SPACES.split(text.strip())))
    if allowed := unfit_text(spaced, NAME):
        raise refused(field, text, allowed, _("Type it again by hand, or shorten it."))
    return spaced


def read_number(cell: Cell) -> int | None:
    """Return a shirt number, None for an empty cell; raise RefusedCellError."""
    text = text_of(cell).strip()
    if not text:
        return None
    found = _NUMBER.fullmatch(text)
    if found is None:
        raise refused(
            in_words(Column.NUMBER),
            text,
            _("a whole number from 0 to 999"),
            _("Correct or clear the cell."),
        )
    return int(found[1])


def read_weight(cell: Cell) -> int | None:
    """Return a weight in grams, None for an empty cell; raise RefusedCellError."""
    text = text_of(cell).strip()
    if not text:
        return None
    found = _WEIGHT.fullmatch(text)
    if found is None:
        raise refused(
            Column.WEIGHT, text, _("a weight in kilograms"), _("Write it like 72.5 or 72,5.")
        )
    return int(Decimal(found[1].replace(",", ".")) * 1000)


def armed(text: str) -> str:
    """Return text fit for a spreadsheet: an apostrophe keeps it from being a formula."""
    return f"'{text}" if text.lstrip("'").startswith(_FORMULA_SIGNS) else text


def unarmed(text: str) -> str:
    """Return what was written by ``armed``."""
    is_armed = text.startswith("'") and text.lstrip("'").startswith(_FORMULA_SIGNS)
    return text[1:] if is_armed else text
