"""What an athlete is to do tonight, as the protocol and the decided levels have it."""

from dataclasses import dataclass
from datetime import date

from teamrehab.domain.availability import Availability, Training
from teamrehab.domain.history import History
from teamrehab.domain.ladders import before_session, level_of, open_ladders, present_stage
from teamrehab.domain.measures import ExerciseDone, SessionKind
from teamrehab.domain.protocol import Ladder, Protocol


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedExercise:
    """One exercise of a plan: ``exercise`` is the key of its ladder, ``level`` counts from 1.

    ``ladder`` is the ladder's name. ``name`` says what is done ("one leg on the floor"),
    ``dose`` how much of it in a set.
    """

    exercise: str
    level: int
    ladder: str
    name: str
    sets: int
    dose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A planned session; without a protocol it has no exercises and no minutes.

    Of a team session ``exercises`` is the rehab work that goes on beside it.
    """

    kind: SessionKind
    minutes: int | None = None
    exercises: tuple[PlannedExercise, ...] = ()


def plan_for(
    history: History, protocol: Protocol | None, availability: Availability, on: date
) -> Plan:
    """Return the plan of the session of ``on``.

    Decisions noted before that day's session count; later ones are for the next day.
    """
    if protocol is None:
        return Plan(kind=SessionKind.REHAB)
    known = before_session(history, on)
    stage = protocol.stages[present_stage(known, protocol) - 1]
    last = stage.phase == protocol.stages[-1].phase
    return Plan(
        kind=_kind(availability.training) if last else SessionKind.REHAB,
        minutes=stage.minutes,
        exercises=tuple(
            planned_at(ladder, level_of(known, ladder))
            for ladder in open_ladders(known, protocol)
        ),
    )


def planned_at(ladder: Ladder, level: int) -> PlannedExercise:
    """Return the work of a ladder at one of its levels, counted from 1."""
    work = ladder.levels[level - 1]
    return PlannedExercise(
        exercise=ladder.key,
        level=level,
        ladder=ladder.name,
        name=work.name,
        sets=work.sets,
        dose=work.dose,
    )


def as_done(plan: Plan) -> tuple[ExerciseDone, ...]:
    """Return the exercises of a session that was done as planned: every planned set."""
    return tuple(
        ExerciseDone(exercise=one.exercise, level=one.level, sets=one.sets)
        for one in plan.exercises
    )


def _kind(training: Training) -> SessionKind:
    """Return where an athlete of the last phase trains."""
    return {
        Training.FULL: SessionKind.TEAM_FULL,
        Training.WITH_LIMITS: SessionKind.TEAM_WITH_LIMITS,
        Training.NONE: SessionKind.REHAB,
    }[training]
