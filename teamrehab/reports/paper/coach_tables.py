"""The athletes of the coach's sheet, group by group, each group under a head that repeats."""

from collections.abc import Sequence
from math import ceil

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, Spacer, Table

from teamrehab.domain.availability import Training
from teamrehab.language import _
from teamrehab.reports.findings import CoachLine, CoachSheet
from teamrehab.reports.paper.coach_cells import Cell, match_cells, middle, who
from teamrehab.reports.paper.page import (
    ACCENT,
    BODY_WIDTH,
    INK,
    MUTED,
    RULE,
    TINT,
    Size,
    Style,
    words,
)
from teamrehab.reports.wording import day_words

_SIGN, _SHIRT, _NAME, _MATCHES = 17.0, 21.0, 146.0, 189.0
"""Widths at scale 1; they shrink with the type: smaller type leaves limits more room."""
_FULL_COLUMNS = 3


def limits_part(sheet: CoachSheet, size: Size) -> list[Flowable]:
    """Draw who trains with limits: may, may not, until when, matches in words."""
    head = _("Trains with limits ({count})").format(count=len(sheet.with_limits))
    return _group(sheet, size, head, sheet.with_limits, _("May and may not"))


def not_training_part(sheet: CoachSheet, size: Size) -> list[Flowable]:
    """Draw who does not train: not before, likely range, each match, next update."""
    head = _("Not training ({count})").format(count=len(sheet.not_training))
    return _group(sheet, size, head, sheet.not_training, _("Likely return"))


def full_part(sheet: CoachSheet, size: Size) -> list[Flowable]:
    """Draw who trains fully: names in columns, then those whose match answer needs words."""
    head = _("Full training ({count})").format(count=len(sheet.full))
    free = [line for line in sheet.full if line.plays]
    bound = tuple(line for line in sheet.full if not line.plays)
    parts = [Spacer(1, size.of(7)), _names(free, size, head)] if free or not bound else []
    if bound:
        note = _("Full training, matches in words ({count})").format(count=len(bound))
        parts += _group(sheet, size, note, bound, "")
    return parts


def away_part(sheet: CoachSheet, size: Size) -> list[Flowable]:
    """Draw who is away for other than medical reasons, until when."""
    if not sheet.away:
        return []
    head = _("Away, not medical ({count})").format(count=len(sheet.away))
    rows: list[list[Cell]] = [
        [*who(line, None, size), words(line.reason, size.style(9.5))] for line in sheet.away
    ]
    top: list[list[Cell]] = [
        [words(head, size.style(11.5, heavy=True, colour=ACCENT)), "", "", ""]
    ]
    table = Table(
        top + rows,
        colWidths=_widths(size, 0),
        repeatRows=1,
        style=[*_lined(size), ("SPAN", (0, 0), (2, 0))],
    )
    return [Spacer(1, size.of(7)), table]


def _group(
    sheet: CoachSheet, size: Size, head: str, lines: Sequence[CoachLine], between: str
) -> list[Flowable]:
    """Draw one group as a table with a column for each coming match."""
    if not lines:
        return []
    matches = max(len(sheet.today.matches), 1)
    top = _top(sheet, size, head, between)
    rows: list[list[Cell]] = [top]
    style: Style = [*_lined(size), ("SPAN", (0, 0), (2 if between else 3, 0))]
    for number, line in enumerate(lines, start=1):
        rows.append(
            [
                *who(line, line.training, size),
                middle(line, size),
                *match_cells(line, matches, size),
            ]
        )
        if not line.chances:
            style.append(("SPAN", (4, number), (-1, number)))
    table = Table(rows, colWidths=_widths(size, matches), repeatRows=1, style=style)
    return [Spacer(1, size.of(7)), table]


def _widths(size: Size, matches: int) -> list[float]:
    """Return the widths of sign, number, name, limits or return, and each match."""
    first = [size.of(width) for width in (_SIGN, _SHIRT, _NAME)]
    last = [size.of(_MATCHES / matches)] * matches if matches else []
    return [*first, BODY_WIDTH - sum(first) - sum(last), *last]


def _top(sheet: CoachSheet, size: Size, head: str, between: str) -> list[Cell]:
    small = size.style(8.5, heavy=True, colour=MUTED)
    days = [words(day_words(match.fixture.on), small) for match in sheet.today.matches]
    title = words(head, size.style(11.5, heavy=True, colour=ACCENT))
    return [title, "", "", words(between, small), *(days or [words(_("Matches"), small)])]


def _names(lines: Sequence[CoachLine], size: Size, head: str) -> Table:
    """Draw full names in three columns, read downwards."""
    down = ceil(len(lines) / _FULL_COLUMNS)
    rows: list[list[Cell]] = [
        [words(head, size.style(11.5, heavy=True, colour=ACCENT)), *[""] * 8]
    ]
    for place in range(down):
        row: list[Cell] = []
        for line in lines[place::down]:
            row += who(line, Training.FULL, size)
        rows.append(row + [""] * (9 - len(row)))
    sign, shirt = size.of(_SIGN), size.of(_SHIRT)
    widths = [sign, shirt, BODY_WIDTH / _FULL_COLUMNS - sign - shirt] * _FULL_COLUMNS
    style: Style = [*_padded(size, (0, 3, 6)), *_under_head(), ("SPAN", (0, 0), (-1, 0))]
    return Table(rows, colWidths=widths, repeatRows=1, style=style)


def _padded(size: Size, signs: tuple[int, ...]) -> Style:
    """Return the room around cells; signs are lowered to the middle of their name."""
    return [
        ("LEFTPADDING", (0, 0), (-1, -1), size.of(2)),
        ("RIGHTPADDING", (0, 0), (-1, -1), size.of(2)),
        ("TOPPADDING", (0, 0), (-1, -1), size.of(2)),
        ("BOTTOMPADDING", (0, 0), (-1, -1), size.of(2)),
        *(("TOPPADDING", (place, 1), (place, -1), size.of(4.4)) for place in signs),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("FONTSIZE", (0, 0), (-1, -1), 1),  # empty cells must not make a row taller
        ("LEADING", (0, 0), (-1, -1), 1),
    ]


def _under_head() -> Style:
    return [
        ("BACKGROUND", (0, 0), (-1, 0), HexColor(TINT)),
        ("VALIGN", (0, 0), (-1, 0), "MIDDLE"),
        ("LINEBELOW", (0, 0), (-1, 0), 0.8, HexColor(INK)),
    ]


def _lined(size: Size) -> Style:
    return [
        *_padded(size, (0,)),
        *_under_head(),
        ("LINEBELOW", (0, 1), (-1, -1), 0.4, HexColor(RULE)),
    ]
