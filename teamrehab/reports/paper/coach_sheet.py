"""The coach's sheet drawn on paper: made to be pinned to a wall and read from two metres."""

from dataclasses import replace

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, Spacer, Table

from teamrehab.domain.availability import Training
from teamrehab.language import _
from teamrehab.reports.findings import CoachLine, CoachSheet
from teamrehab.reports.paper.coach_tables import (
    away_part,
    full_part,
    limits_part,
    not_training_part,
)
from teamrehab.reports.paper.discs import Disc
from teamrehab.reports.paper.letters import can_print
from teamrehab.reports.paper.page import (
    ACCENT,
    BODY_WIDTH,
    INK,
    MUTED,
    RULE,
    Size,
    Style,
    fitted,
    pdf_of,
    words,
)
from teamrehab.reports.wording import (
    day_words,
    fixture_words,
    match_outlook_words,
    moment_words,
    weekday_words,
)
from teamrehab.reports.wording_sheet import (
    decision_words,
    number_words,
    signature_words,
    title_words,
    unchanged_words,
    validity_words,
    week_words,
)

ONE_PAGE = 35
"""Up to so many athletes the type may shrink to keep the sheet on one page."""
_SMALLEST = 0.62
"""The smallest scale prints limits in just under six points; where even that needs more room
(limits for almost a whole squad), two readable pages are better than one."""


def draw_coach_sheet(sheet: CoachSheet) -> bytes:
    """Return the sheet as PDF: one page up to 35 athletes, more with repeated heads beyond.

    The same sheet gives the same bytes. The file says nothing of itself but its number.
    """
    spelled = in_printable_letters(sheet)
    if len(sheet.lines) <= ONE_PAGE:
        parts = fitted(lambda size: _parts(spelled, size), largest=1.0, smallest=_SMALLEST)
    else:
        parts = _parts(spelled, Size())
    title = title_words(sheet)
    head = _("{title}, {week}").format(title=title, week=week_words(sheet))
    return pdf_of(parts, title=title, running_head=head)


def in_printable_letters(sheet: CoachSheet) -> CoachSheet:
    """Return the sheet with Latin spellings where our fonts lack an athlete's letters."""
    latin = {
        line.name: line.printed_name
        for line in sheet.lines
        if line.printed_name and not can_print(line.name)
    }

    def spelled(lines: tuple[CoachLine, ...]) -> tuple[CoachLine, ...]:
        return tuple(replace(line, name=latin.get(line.name, line.name)) for line in lines)

    return replace(
        sheet,
        changed=tuple(_spelled(sentence, latin) for sentence in sheet.changed),
        decisions=tuple((latin.get(who, who), when) for who, when in sheet.decisions),
        with_limits=spelled(sheet.with_limits),
        not_training=spelled(sheet.not_training),
        full=spelled(sheet.full),
        away=spelled(sheet.away),
    )


def _spelled(sentence: str, latin: dict[str, str]) -> str:
    for name, spelling in latin.items():
        sentence = sentence.replace(name, spelling)
    return sentence


def _parts(sheet: CoachSheet, size: Size) -> list[Flowable]:
    """Return the parts of the sheet from top to bottom."""
    return [
        _head(sheet, size),
        Spacer(1, size.of(5)),
        _days(sheet, size),
        Spacer(1, size.of(7)),
        _today(sheet, size),
        Spacer(1, size.of(3)),
        *_matches(sheet, size),
        Spacer(1, size.of(5)),
        _news(sheet, size),
        *limits_part(sheet, size),
        *not_training_part(sheet, size),
        *full_part(sheet, size),
        *away_part(sheet, size),
        Spacer(1, size.of(8)),
        _foot(sheet, size),
    ]


def _head(sheet: CoachSheet, size: Size) -> Table:
    """Draw team and week on the left, the sheet's number and its times on the right."""
    left = [
        words(sheet.team, size.style(19, heavy=True, colour=ACCENT, lead=1.15)),
        words(week_words(sheet), size.style(13, heavy=True)),
    ]
    right = [
        words(number_words(sheet), size.style(10.5, heavy=True)),
        words(validity_words(sheet), size.style(8.5, colour=MUTED)),
    ]
    wide = BODY_WIDTH * 0.6
    return Table(
        [[left, right]],
        colWidths=[wide, BODY_WIDTH - wide],
        style=[*_BARE, ("LINEBELOW", (0, 0), (-1, 0), size.of(1.6), HexColor(ACCENT))],
    )


_BARE: Style = [
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 4),
    ("TOPPADDING", (0, 0), (-1, -1), 0),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
]


def _days(sheet: CoachSheet, size: Size) -> Table:
    """Draw the week as one line of words: each day with its distance to a match."""
    today = sheet.today.day
    cells = []
    for day, label in sheet.days:
        marked = day == today or label == "MD"
        colour = ACCENT if day == today else INK
        name = _("{weekday} {day}").format(weekday=weekday_words(day), day=day.day)
        said = _("{day}, today") if day == today else _("{day}")
        cells.append(
            [
                words(said.format(day=name), size.style(9.5, heavy=marked, colour=colour)),
                words(label or " ", size.style(8.5, heavy=marked, colour=colour)),
            ]
        )
    style: Style = [
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), size.of(1.5)),
        ("BOTTOMPADDING", (0, 0), (-1, -1), size.of(2.5)),
    ]
    return Table([cells], colWidths=[BODY_WIDTH / 7] * 7, style=style)


def _today(sheet: CoachSheet, size: Size) -> Table:
    """Draw who trains today in one line, the largest of the sheet."""
    today = sheet.today
    heavy = size.style(14, heavy=True)
    counts: list[tuple[Training | None, str]] = [
        (Training.FULL, _("{count} full").format(count=today.full)),
        (Training.WITH_LIMITS, _("{count} with limits").format(count=today.with_limits)),
        (Training.NONE, _("{count} not training").format(count=today.none)),
        (None, _("{count} away").format(count=today.away)),
    ]
    row: list[object] = [words(day_words(today.day), heavy)]
    for training, count in counts:
        row += [Disc(training, size.of(12)), words(count, heavy)]
    sign = size.of(18)
    spare = BODY_WIDTH - 4 * sign
    widths = [spare * share for share in (0.22, 0.15, 0.23, 0.25, 0.15)]
    columns = [widths[0]]
    for width in widths[1:]:
        columns += [sign, width]
    return Table(
        [row], colWidths=columns, style=[*_BARE, ("VALIGN", (0, 0), (-1, -1), "MIDDLE")]
    )


def _matches(sheet: CoachSheet, size: Size) -> list[Flowable]:
    """Draw each coming match in one line: available, possible, out."""
    if not sheet.today.matches:
        none = words(_("No match in the calendar."), size.style(10.5, colour=MUTED))
        return [none]
    rows = [
        [
            words(fixture_words(match.fixture), size.style(10.5, heavy=True)),
            words(match_outlook_words(match), size.style(9.5)),
        ]
        for match in sheet.today.matches
    ]
    wide = BODY_WIDTH * 0.43
    return [Table(rows, colWidths=[wide, BODY_WIDTH - wide], style=_BARE)]


def _news(sheet: CoachSheet, size: Size) -> Table:
    """Draw what changed beside what is coming."""
    coming = [decision_words(who, moment_words(when)) for who, when in sheet.decisions]
    changed = sheet.changed or (unchanged_words(sheet),)
    heads = (_("Changed since the last sheet"), _("Decisions and updates coming"))
    heavy, body = size.style(10.5, heavy=True, colour=ACCENT), size.style(9)
    cells = [
        [words(head, heavy), *(words(sentence, body) for sentence in sentences)]
        for head, sentences in zip(heads, (changed, coming or [_("None")]), strict=True)
    ]
    wide = BODY_WIDTH * 0.6
    style: Style = [*_BARE, ("LINEABOVE", (0, 0), (-1, 0), 0.5, HexColor(RULE))]
    return Table([cells], colWidths=[wide, BODY_WIDTH - wide], style=style)


def _foot(sheet: CoachSheet, size: Size) -> Table:
    """Draw the caution and the signature, never on two pages."""
    said = [
        words(sheet.caution, size.style(9)),
        Spacer(1, size.of(3)),
        words(signature_words(sheet), size.style(10.5, heavy=True)),
    ]
    return Table([[said]], colWidths=[BODY_WIDTH], style=_BARE)
