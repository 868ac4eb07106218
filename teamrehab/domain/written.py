"""Text as a person typed it: what may be kept, and how it is shown in a message."""

import unicodedata

from teamrehab.language import _

NAME = 200
"""Characters a name may have."""
NOTE = 4000
"""Characters a note may have: two printed pages."""
SHOWN = 40
"""Characters of a refused value that a message repeats."""

_LINE_ENDS = "\n\t"
_TURNING = set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Signs that turn the direction of what follows: they make one text read as another."""


def unfit_text(text: str, longest: int, *, one_line: bool = True) -> str:
    """Return what is allowed instead of ``text``, or nothing where it is fit to be kept."""
    if len(text) > longest:
        return _("at most {number} characters").format(number=longest)
    breaks = "" if one_line else _LINE_ENDS
    if any(_hidden(sign) and sign not in breaks for sign in text):
        return _("letters, digits and punctuation, no control characters")
    return ""


def blank(text: str) -> bool:
    """Return whether nothing of ``text`` can be seen."""
    return all(unicodedata.category(sign)[0] in "ZC" for sign in text)


def shortened(value: object) -> str:
    """Return a value as a message repeats it: one line, its start only where it is long."""
    text = value if isinstance(value, str) else repr(value)
    seen = "".join("�" if _hidden(sign) else sign for sign in text[:SHOWN])
    if len(text) <= SHOWN:
        return seen
    return _("{start}… ({number} characters)").format(start=seen, number=len(text))


def _hidden(sign: str) -> bool:
    return sign in _TURNING or unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp")
