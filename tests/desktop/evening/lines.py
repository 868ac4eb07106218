"""Lines of an evening with sensible defaults."""

from typing import Any

from teamrehab.desktop.evening.typed import Tonight, TypedRow
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import SessionKind
from teamrehab.domain.plans import Plan, PlannedExercise
from teamrehab.domain.protocol import FormFault
from teamrehab.reports.evening import EveningLine
from tests.builders import case, day, history

TONIGHT = day(20)
"""The evening of the tests."""

FAULTS = (FormFault(key="height", name="height lost"), FormFault(key="knee", name="knee bends"))


def exercise(key: str = "raises", sets: int = 3) -> PlannedExercise:
    """Return an exercise of a plan."""
    return PlannedExercise(
        exercise=key, level=2, ladder="Heel raises", name="one leg", sets=sets, dose="12"
    )


def line(**changes) -> EveningLine:
    """Return a line of an athlete in the second phase, two exercises and 40 minutes."""
    plan = Plan(
        kind=SessionKind.REHAB, minutes=40, exercises=(exercise(), exercise("hops", sets=4))
    )
    values: dict[str, Any] = {
        "athlete_id": "a1",
        "case_id": "c1",
        "number": 8,
        "surname": "Okafor",
        "first_name": "Sam",
        "side": Side.LEFT,
        "problem": "calf",
        "stage": "Strength",
        "plan": plan,
        "plan_words": "2 exercises",
        "history": history(of=case()),
        "phase": 2,
    }
    return EveningLine(**(values | changes))


def tonight(**changes) -> Tonight:
    """Return what the keys of such a line answer to."""
    return Tonight(line=line(**changes), on=TONIGHT, faults=FAULTS)


def ids(name: str) -> str:
    """Return an id that tells what it is of."""
    return f"{name}-1"


def typed(keys, of: Tonight | None = None, row: TypedRow | None = None) -> TypedRow:
    """Return the row after these keys: signs, or names of keys in a list."""
    from teamrehab.desktop.evening.pressing import press

    row = row or TypedRow()
    for key in keys:
        row = press(row, key, of or tonight())
    return row
