"""Names as one searches for them, and those that are easily taken for one another."""

import unicodedata
from collections.abc import Iterable
from difflib import SequenceMatcher

LIKENESS = 0.75
"""Two surnames are taken for one another from this share of common letters on (a choice)."""

_LETTERS = str.maketrans("łŁøØđĐðÐıİ", "lLoOdDdDiI")


def plain(words: str) -> str:
    """Return ``words`` without case and accents, as one searches for a name."""
    parts = unicodedata.normalize("NFKD", words.translate(_LETTERS).casefold())
    return "".join(letter for letter in parts if not unicodedata.combining(letter))


def alike(one: str, other: str) -> bool:
    """Return whether two surnames are easily confused: near in letters, or one in the other.

    The same answer either way round; a surname that is not known is like no other.
    """
    first, second = sorted((plain(one).strip(), plain(other).strip()))
    if not first or not second:
        return False
    if first in second or second in first:
        return True
    return SequenceMatcher(None, first, second, autojunk=False).ratio() >= LIKENESS


def like_any(name: str, others: Iterable[str]) -> bool:
    """Return whether a surname is easily confused with any of ``others``."""
    return any(alike(name, other) for other in others)
