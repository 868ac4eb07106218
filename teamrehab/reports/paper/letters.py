"""The letters on paper: our own fonts, and which of them can print a text."""

import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from itertools import groupby
from xml.sax.saxutils import escape

from teamrehab.locations import RESOURCES

REGULAR = "NotoSans"
HEAVY = "NotoSans-SemiBold"
_FILES = {
    REGULAR: "NotoSans-Regular.ttf",
    HEAVY: "NotoSans-SemiBold.ttf",
    "NotoSansArabic-SemiBold": "NotoSansArabic-SemiBold.ttf",
    "Heebo-SemiBold": "Heebo-SemiBold.ttf",
}
_OTHER_SCRIPTS = ("NotoSansArabic-SemiBold", "Heebo-SemiBold")
_RIGHT_TO_LEFT = {"R", "AL"}
_LONGEST = 600
"""Letters of one text that are printed; a longer one would not fit on any page."""


@lru_cache(maxsize=1)
def register_fonts() -> dict[str, frozenset[int]]:
    """Make our fonts known to the paper once; return which letters each of them holds."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    letters = {}
    for name, file in _FILES.items():
        font = TTFont(name, RESOURCES / "fonts" / file)
        pdfmetrics.registerFont(font)
        letters[name] = frozenset(font.face.charToGlyph)
    return letters


def marked(text: str) -> str:
    """Return a text as it may stand in a paragraph: nothing in it is read as markup.

    Letters of other scripts get their font, right-to-left ones are shaped and put in the
    order of the eye. A letter that no font holds is printed as a question mark.
    """
    pieces = []
    for font, group in groupby(_in_order(text), key=_font_for):
        letters = "".join(group)
        piece = escape(letters) if font else "?" * len(letters)
        pieces.append(
            f'<font name="{font}">{piece}</font>' if font in _OTHER_SCRIPTS else piece
        )
    return "".join(pieces)


def can_print(text: str) -> bool:
    """Return whether our fonts hold every letter of a text."""
    return all(_font_for(letter) is not None for letter in _in_order(text))


def plain(text: str) -> str:
    """Return a text without control, direction and joining characters, cut to fit a page."""
    kept = "".join(_kept(unicodedata.normalize("NFC", text)))
    return kept if len(kept) <= _LONGEST else kept[: _LONGEST - 1] + "…"


def _kept(text: str) -> Iterator[str]:
    for letter in text:
        category = unicodedata.category(letter)
        if category in {"Cc", "Zl", "Zp"}:
            yield " "
        elif category not in {"Cf", "Cs"}:
            yield letter


def _in_order(text: str) -> str:
    kept = plain(text)
    if not any(unicodedata.bidirectional(letter) in _RIGHT_TO_LEFT for letter in kept):
        return kept
    from arabic_reshaper import reshape
    from bidi import get_display  # type: ignore[import-untyped]

    return str(get_display(reshape(kept), base_dir="L"))


def _font_for(letter: str) -> str | None:
    """Return the font that prints a letter: ours where it can, None where no font can."""
    held = register_fonts()
    fonts = (HEAVY, *_OTHER_SCRIPTS)
    return next((font for font in fonts if ord(letter) in held[font]), None)
