"""A case as the estimate sees it: its course through the five phases, and its visits."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from teamrehab.domain.history import History
from teamrehab.domain.injuries import Outcome, Scope, StageMoved

PHASES = (1, 2, 3, 4, 5)
CLEARED = 6
"""Clearance for matches counts as the phase after the last."""


class Status(StrEnum):
    """How a course stands."""

    OPEN = "open"
    CLEARED = "cleared"
    LEFT = "left"


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """What the model needs of one case. Days count from the injury (day 0).

    ``entries`` are (day, phase) in time order, the first (0, 1); a lower phase later is a
    setback, a jump means that entries are missing. ``until`` is the day of clearance, of
    leaving, or the last day the case was known to be open. ``staged`` is False for a case
    without protocol: only its total time is known. ``age`` is in years at injury.
    """

    case_id: str
    athlete_id: str
    injury: str
    injured_on: date
    muscle: str = ""
    grade: int | None = None
    age: int | None = None
    recurrence: bool = False
    entries: tuple[tuple[int, int], ...] = ((0, 1),)
    staged: bool = True
    status: Status = Status.OPEN
    until: int = 0


class End(StrEnum):
    """How a visit ended."""

    UP = "up"
    BACK = "back"
    OPEN = "open"


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """A stay in one phase, or in several where the entries between them are missing.

    ``redo`` says for each phase whether the case had been in it before.
    """

    phases: tuple[int, ...]
    redo: tuple[bool, ...]
    days: int
    end: End


def course_of(history: History, phases: Sequence[int] = (), *, last_seen: date) -> Course:
    """Return the course of a case.

    ``phases`` holds the phase of each stage of the protocol it follows, () without one.
    An open case counts as known to be open until the end of ``last_seen``.
    """
    case, diagnosis = history.case, history.diagnosis
    status, end = _ending(history, last_seen)
    entries = _entries(history, phases)
    return Course(
        case_id=case.case_id,
        athlete_id=case.athlete_id,
        injury=diagnosis.injury if diagnosis else "",
        muscle=diagnosis.muscle if diagnosis else "",
        grade=diagnosis.grade if diagnosis else None,
        injured_on=case.on,
        age=history.athlete.age_on(case.on),
        recurrence=bool(case.recurrence_of),
        entries=entries,
        staged=bool(phases),
        status=status,
        until=max((end - case.on).days, entries[-1][0]),
    )


def visits(course: Course) -> tuple[Visit, ...]:
    """Return the visits in time order; that of an open or abandoned case ends ``OPEN``."""
    then = CLEARED if course.status is Status.CLEARED else None
    ends: list[tuple[int, int | None]] = [*course.entries[1:], (course.until, then)]
    seen: set[int] = set()
    found = []
    for (day, phase), (until, following) in zip(course.entries, ends, strict=True):
        covered = _covered(course, phase, following)
        redo = tuple(p in seen for p in covered)
        end = _end(phase, following)
        found.append(Visit(phases=covered, redo=redo, days=until - day, end=end))
        seen.update(covered)
    return tuple(found)


def phases_done(course: Course) -> frozenset[int]:
    """Return the phases the case has been in and left, those of missing entries included."""
    ended = (visit for visit in visits(course) if visit.end is not End.OPEN)
    return frozenset(phase for visit in ended for phase in visit.phases)


def _covered(course: Course, phase: int, following: int | None) -> tuple[int, ...]:
    if following is None:
        return (phase,) if course.staged else PHASES
    return tuple(range(phase, following)) if following > phase else (phase,)


def _end(phase: int, following: int | None) -> End:
    if following is None:
        return End.OPEN
    return End.UP if following > phase else End.BACK


def _ending(history: History, last_seen: date) -> tuple[Status, date]:
    """Return how the case stands and since when; a move after a clearance reopens it."""
    moved = max((move.on for move in history.of(StageMoved)), default=history.case.on)
    signed = [c.on for c in history.clearances if c.scope is Scope.MATCH and c.on >= moved]
    closed = history.closed
    if signed:
        return Status.CLEARED, min(signed)
    if closed is None:
        return Status.OPEN, last_seen
    return (Status.CLEARED if closed.outcome is Outcome.CLEARED else Status.LEFT), closed.on


def _entries(history: History, phases: Sequence[int]) -> tuple[tuple[int, int], ...]:
    if not phases:
        return ((0, PHASES[0]),)
    return _tidy(
        (max((move.on - history.case.on).days, 0), phases[min(move.stage, len(phases)) - 1])
        for move in history.of(StageMoved)
    )


def _tidy(moves: Iterable[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """Return the entries that last: a move taken back on the same day never happened."""
    kept = [(0, PHASES[0])]
    for day, phase in moves:
        while len(kept) > 1 and kept[-1][0] == day and not kept[-2][1] < kept[-1][1] < phase:
            kept.pop()
        if phase != kept[-1][1]:
            kept.append((day, phase))
    return tuple(kept)
