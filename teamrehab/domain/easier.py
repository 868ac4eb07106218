"""The easier way in to a ladder: what is worked at until its first level is tolerated.

A ladder of a protocol that comes to an end (``until``) stands before the one it leads to: it
is left as soon as the first level of one of those after it was passed, up to the first that
goes on. Where that hurts, the plan goes back to the one before it (common practice).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from teamrehab.domain.protocol import Ladder


@dataclass(frozen=True, slots=True, kw_only=True)
class WayIn:
    """Ladders from the easiest to the one they lead to, and which of them are worked at.

    Those from ``low`` to ``top`` are (places in ``ladders``, from 0).
    """

    ladders: tuple[Ladder, ...]
    low: int
    top: int

    @property
    def goal(self) -> int:
        """Return the place of the ladder they lead to."""
        return len(self.ladders) - 1

    @property
    def now(self) -> tuple[str, ...]:
        """Return the keys of the ladders worked at."""
        return tuple(one.key for one in self.ladders[self.low : self.top + 1])

    @property
    def ended(self) -> tuple[str, ...]:
        """Return the keys of the easier ladders that are not needed any more."""
        return tuple(one.key for one in self.ladders[: self.low])

    def place_of(self, key: str) -> int | None:
        """Return the place of a ladder by its key, None where it does not belong here."""
        return next((i for i, one in enumerate(self.ladders) if one.key == key), None)

    def open_at(self, stage: int) -> bool:
        """Return whether the easier work is on offer in a stage."""
        return any(one.open_at(stage) for one in self.ladders[: self.goal])

    def back(self, stage: int) -> bool:
        """Return whether the goal hurt last, and easier work takes its place in a stage."""
        return self.top < self.goal and self.open_at(stage)

    def hurt(self, place: int) -> "WayIn":
        """Return the way in after work at a place hurt: up to the one before it."""
        top = max(place - 1, 0)
        return replace(self, top=top, low=min(self.low, top))

    def passed(self, place: int) -> "WayIn":
        """Return the way in after work at a place was passed: the next may be tried."""
        low = max(self.low, place)
        return replace(self, low=low, top=max(self.top, min(place + 1, self.goal)))

    def decided(self, place: int, level: int) -> "WayIn":
        """Return the way in after a person put the athlete at a level of a ladder in it."""
        low = self.goal if place == self.goal and level > 1 else self.low
        return replace(self, low=low, top=max(self.top, place))


def ways_in(ladders: Sequence[Ladder]) -> tuple[WayIn, ...]:
    """Return every easier way in of a protocol as it is before any work."""
    found, easier = [], list[Ladder]()
    for ladder in ladders:
        if ladder.until is not None:
            easier.append(ladder)
            continue
        before = tuple(_leading_to(ladder, easier))
        if before:
            found.append(WayIn(ladders=(*before, ladder), low=0, top=len(before)))
        easier = []
    return tuple(found)


def _leading_to(goal: Ladder, easier: Iterable[Ladder]) -> Iterable[Ladder]:
    """Return the ladders of the same kind of work that are open while ``goal`` is."""
    return (
        one
        for one in easier
        if one.work is goal.work and one.until is not None and goal.stage <= one.until
    )
