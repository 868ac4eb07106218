"""Which column of an attendance list is which: by its heading, or by what it holds."""

import re
from collections.abc import Mapping, Sequence
from enum import Enum

from teamrehab.domain.written import blank
from teamrehab.exchange.headings import Column, columns_of, plain


class Part(Enum):
    """What a list says of an athlete; the two names are put together again."""

    NUMBER = "number"
    NAME = "name"
    OTHER_NAME = "other name"
    MINUTES = "minutes"
    EFFORT = "effort"


_HEADINGS = {
    Part.MINUTES: (
        "minutes, minute, min, mins, time, time min, duration, duration min, minutes played, "
        "minutos, duracion, tiempo, duree, temps, minuten, dauer, zeit, spielminuten, "
        "duracao, tempo"
    ),
    Part.EFFORT: (
        "effort, rpe, srpe, effort rpe, rpe 0 10, rpe 10, effort 0 10, exertion, "
        "perceived exertion, esfuerzo, esfuerzo percibido, ressenti, "
        "anstrengung, belastung, belastungsempfinden, esforco, pse"
    ),
}
_WORDS = {plain(word): part for part, words in _HEADINGS.items() for word in words.split(",")}
_KNOWN = {
    Column.NUMBER: Part.NUMBER,
    Column.NAME: Part.NAME,
    Column.SURNAME: Part.NAME,
    Column.FIRST_NAME: Part.OTHER_NAME,
}
_LETTER = re.compile(r"[^\W\d_]")
_NUMERIC = re.compile(r"#?\d+(?:[.,]\d+)?\s*(?:min\.?|minutes?|'|\N{PRIME})?", re.IGNORECASE)
_COLUMNS_LOOKED_AT = 20
_HEADINGS_WITHIN = 20
"""Titles may stand above the headings, as in a roster."""


def heading_line(lines: Sequence[Sequence[str]]) -> int | None:
    """Return which line holds the headings, None without one.

    A line with a number standing alone in a cell is an athlete's, whatever their name.
    """
    for index, cells in enumerate(lines[:_HEADINGS_WITHIN]):
        if by_heading(cells)[0] and not any(_NUMERIC.fullmatch(cell) for cell in cells):
            return index
    return None


def by_heading(cells: Sequence[str]) -> tuple[dict[Part, int], tuple[str, ...]]:
    """Return which part stands in which column, and the headings that were not understood."""
    found: dict[Part, int] = {}
    for index, column in columns_of(cells).items():
        if column in _KNOWN:
            found.setdefault(_KNOWN[column], index)
    for index, heading in enumerate(cells):
        part = _WORDS.get(plain(heading))
        if part is not None:
            found.setdefault(part, index)
    used = set(found.values())
    unread = (cell for index, cell in enumerate(cells) if index not in used)
    return found, tuple(cell for cell in unread if not blank(cell))


def by_content(lines: Sequence[Sequence[str]]) -> dict[Part, int]:
    """Return which part stands in which column, told from what most lines hold there.

    Words are names, of which a second column is the other half. One number before them, or
    the first of three after them, is the shirt's; the last two are minutes and effort.
    """
    width = min(max((len(cells) for cells in lines), default=0), _COLUMNS_LOOKED_AT)
    words = [index for index in range(width) if _mostly_words(lines, index)]
    others = [index for index in range(width) if index not in words]
    names = [index for index in words[:2] if index <= words[0] + 1]
    found = dict(zip((Part.NAME, Part.OTHER_NAME), names, strict=False))
    numbered = not names or len(others) > 2 or (bool(others) and others[0] < names[0])
    if numbered and others:
        found[Part.NUMBER] = others.pop(0)
    return found | dict(zip((Part.MINUTES, Part.EFFORT), others, strict=False))


def _mostly_words(lines: Sequence[Sequence[str]], index: int) -> bool:
    held = [cells[index] for cells in lines if index < len(cells) and cells[index]]
    words = sum(bool(_LETTER.search(one)) and not _NUMERIC.fullmatch(one) for one in held)
    return words * 2 > len(held)


def sorted_out(cells: Sequence[str], parts: Mapping[Part, int]) -> dict[Part, str]:
    """Return what a line says of each part, "" where it says nothing; the name in one."""
    said = {part: cells[at] if at < len(cells) else "" for part, at in parts.items()}
    whole = dict.fromkeys(Part, "") | said
    whole[Part.NAME] = f"{whole[Part.NAME]} {whole[Part.OTHER_NAME]}".strip()
    return whole
