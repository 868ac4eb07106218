"""A protocol's sections as rich text: what to do on the left, where it comes from beside it."""

from collections.abc import Iterator, Sequence
from html import escape
from itertools import groupby

from teamrehab.desktop.appearance import SCALE_PT, Space, Type
from teamrehab.desktop.colours import Colours
from teamrehab.language import _
from teamrehab.reports.protocol_text import LineKind, ProtocolLine, ProtocolSection

_STEP, _TEXT, _SOURCE = 5, 63, 32
"""Parts of a hundred of the width: the number of a step, the text, its source."""

_CELL = f"padding: {Space.HAIR}px {Space.NEAR}px {Space.TIGHT}px 0"


def anchor(number: int) -> str:
    """Return the name of the place where section ``number`` (from 0) begins."""
    return f"section-{number}"


def protocol_markup(
    sections: Sequence[ProtocolSection],
    colours: Colours,
    stage: int | None = None,
    said: Sequence[str] = (),
) -> str:
    """Return the sections as the subset of HTML that Qt shows.

    ``stage`` is the stage that is open now; ``said`` are sentences about the case that
    follows the protocol, they stand below the title.
    """
    title, *rest = sections
    return _title(title, said, colours) + "".join(
        _heading(number, section, colours, here=_is_open(section, stage))
        + _table(section, colours)
        for number, section in enumerate(rest, start=1)
    )


def _is_open(section: ProtocolSection, stage: int | None) -> bool:
    return stage is not None and section.stage == stage


def _title(section: ProtocolSection, said: Sequence[str], colours: Colours) -> str:
    """Return the name, what to heed, the case that follows it, and whose protocol it is."""
    heed = [line.text for line in section.lines if line.kind is LineKind.CAUTION]
    told = [line.text for line in section.lines if line.kind is not LineKind.CAUTION]
    style = f"margin: 0; font-size: {SCALE_PT[Type.DISPLAY]}pt; font-weight: 600"
    return "".join(
        (
            f'<p style="{style}"><a name="{anchor(0)}"></a>{escape(section.heading)}</p>',
            *(_sentence(each, f"font-weight: 600; color: {colours.alarm}") for each in heed),
            *(_sentence(each, f"{_pt(Type.LEAD)} color: {colours.accent}") for each in said),
            _sentence(" ".join(told), f"color: {colours.muted}"),
        )
    )


def _sentence(words: str, style: str) -> str:
    return f'<p style="margin: {Space.NEAR}px 0 0 0; {style}">{escape(words)}</p>'


def _heading(number: int, section: ProtocolSection, colours: Colours, *, here: bool) -> str:
    style = f"margin: {Space.WIDE}px 0 {Space.TIGHT}px 0; font-size: {SCALE_PT[Type.TITLE]}pt"
    ink = colours.alarm if section.warns else colours.ink
    words, mark = escape(section.heading), ""
    if here:
        ink = colours.accent
        mark = f'<br><span style="{_pt(Type.LEAD)}">{escape(_("open now"))}</span>'
    return (
        f'<p style="{style}; font-weight: 600; color: {ink}">'
        f'<a name="{anchor(number)}"></a>{words}{mark}</p>'
    )


def _table(section: ProtocolSection, colours: Colours) -> str:
    rows = "".join(_rows(section, colours))
    return f'<table width="100%" cellspacing="0" cellpadding="0">{rows}</table>'


def _rows(section: ProtocolSection, colours: Colours) -> Iterator[str]:
    """Yield a row a line; lines that share a source share its cell."""
    for source, group in groupby(section.lines, key=lambda line: _source_of(line, section)):
        lines = list(group)
        beside = _source(source, len(lines), colours)
        for line in lines:
            yield f"<tr>{_line(line, section, colours)}{beside}</tr>"
            beside = ""


def _source_of(line: ProtocolLine, section: ProtocolSection) -> str:
    """Return where a line comes from; the levels of a ladder come from where it does."""
    return line.source or (section.lines[0].source if line.step is not None else "")


def _line(line: ProtocolLine, section: ProtocolSection, colours: Colours) -> str:
    style = "margin: 0; line-height: 115%;" + _weight(line, section, colours)
    words = f'<p style="{style}">{escape(line.text)}</p>'
    if line.step is not None:
        style = f"margin: 0; font-weight: 600; color: {colours.accent}"
        number = f'<p style="{style}">{line.step}.</p>'
        return (
            f'<td width="{_STEP}%" style="{_CELL}">{number}</td>'
            f'<td width="{_TEXT}%" style="{_CELL}">{words}</td>'
        )
    if any(each.step is not None for each in section.lines):
        # a width here would widen the column of the numbers
        return f'<td colspan="2" style="{_CELL}">{words}</td>'
    return f'<td width="{_STEP + _TEXT}%" style="{_CELL}">{words}</td>'


def _weight(line: ProtocolLine, section: ProtocolSection, colours: Colours) -> str:
    """Return how a line stands out; where all is caution the heading says so already."""
    if line.kind is LineKind.LEADS_IN:
        return "font-weight: 600;"
    if line.kind is LineKind.CAUTION and not section.warns:
        return f"font-weight: 600; color: {colours.alarm};"
    return ""


def _source(source: str, lines: int, colours: Colours) -> str:
    """Return the cell beside one or more lines; its edge shows which lines it is about."""
    edge = f"; border-left: 1px solid {colours.muted}" if source else ""
    style = f"margin: 0 0 0 {Space.NEAR}px; {_pt(Type.SMALL)} color: {colours.muted}"
    words = escape(source) or "&nbsp;"  # an empty cell would swallow the space below its table
    return (
        f'<td rowspan="{lines}" width="{_SOURCE}%" style="{_CELL}{edge}">'
        f'<p style="{style}">{words}</p></td>'
    )


def _pt(role: Type) -> str:
    return f"font-size: {SCALE_PT[role]}pt;"
