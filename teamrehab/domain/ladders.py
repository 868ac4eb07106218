"""Where an athlete stands on the ladders of a protocol, and what sessions did at them."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.ladder_days import is_session_of, order_of, walk
from teamrehab.domain.protocol import Ladder, Protocol
from teamrehab.domain.work import Work

__all__ = [
    "Work",
    "before_session",
    "level_of",
    "open_ladders",
    "present_stage",
    "reached",
    "worked",
]


def present_stage(history: History, protocol: Protocol) -> int:
    """Return the stage a case is in, within the stages of its protocol; 1 before any move."""
    return min(max(history.stage or 1, 1), len(protocol.stages))


def open_ladders(
    history: History, protocol: Protocol, on: date | None = None
) -> tuple[Ladder, ...]:
    """Return the ladders worked at by all that is known, in the protocol's order.

    Those of the present stage, once what their first level asks for was passed; easier work
    ends when what it leads to is tolerated, and takes its place while that hurts. For a day
    ``on`` those that rest then are left out.
    """
    return walk(history, protocol).open(on)


def level_of(history: History, ladder: Ladder) -> int:
    """Return the level that was decided last, 1 before any decision.

    A move back to a stage that has not opened that level takes it back to the highest one
    that stage has opened, until a person decides again.
    """
    level = 1
    for fact in history.facts:
        moved = fact.value
        if isinstance(moved, LevelMoved) and moved.ladder == ladder.key:
            level = moved.level
        elif isinstance(moved, StageMoved):
            level = min(level, ladder.opened_by(moved.stage))
    return min(max(level, 1), len(ladder.levels))


def reached(history: History, ladder: Ladder) -> int:
    """Return the highest level work may be recorded at: the highest ever decided.

    1 where the ladder's stage was opened and nothing decided, 0 where it never was. For a
    session of an earlier day ask the history as of that day.
    """
    decided = [m.level for m in history.of(LevelMoved) if m.ladder == ladder.key]
    furthest = max((m.stage for m in history.of(StageMoved)), default=1)
    opened = ladder.stage <= max(furthest, 1)
    return min(max([*decided, int(opened)]), len(ladder.levels))


def before_session(history: History, on: date) -> History:
    """Return the case as it stood when the session of ``on`` was planned.

    What is decided once that day's session is first noted holds from the next day on; a later
    correction of the session changes nothing about what was planned.
    """
    known = history.as_of(on)
    noted = [
        order_of(fact, fact.began) for fact in known.facts if is_session_of(fact.value, on)
    ]
    if not noted:
        return known
    first = min(noted)
    earlier = (fact for fact in known.facts if order_of(fact, fact.stamp) < first)
    return replace(known, facts=tuple(earlier))


def worked(history: History, protocol: Protocol, ladder: Ladder) -> Iterator[Work]:
    """Yield what the sessions of a case did at a ladder, the newest first.

    A rehab session done as planned did every planned set of the ladders that were open then,
    but for the exercises that were noted by themselves.
    """
    return reversed(walk(history, protocol).works[ladder.key])
