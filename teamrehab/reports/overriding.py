"""The decisions of people above what was proposed, as they still stand."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved


@dataclass(frozen=True, slots=True, kw_only=True)
class Overridden:
    """A decision of a person above what was proposed: what was opened, who, when and why.

    ``ladder`` is a ladder's key, "" for the stage; ``author`` a staff id.
    """

    ladder: str
    number: int
    on: date
    author: str
    why: str


def overrides(known: History) -> Iterator[Overridden]:
    """Yield the decisions above a proposal that still stand, the stage's first."""
    last: dict[str, Overridden | None] = {"": None}
    for fact in known.facts:
        moved = fact.value
        if isinstance(moved, StageMoved | LevelMoved):
            ladder = moved.ladder if isinstance(moved, LevelMoved) else ""
            number = moved.level if isinstance(moved, LevelMoved) else moved.stage
            said = Overridden(
                ladder=ladder,
                number=number,
                on=moved.on,
                author=fact.author,
                why=moved.why.strip(),
            )
            last[ladder] = said if number > moved.proposed else None
    yield from (said for said in last.values() if said is not None)
