"""Which of the ladders that could go up goes first, since only one does of an evening.

The order is common practice: what a coming gate asks for, then work that rests every second
day and would lose its evening to work that does not, then what waited longest.
"""

from collections.abc import Iterator
from datetime import date

from teamrehab.domain.ladder_days import REST_BETWEEN, Place
from teamrehab.domain.protocol import Criterion, Ladder, Passed
from teamrehab.language import _

LEVEL_PASSED = "level_passed"
"""The check whose criteria ask for a level of a ladder."""

_Rank = tuple[int, bool, date, int]


def goes_first(place: Place, ladders: list[Ladder]) -> Ladder:
    """Return the ladder that goes up first of those that could."""
    asked = asked_for(place)
    return min(ladders, key=lambda one: _rank(place, asked, one))


def why_first(place: Place, first: Ladder, other: Ladder) -> str:
    """Return why a ladder goes up before another one, in a sentence."""
    asked = asked_for(place)
    now, then = _rank(place, asked, first), _rank(place, asked, other)
    if now[0] < then[0]:
        said = _("{ladder} goes up first, {gate} asks for it: one change at a time.")
        return said.format(ladder=first.name, gate=_opens(place, now[0]))
    if now[1] < then[1]:
        said = _("{ladder} goes up first, it rests every second day: one change at a time.")
    elif now[2] < then[2]:
        said = _("{ladder} goes up first, it has waited longest: one change at a time.")
    else:
        said = _("{ladder} goes up first, it stands first: one change at a time.")
    return said.format(ladder=first.name)


def asked_for(place: Place) -> dict[str, int]:
    """Return the ladders by key that have to go up for a coming gate, with its stage.

    Those that a criterion asks a level of that nobody passed yet, and those that this level
    waits for in its turn. Of two gates the nearer one.
    """
    protocol, found = place.protocol, dict[str, int]()
    for stage in range(place.stage, len(protocol.stages) + 1):
        for criterion in protocol.gate(stage):
            for key in _wanted(place, levels_asked(criterion), frozenset()):
                found.setdefault(key, stage)
    return found


def levels_asked(criterion: Criterion) -> tuple[Passed, ...]:
    """Return the levels that a criterion asks for, by its check or before it is tested."""
    if criterion.check != LEVEL_PASSED:
        return criterion.after
    given = criterion.parameters
    return (Passed(ladder=str(given["ladder"]), level=int(given["level"])), *criterion.after)


def _wanted(place: Place, asked: tuple[Passed, ...], seen: frozenset[Passed]) -> Iterator[str]:
    """Yield the ladders that have to go up for levels to be passed; ``seen`` ends a circle."""
    ladders = {one.key: one for one in place.protocol.ladders}
    for one in asked:
        ladder = ladders.get(one.ladder)
        if ladder is None or one in seen or place.has_passed(one):
            continue
        level = place.level(ladder)
        if level < one.level:
            yield ladder.key
        ahead = ladder.levels[0 if level == 1 else level : one.level]
        before = tuple(each for step in ahead for each in step.after)
        yield from _wanted(place, before, seen | {one})


def _rank(place: Place, asked: dict[str, int], ladder: Ladder) -> _Rank:
    keys = [one.key for one in place.protocol.ladders]
    return (
        asked.get(ladder.key, len(place.protocol.stages) + 1),
        ladder.work not in REST_BETWEEN,
        place.since.get(ladder.key, place.onset),
        keys.index(ladder.key),
    )


def _opens(place: Place, stage: int) -> str:
    """Return what leaving a stage opens: the next one, or the sign-off."""
    stages = place.protocol.stages
    return stages[stage].name if stage < len(stages) else _("the sign-off")
