"""The athletes of the coach's sheet, group by group, each group under a head that repeats."""

from collections.abc import Sequence
from math import ceil

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, Spacer, Table

from teamrehab.domain.availability import Match, Training
from teamrehab.language import _
from teamrehab.reports.findings import CoachLine, CoachSheet
from teamrehab.reports.paper.discs import Disc
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
from teamrehab.reports.wording_sheet import (
    may_not_words,
    may_words,
    return_words,
    shirt_words,
    until_words,
    update_words,
)

_SIGN, _SHIRT, _NAME, _MATCHES = 18.0, 24.0, 122.0, 183.0
_MIDDLE = BODY_WIDTH - _SIGN - _SHIRT - _NAME - _MATCHES
_FULL_COLUMNS = 3
Cell = Flowable | list[Flowable] | str


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
    free = [line for line in sheet.full if line.match is Match.AVAILABLE]
    bound = tuple(line for line in sheet.full if line.match is not Match.AVAILABLE)
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
        [*_who(line, None, size), words(line.reason, size.style(9.5))] for line in sheet.away
    ]
    top: list[list[Cell]] = [
        [words(head, size.style(11.5, heavy=True, colour=ACCENT)), "", "", ""]
    ]
    table = Table(
        top + rows,
        colWidths=[_SIGN, _SHIRT, _NAME, _MIDDLE + _MATCHES],
        repeatRows=1,
        style=[*_lined(size), ("SPAN", (0, 0), (2, 0))],
    )
    return [Spacer(1, size.of(7)), table]


def _group(
    sheet: CoachSheet, size: Size, head: str, lines: Sequence[CoachLine], middle: str
) -> list[Flowable]:
    """Draw one group as a table with a column for each coming match."""
    if not lines:
        return []
    matches = max(len(sheet.today.matches), 1)
    top = _top(sheet, size, head, middle)
    rows: list[list[Cell]] = [top]
    style: Style = [*_lined(size), ("SPAN", (0, 0), (2, 0))]
    for number, line in enumerate(lines, start=1):
        rows.append(
            [
                *_who(line, line.training, size),
                _middle(line, size),
                *_cells(line, matches, size),
            ]
        )
        if not line.chances:
            style.append(("SPAN", (4, number), (-1, number)))
    widths = [_SIGN, _SHIRT, _NAME, _MIDDLE, *[_MATCHES / matches] * matches]
    table = Table(rows, colWidths=widths, repeatRows=1, style=style)
    return [Spacer(1, size.of(7)), table]


def _top(sheet: CoachSheet, size: Size, head: str, middle: str) -> list[Cell]:
    small = size.style(8.5, heavy=True, colour=MUTED)
    days = [words(day_words(match.fixture.on), small) for match in sheet.today.matches]
    title = words(head, size.style(11.5, heavy=True, colour=ACCENT))
    return [title, "", "", words(middle, small), *(days or [words(_("Matches"), small)])]


def _who(line: CoachLine, training: Training | None, size: Size) -> list[Cell]:
    """Draw sign, number and name; the only reason given beside a name is "medical"."""
    name: list[Flowable] = [words(line.name, size.style(11.5, heavy=True, lead=1.18))]
    needs_reason = (
        line.match is not Match.AVAILABLE and line.training is not Training.WITH_LIMITS
    )
    if needs_reason and training is not None and line.reason:
        name.append(words(line.reason, size.style(8.5, colour=MUTED)))
    return [Disc(training, size.of(10)), words(shirt_words(line), size.style(11.5)), name]


def _middle(line: CoachLine, size: Size) -> list[Flowable]:
    body, small = size.style(9.5), size.style(8.5, colour=MUTED)
    if line.training is Training.NONE:
        update = _("Next update: {when}").format(when=update_words(line))
        said = [(_unbroken(return_words(line)), size.style(9.5, heavy=True)), (update, small)]
    elif line.training is Training.WITH_LIMITS:
        said = [(may_words(line), body), (may_not_words(line), size.style(9.5, heavy=True))]
        said.append((until_words(line), small))
    else:
        said = []
    said.append((line.disclosed, body))
    return [words(text, style) for text, style in said if text]


def _cells(line: CoachLine, matches: int, size: Size) -> list[Cell]:
    """Draw the chance for each match, or the one answer that holds for all of them."""
    if not line.chances:
        return [words(line.match_words, size.style(9.5)), *[""] * (matches - 1)]
    return [_chance(chance.words, size) for chance in line.chances]


def _chance(said: str, size: Size) -> list[Flowable]:
    """Draw a chance: the word large, its tenths below."""
    word, _comma, numbers = said.partition(", ")
    drawn: list[Flowable] = [words(word, size.style(9.5, heavy=True, lead=1.2))]
    return [*drawn, words(numbers, size.style(8.5, colour=MUTED))] if numbers else drawn


def _unbroken(text: str) -> str:
    """Return a range whose "(8 in 10)" stays on one line."""
    before, bracket, rest = text.partition(" (")
    return before + bracket + rest.replace(" ", "\N{NO-BREAK SPACE}")


def _names(lines: Sequence[CoachLine], size: Size, head: str) -> Table:
    """Draw full names in three columns, read downwards."""
    down = ceil(len(lines) / _FULL_COLUMNS)
    rows: list[list[Cell]] = [
        [words(head, size.style(11.5, heavy=True, colour=ACCENT)), *[""] * 8]
    ]
    for place in range(down):
        row: list[Cell] = []
        for line in lines[place::down]:
            row += _who(line, Training.FULL, size)
        rows.append(row + [""] * (9 - len(row)))
    column = BODY_WIDTH / _FULL_COLUMNS
    widths = [_SIGN, _SHIRT, column - _SIGN - _SHIRT] * _FULL_COLUMNS
    style: Style = [*_padded(size, (0, 3, 6)), *_under_head(), ("SPAN", (0, 0), (-1, 0))]
    return Table(rows, colWidths=widths, repeatRows=1, style=style)


def _padded(size: Size, signs: tuple[int, ...]) -> Style:
    """Return the room around cells; signs are lowered to the middle of their name."""
    return [
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
        ("TOPPADDING", (0, 0), (-1, -1), size.of(2)),
        ("BOTTOMPADDING", (0, 0), (-1, -1), size.of(2)),
        *(("TOPPADDING", (place, 1), (place, -1), size.of(4.4)) for place in signs),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
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
