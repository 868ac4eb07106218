"""A roster written as CSV: what ``preview_roster`` reads back as the same athletes."""

import csv
import io
from collections.abc import Iterable
from decimal import Decimal

from teamrehab.domain.athletes import Athlete
from teamrehab.exchange.cells import armed
from teamrehab.exchange.headings import Column, in_words

_COLUMNS = (
    Column.NUMBER,
    Column.SURNAME,
    Column.FIRST_NAME,
    Column.BORN,
    Column.POSITION,
    Column.WEIGHT,
    Column.JOINED,
    Column.LEFT,
    Column.PRINTED_NAME,
)


def roster_csv(athletes: Iterable[Athlete]) -> bytes:
    """Return a CSV file (UTF-8) whose cells no spreadsheet takes for formulas."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([in_words(column) for column in _COLUMNS])
    writer.writerows(_cells(athlete) for athlete in athletes)
    return out.getvalue().encode()


def _cells(athlete: Athlete) -> list[str]:
    values = (
        athlete.number,
        armed(athlete.surname),
        armed(athlete.first_name),
        athlete.born,
        armed(athlete.position),
        None if athlete.weight_g is None else Decimal(athlete.weight_g) / 1000,
        athlete.joined,
        athlete.left,
        armed(athlete.printed_name),
    )
    return ["" if value is None else str(value) for value in values]
