"""Days as people write them: 2004-03-01, 1.3.2004, 01/03/2004; the column decides."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from teamrehab.exchange.workbooks import Cell
from teamrehab.language import _

_TIME = r"(?:[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?)?"
_YEAR_FIRST = re.compile(rf"(\d{{4}})([-/.]?)(\d{{2}})\2(\d{{2}}){_TIME}", re.ASCII)
_YEAR_LAST = re.compile(
    rf"(\d{{1,2}})\s?([-/.])\s?(\d{{1,2}})\s?\2\s?(\d{{4}}){_TIME}", re.ASCII
)
_SHORT_YEAR = re.compile(r"\d{1,2}[-/.]\d{1,2}[-/.]\d{2}", re.ASCII)


class UnclearDateError(ValueError):
    """A cell that is not a day, or could be two; ``allowed`` and ``remedy`` are sentences."""

    def __init__(self, allowed: str) -> None:
        super().__init__(allowed)
        self.allowed = allowed
        self.remedy = _("Write the date as year-month-day, such as 2004-03-01.")


@dataclass(frozen=True, slots=True)
class DateOrder:
    """Which number comes first in a column of dates; None where its rows leave it open."""

    day_first: bool | None

    def read(self, cell: Cell) -> date | None:
        """Return the day, None for an empty cell; raise UnclearDateError."""
        if isinstance(cell, date):
            return cell
        text = cell.strip()
        if not text:
            return None
        if found := _YEAR_FIRST.fullmatch(text):
            return _day(found[1], found[3], found[4])
        if found := _YEAR_LAST.fullmatch(text):
            return self._year_last(found)
        if _SHORT_YEAR.fullmatch(text):
            raise UnclearDateError(_("the year needs four figures"))
        raise UnclearDateError(_("this is not a date"))

    def _year_last(self, found: re.Match[str]) -> date:
        first, second, year = found[1], found[3], found[4]
        if _day_first(found) or first == second:
            return _day(year, second, first)
        if _month_first(found):
            return _day(year, first, second)
        if self.day_first is None:
            raise UnclearDateError(_("day and month could be either way round"))
        return _day(year, second, first) if self.day_first else _day(year, first, second)


def order_of(cells: Iterable[Cell]) -> DateOrder:
    """Return the order that the clear rows of a column share."""
    texts = (cell.strip() for cell in cells if isinstance(cell, str))
    found = [match for text in texts if (match := _YEAR_LAST.fullmatch(text))]
    day_first, month_first = any(map(_day_first, found)), any(map(_month_first, found))
    return DateOrder(day_first if day_first != month_first else None)


def _day_first(found: re.Match[str]) -> bool:
    """Points stand between day, month and year only in this order (common practice)."""
    return found[2] == "." or int(found[1]) > 12


def _month_first(found: re.Match[str]) -> bool:
    return found[2] != "." and int(found[3]) > 12


def _day(year: str, month: str, day: str) -> date:
    try:
        return date(int(year), int(month), int(day))
    except ValueError as refusal:
        raise UnclearDateError(_("the calendar has no such day")) from refusal
