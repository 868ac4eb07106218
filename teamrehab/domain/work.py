"""What one session did at one ladder, and whether that passed a level or hurt."""

from dataclasses import dataclass

from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Feeling,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.protocol import Ladder


@dataclass(frozen=True, slots=True)
class Work:
    """What one session did at one ladder; ``sets`` None where nobody counted."""

    session: SessionEntry
    level: int
    sets: int | None
    faults: tuple[str, ...] = ()


def work_of(ladder: Ladder, session: SessionEntry, planned: int | None) -> Work | None:
    """Return what a session did at a ladder, None where it says nothing of it.

    ``planned`` is the level that was planned, None where the ladder was not. A rehab session
    done as planned did every planned set, but for what was noted by itself.
    """
    whole = session.done in (Done.AS_PLANNED, Done.MORE)
    named = [one for one in session.exercises if one.exercise == ladder.key]
    if named:
        return _named(ladder, session, max(named, key=lambda one: one.level), whole=whole)
    if planned is None or not whole or session.kind is not SessionKind.REHAB:
        return None
    return Work(session, planned, ladder.levels[planned - 1].sets)


def _named(ladder: Ladder, session: SessionEntry, one: ExerciseDone, *, whole: bool) -> Work:
    """Return an exercise noted by itself; uncounted sets of a plan that was done are all."""
    levels = ladder.levels
    planned = levels[one.level - 1].sets if 1 <= one.level <= len(levels) else None
    sets = planned if whole and one.sets is None else one.sets
    return Work(session, one.level, sets, one.faults)


def passes(work: Work, ladder: Ladder, most: int) -> bool:
    """Return whether a session passed the level it worked at; ``most`` symptom is allowed.

    Every set of its dose, no form fault, a symptom noted that is allowed and not sharp, no
    limp, no painkiller.
    """
    session = work.session
    if not 1 <= work.level <= len(ladder.levels) or session.symptom is None:
        return False
    whole = (work.sets or 0) >= ladder.levels[work.level - 1].sets
    amiss = bool(work.faults) or session.limp or session.painkiller
    return whole and not amiss and not hurts(session.symptom, most)


def hurts(symptom: Symptom | None, most: int) -> bool:
    """Return whether a symptom was sharp or more than is allowed; one not noted says no."""
    if symptom is None:
        return False
    return symptom.feeling is Feeling.SHARP or symptom.score > most
