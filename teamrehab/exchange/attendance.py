"""Who was at a team session, pasted from a spreadsheet: every line is read or named."""

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.implausible import Implausible
from teamrehab.domain.plausible_entries import MINUTES, SCORE
from teamrehab.domain.written import blank, shortened
from teamrehab.exchange import attendance_columns as columns
from teamrehab.exchange.attendance_columns import Part
from teamrehab.exchange.attendance_names import SquadNames, squad_names
from teamrehab.exchange.cells import RefusedCellError, refused, unarmed
from teamrehab.exchange.problems import RowProblem
from teamrehab.language import _

_LINES = re.compile(r"\r\n|\r|\n")
_DELIMITERS = "\t;,"
_WHOLE = re.compile(r"(\d{1,3})(?:[.,]0+)?\s*(?:min\.?|minutes?|'|\N{PRIME})?", re.IGNORECASE)
_NOTHING = ("-", "\N{EN DASH}", "\N{EM DASH}")
"""Signs that people write into a cell to say that nothing is known (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AttendanceRow:
    """One line of a list: None where the list says nothing. ``line`` counts from 1."""

    line: int
    athlete: Athlete
    minutes: int | None = None
    effort: int | None = None

    @property
    def says_nothing(self) -> bool:
        """Return whether the line names an athlete and nothing more."""
        return self.minutes is None and self.effort is None


@dataclass(frozen=True, slots=True, kw_only=True)
class AttendancePreview:
    """What a pasted list holds: each line but the headings is a row or has a problem.

    ``not_recognised`` are headings of columns that are not read.
    """

    rows: tuple[AttendanceRow, ...] = ()
    problems: tuple[RowProblem, ...] = ()
    not_recognised: tuple[str, ...] = ()


def preview_attendance(text: str, squad: Sequence[Athlete]) -> AttendancePreview:
    """Return what a list separated by tabs, semicolons or commas says of these athletes.

    With a line of headings the columns are known by their words, without one by what they
    hold: number, name, minutes, effort, in this order, any of them missing. Text of any kind
    is answered; what cannot be read is named with its line.
    """
    lines = list(_split(text))
    heading = columns.heading_line([cells for _line, cells in lines])
    below = [pair for number, pair in enumerate(lines) if number != heading]
    unread: tuple[str, ...] = ()
    if heading is None:
        parts = columns.by_content([cells for _line, cells in below])
    else:
        parts, unread = columns.by_heading(lines[heading][1])
    rows, problems = _read(below, parts, squad_names(squad))
    return AttendancePreview(rows=rows, problems=problems, not_recognised=unread)


def line_of(text: str, line: int) -> str:
    """Return one line of a pasted text as it came, to be shown beside its problem."""
    return _LINES.split(text)[line - 1].strip()


def _split(text: str) -> Iterator[tuple[int, Sequence[str]]]:
    """Yield (line, cells) of every line in which something can be seen.

    A line is split by itself: one quotation mark too many must not swallow the lines below.
    """
    lines = _LINES.split(text)
    delimiter = max(_DELIMITERS, key=lambda sign: sum(sign in line for line in lines))
    for number, line in enumerate(lines, start=1):
        try:
            cells = next(csv.reader([line], delimiter=delimiter), [])
        except csv.Error:
            cells = line.split(delimiter)
        if not all(blank(cell) for cell in cells):
            yield number, [unarmed(cell.strip()) for cell in cells]


def _read(
    lines: Sequence[tuple[int, Sequence[str]]], parts: Mapping[Part, int], names: SquadNames
) -> tuple[tuple[AttendanceRow, ...], tuple[RowProblem, ...]]:
    """Return the rows, and the problems of the lines that are none."""
    rows: dict[str, AttendanceRow] = {}
    problems: list[RowProblem] = []
    for line, cells in lines:
        try:
            row = _row(line, columns.sorted_out(cells, parts), names)
            earlier = rows.setdefault(row.athlete.athlete_id, row)
            if earlier is not row:
                raise _twice(row, earlier)
        except RefusedCellError as refusal:
            what = refusal.what
            problems.append(RowProblem(line=line, column=what.field, what=what))
    return tuple(rows.values()), tuple(problems)


def _row(line: int, said: Mapping[Part, str], names: SquadNames) -> AttendanceRow:
    number, name = said[Part.NUMBER], said[Part.NAME]
    if blank(number) and blank(name):
        shown = shortened(" ".join(one for one in said.values() if one))
        raise refused(_("Name"), shown, _("a number or a name is needed"), _("Write it."))
    return AttendanceRow(
        line=line,
        athlete=names.who(number, name),
        minutes=_whole(_("Minutes"), said[Part.MINUTES], MINUTES),
        effort=_whole(_("Effort (RPE)"), said[Part.EFFORT], SCORE),
    )


def _whole(field: str, typed: str, allowed: range) -> int | None:
    """Return a whole number of a cell, None where it says nothing."""
    if blank(typed) or typed in _NOTHING:
        return None
    found = _WHOLE.fullmatch(typed)
    if found is None or int(found[1]) not in allowed:
        said = _("a whole number from {low} to {high}")
        words = said.format(low=allowed[0], high=allowed[-1])
        raise refused(field, typed, words, _("Type it into the row by hand."))
    return int(found[1])


def _twice(row: AttendanceRow, earlier: AttendanceRow) -> RefusedCellError:
    return RefusedCellError(
        Implausible(
            field=_("Name"),
            value=row.athlete.name,
            allowed=_("stands on line {line} already, which is used").format(line=earlier.line),
            remedy=_("Look which of the two is right, and correct the row by hand."),
        )
    )
