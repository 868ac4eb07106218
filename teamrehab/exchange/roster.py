"""A roster file read into athletes, with a sentence for every row that cannot stand."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.plausibility import Implausible, check
from teamrehab.exchange import cells
from teamrehab.exchange.dates import DateOrder, UnclearDateError, order_of
from teamrehab.exchange.headings import (
    Column,
    columns_of,
    in_words,
    names_in,
    plain,
    split_name,
)
from teamrehab.exchange.problems import RowProblem, UnreadableFileError
from teamrehab.exchange.tables import Row, read_rows
from teamrehab.exchange.workbooks import Cell
from teamrehab.language import _

_HEADINGS_WITHIN = 20
"""The headings stand in one of the first rows: clubs put titles above them."""
_DAYS = (Column.BORN, Column.JOINED, Column.LEFT)


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterPreview:
    """What a roster file holds, before anything is taken in.

    ``recognised`` pairs each heading with its column; ``rows`` counts the rows below the
    headings that are not empty. Each of them is an athlete or has a problem. The athletes
    have no ``athlete_id`` yet. ``doubtful`` names what is read all the same.
    """

    file: str
    recognised: tuple[tuple[str, Column], ...]
    not_recognised: tuple[str, ...]
    athletes: tuple[Athlete, ...]
    problems: tuple[RowProblem, ...]
    rows: int
    doubtful: tuple[RowProblem, ...] = ()


def preview_roster(path: Path, today: date, *, day_first: bool | None = None) -> RosterPreview:
    """Return what a CSV or XLSX roster holds; raise UnreadableFileError.

    ``day_first`` decides dates such as 03/04/2005 where the file itself leaves them open.
    """
    rows = read_rows(path)
    start = _headings_at(rows, path.name)
    sheet = _Sheet.of(rows[start].cells, rows[start + 1 :], DateOrder(day_first), today)
    athletes, problems = _apart(sheet, rows[start + 1 :])
    there = [(line, one) for line, one in athletes if one.in_squad(today)]
    return RosterPreview(
        file=path.name,
        recognised=tuple((sheet.headings[i], column) for i, column in sheet.columns.items()),
        not_recognised=tuple(
            heading
            for i, heading in enumerate(sheet.headings)
            if heading and i not in sheet.columns
        ),
        athletes=tuple(athlete for _line, athlete in athletes),
        problems=problems,
        rows=len(rows) - start - 1,
        doubtful=tuple(_same_numbers(sheet, there)),
    )


def _headings_at(rows: Sequence[Row], file: str) -> int:
    """Return which row holds the headings: the first that says where the names are."""
    for index, row in enumerate(rows[:_HEADINGS_WITHIN]):
        if names_in(columns_of([cells.text_of(cell) for cell in row.cells])):
            if index + 1 == len(rows):
                sentence = _("{file} has headings but no athletes below them.")
                raise UnreadableFileError(sentence.format(file=file))
            return index
    sentence = _(
        "{file} has no heading for names. Write Surname, or Name, above the column of names."
    )
    raise UnreadableFileError(sentence.format(file=file))


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What is known of a roster's columns before its rows are read."""

    headings: tuple[str, ...]
    columns: Mapping[int, Column]
    today: date
    orders: Mapping[Column, DateOrder] = field(default_factory=dict)

    @staticmethod
    def of(
        first: Sequence[Cell], below: Sequence[Row], left_open: DateOrder, today: date
    ) -> "_Sheet":
        """Return the sheet under a row of headings, the order of its dates worked out."""
        headings = tuple(" ".join(cells.text_of(cell).split()) for cell in first)
        columns = columns_of(headings)
        orders = {}
        for index, column in columns.items():
            if column in _DAYS:
                own = order_of(row.at(index) for row in below)
                orders[column] = own if own.day_first is not None else left_open
        return _Sheet(headings, columns, today, orders)

    def read(self, row: Row) -> Athlete | tuple[RowProblem, ...]:
        """Return the athlete of a row, or everything that is wrong with it."""
        values: dict[Column, Any] = {}
        problems: list[RowProblem] = []
        for index, column in self.columns.items():
            try:
                values[column] = self._cell(column, row.at(index))
            except cells.RefusedCellError as refusal:
                heading = self.headings[index]
                problems.append(RowProblem(line=row.line, column=heading, what=refusal.what))
        if problems:
            return tuple(problems)
        athlete = _athlete(values)
        found = check(athlete, self.today)
        return tuple(self.problem(row.line, what) for what in found) or athlete

    def problem(self, line: int, what: Implausible) -> RowProblem:
        """Return a problem of a whole row, with the heading its field stands under."""
        under = (self.headings[i] for i, c in self.columns.items() if in_words(c) == what.field)
        return RowProblem(line=line, column=next(under, what.field), what=what)

    def _cell(self, column: Column, cell: Cell) -> str | int | date | None:
        if column is Column.NUMBER:
            return cells.read_number(cell)
        if column is Column.WEIGHT:
            return cells.read_weight(cell)
        if column not in self.orders:
            return cells.read_text(column, cell)
        try:
            return self.orders[column].read(cell)
        except UnclearDateError as unclear:
            text = cells.text_of(cell)
            raise cells.refused(
                in_words(column), text, unclear.allowed, unclear.remedy
            ) from unclear


def _athlete(values: Mapping[Column, Any]) -> Athlete:
    surname, first = values.get(Column.SURNAME, ""), values.get(Column.FIRST_NAME, "")
    if name := values.get(Column.NAME, ""):
        surname, first = split_name(name)
    return Athlete(
        athlete_id="",
        surname=surname,
        first_name=first,
        number=values.get(Column.NUMBER),
        born=values.get(Column.BORN),
        position=values.get(Column.POSITION, ""),
        joined=values.get(Column.JOINED),
        left=values.get(Column.LEFT),
        weight_g=values.get(Column.WEIGHT),
        printed_name=values.get(Column.PRINTED_NAME, ""),
    )


def _apart(
    sheet: _Sheet, rows: Sequence[Row]
) -> tuple[tuple[tuple[int, Athlete], ...], tuple[RowProblem, ...]]:
    """Return athletes with their lines, and problems; of two rows of one the first counts."""
    athletes: dict[tuple[str, date | None], tuple[int, Athlete]] = {}
    problems: list[RowProblem] = []
    for row in rows:
        read = sheet.read(row)
        if isinstance(read, tuple):
            problems += read
            continue
        twin = athletes.setdefault(who(read), (row.line, read))
        if twin[1] is not read:
            problems.append(sheet.problem(row.line, _twice(read, twin[0])))
    return tuple(athletes.values()), tuple(problems)


def _same_numbers(
    sheet: _Sheet, athletes: Sequence[tuple[int, Athlete]]
) -> Iterator[RowProblem]:
    """Yield each athlete whose shirt number stands on an earlier line already."""
    first: dict[int, int] = {}
    for line, athlete in athletes:
        if athlete.number is None:
            continue
        earlier = first.setdefault(athlete.number, line)
        if earlier != line:
            what = Implausible(
                field=in_words(Column.NUMBER),
                value=str(athlete.number),
                allowed=_("line {line} has the same number").format(line=earlier),
                remedy=_("Both are kept; correct one of them in the file if it is wrong."),
            )
            yield sheet.problem(line, what)


def who(athlete: Athlete) -> tuple[str, date | None]:
    """Return what two rows about the same athlete share: the name, however typed, and birth."""
    return plain(athlete.name), athlete.born


def _twice(athlete: Athlete, line: int) -> Implausible:
    return Implausible(
        field=in_words(Column.NAME),
        value=athlete.name,
        allowed=_("the same athlete stands on line {line}").format(line=line),
        remedy=_("Remove one row, or write both birth dates if these are two people."),
    )
