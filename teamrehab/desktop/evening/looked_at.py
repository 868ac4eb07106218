"""The exercises one looks at in a row: those of the plan, and those of a saved session."""

from collections.abc import Mapping

from teamrehab.desktop.evening.typed import Tonight, lines_of, without_levels
from teamrehab.domain.measures import ExerciseDone, SessionEntry
from teamrehab.domain.plans import PlannedExercise, planned_at
from teamrehab.domain.protocol import Ladder


def exercises_of(tonight: Tonight, saved: SessionEntry) -> tuple[PlannedExercise, ...]:
    """Return what is looked at while a saved session is corrected.

    What was done keeps the level it was done at, whatever the plan says since: a stop, another
    stage and another level leave it as it was seen.
    """
    done = {one.exercise: one for one in saved.exercises}
    protocol = tonight.protocol
    ladders = {} if protocol is None else {one.key: one for one in protocol.ladders}
    plain = () if protocol is None else protocol.guidance.exercises
    seen = {key: _as_looked_at(one, ladders) for key, one in done.items()}
    seen |= {one.key: without_levels(one) for one in plain if one.key in done}
    planned = {one.exercise: one for one in lines_of(tonight.plan)}
    return tuple((planned | seen).values())


def _as_looked_at(done: ExerciseDone, ladders: Mapping[str, Ladder]) -> PlannedExercise:
    """Return an exercise in the words of its level; its key where the protocol lacks it."""
    ladder = ladders.get(done.exercise)
    if ladder is None or done.level > len(ladder.levels):
        sets = done.sets or 0
        return PlannedExercise(
            exercise=done.exercise,
            level=done.level,
            ladder=done.exercise,
            name="",
            sets=sets,
            dose="",
        )
    return planned_at(ladder, done.level)
