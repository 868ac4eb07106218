"""Who is played, and where: read from the words a calendar writes above a match."""

import re

from teamrehab.exchange.headings import plain

_NAMED = re.compile(r"\s+vs?\.?\s+", re.IGNORECASE)
_BETWEEN = re.compile(r"\s+(?:vs?\.?|[-\u2013\u2014]|@|at)\s+", re.IGNORECASE)
_LEADING = re.compile(r"(?P<sign>vs?\.?|@|at)\s+(?P<opponent>.+)", re.IGNORECASE)
_GROUND_FIRST = re.compile(r"(?P<ground>home|away)\s*:\s*(?P<opponent>.+)", re.IGNORECASE)
_GROUND_LAST = re.compile(r"\s*[([](?P<ground>home|away|h|a)[)\]]\s*$", re.IGNORECASE)
_AWAY_SIGNS = re.compile(r"\s(?:@|at)\s", re.IGNORECASE)
_BESIDE_A_NAME = re.compile(
    r"(?:fc|afc|rfc|sc|cf|ac|club|women|men|ladies|reserves|first|team|ii|u\d\d)"
)
"""What stands beside a club's name without telling clubs apart."""
_GROUNDS = {"home": True, "h": True, "away": False, "a": False}
_SHORT = 3
"""Letters from which a shortened word of a name still tells a club (common practice)."""


def opponent_in(summary: str, own: str) -> tuple[str, bool] | None:
    """Return (opponent, at home), or None where the words name no opponent.

    Our own side is told by the team's name, also shortened, or by "Home" or "Away" in its
    place. Two sides of which neither can be told stay together: "v" alone says it is a match;
    a dash, "at" or "@" does not, for dinners have them too.
    """
    marked = _GROUND_LAST.search(summary)
    words = summary[: marked.start()] if marked else summary
    said = _GROUNDS[marked["ground"].casefold()] if marked else None
    found = _opponent(words.strip(), own)
    if found is None:
        return (words, said) if said is not None and words.strip() else None
    opponent, home = found
    return opponent, home if said is None else said


def _opponent(words: str, own: str) -> tuple[str, bool] | None:
    first = _GROUND_FIRST.fullmatch(words)
    if first:
        return first["opponent"], _GROUNDS[first["ground"].casefold()]
    leading = _LEADING.fullmatch(words)
    if leading:
        return leading["opponent"], leading["sign"].casefold().startswith("v")
    sides = _BETWEEN.split(words, maxsplit=1)
    if len(sides) == 2 and all(sides):
        found = _other_side(sides, own, at_opponent=_AWAY_SIGNS.search(words) is not None)
        if found is not None:
            return found
    return (words, True) if _NAMED.search(words) else None


def _other_side(sides: list[str], own: str, *, at_opponent: bool) -> tuple[str, bool] | None:
    """Return the side that is not ours, None where that cannot be told."""
    grounds = [_GROUNDS.get(plain(side)) for side in sides]
    if (grounds[0] is None) != (grounds[1] is None):
        ours = 0 if grounds[0] is not None else 1
        return sides[1 - ours], bool(grounds[ours])
    likeness = [_likeness(side, own) for side in sides]
    if likeness[0] == likeness[1]:
        return None
    if likeness[0] > likeness[1]:
        return sides[1], not at_opponent
    return sides[0], at_opponent


def _likeness(side: str, own: str) -> int:
    """Return how surely a side is our own: 3 whole name, 2 shortened, 1 initials, 0 not."""
    if not own:
        return 0
    if plain(own) in plain(side):
        return 3
    ours = [plain(word) for word in own.split()]
    words = [plain(word) for word in side.split()]
    telling = [word for word in words if not _BESIDE_A_NAME.fullmatch(word)]
    if telling and all(_shortens(word, ours) for word in telling):
        return 2
    initials = "".join(word[0] for word in ours)
    return int(len(initials) > 1 and plain(side) == initials)


def _shortens(word: str, ours: list[str]) -> bool:
    """Return whether a word is one of the name's, or the beginning of one."""
    return any(word == one or (len(word) >= _SHORT and one.startswith(word)) for one in ours)
