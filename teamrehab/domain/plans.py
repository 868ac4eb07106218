"""What an athlete is to do tonight, as the protocol and the decided levels have it."""

from dataclasses import dataclass

from teamrehab.domain.measures import SessionKind


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedExercise:
    """One exercise of a plan: ``exercise`` is the key of its ladder, ``level`` counts from 1.

    ``name`` says what is done ("one leg on the floor"), ``dose`` how much of it in a set.
    """

    exercise: str
    level: int
    ladder: str
    name: str
    sets: int
    dose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A planned session; without a protocol it has no exercises and no minutes."""

    kind: SessionKind
    minutes: int | None = None
    exercises: tuple[PlannedExercise, ...] = ()
