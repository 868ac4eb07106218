"""Where an athlete stands on the ladders of a protocol, and what sessions did at them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    SessionEntry,
    SessionKind,
    SessionMissed,
)
from teamrehab.domain.protocol import Ladder, Protocol


@dataclass(frozen=True, slots=True)
class Work:
    """What one session did at one ladder; ``sets`` None where nobody counted."""

    session: SessionEntry
    level: int
    sets: int | None
    faults: tuple[str, ...] = ()


def present_stage(history: History, protocol: Protocol) -> int:
    """Return the stage a case is in, within the stages of its protocol; 1 before any move."""
    return min(max(history.stage or 1, 1), len(protocol.stages))


def open_ladders(history: History, protocol: Protocol) -> tuple[Ladder, ...]:
    """Return the ladders worked at in the present stage, in the protocol's order."""
    stage = present_stage(history, protocol)
    return tuple(ladder for ladder in protocol.ladders if ladder.open_at(stage))


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
    noted = [_order(fact, fact.began) for fact in known.facts if _is_session_of(fact.value, on)]
    if not noted:
        return known
    first = min(noted)
    earlier = (fact for fact in known.facts if _order(fact, fact.stamp) < first)
    return replace(known, facts=tuple(earlier))


def _order(fact: Standing[Any], stamp: str) -> tuple[date, str, datetime, str]:
    """Return what facts are ordered by, those of hand-made histories without stamps too."""
    return fact.value.on, stamp or fact.stamp, fact.noted_at, fact.fact_id


def worked(history: History, protocol: Protocol, ladder: Ladder) -> Iterator[Work]:
    """Yield what the sessions of a case did at a ladder, the newest first.

    A rehab session done as planned did every planned set of the ladders that were open then,
    but for the exercises that were noted by themselves. ``history`` is oldest first.
    """
    for session in reversed(history.sessions):
        work = _work(history, protocol, ladder, session)
        if work is not None:
            yield work


def _work(
    history: History, protocol: Protocol, ladder: Ladder, session: SessionEntry
) -> Work | None:
    whole = session.done in (Done.AS_PLANNED, Done.MORE)
    named = [one for one in session.exercises if one.exercise == ladder.key]
    if named:
        return _named(ladder, session, max(named, key=lambda one: one.level), whole=whole)
    if not whole or session.kind is not SessionKind.REHAB:
        return None
    before = before_session(history, session.on)
    if ladder not in open_ladders(before, protocol):
        return None
    level = level_of(before, ladder)
    return Work(session, level, ladder.levels[level - 1].sets)


def _named(ladder: Ladder, session: SessionEntry, one: ExerciseDone, *, whole: bool) -> Work:
    """Return an exercise noted by itself; uncounted sets of a plan that was done are all."""
    levels = ladder.levels
    planned = levels[one.level - 1].sets if 1 <= one.level <= len(levels) else None
    sets = planned if whole and one.sets is None else one.sets
    return Work(session, one.level, sets, one.faults)


def _is_session_of(value: object, on: date) -> bool:
    return isinstance(value, SessionEntry | SessionMissed) and value.on == on
