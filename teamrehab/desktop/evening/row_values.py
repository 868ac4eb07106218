"""What a typed row says as values, and a saved one as it was typed."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from teamrehab.desktop.evening.typed import (
    QUESTIONS,
    Cell,
    Tonight,
    TypedExercise,
    TypedRow,
)
from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Feeling,
    SafetyCheck,
    SessionEntry,
    SessionMissed,
    Symptom,
    Test,
)
from teamrehab.domain.plans import as_done
from teamrehab.domain.questions import questions_for

ID_NAMES = (
    *("session", "check", "remark", "raises", "bent", "run"),
    *("look", "hops", "jump", "wall", "load"),
)
"""The names of all that a row can hold and that has an id."""

_TYPED = "typed"
"""The id of a session that has none yet, while it is asked about."""

Ids = Callable[[str], str]
"""Answers the id of one thing of a row by its name: the same each time it is asked."""


def values(
    row: TypedRow,
    tonight: Tonight,
    ids: Ids,
    tests: Sequence[Test] = (),
    corrected: Any = None,
) -> tuple[Any, ...]:
    """Return what is typed as values to note together, () where nothing is typed.

    A session done as planned is the plan: its exercises with their sets, its minutes. Whatever
    else nobody typed was not asked. A red flag is raised from the answers when they are saved.
    ``corrected`` is the session that a correction replaces: its exercises stay as they were
    seen, unless they, or how much was done, are typed anew.
    """
    if row.is_empty:
        return ()
    return (
        *_session(row, tonight, ids, corrected),
        *_safety(row, tonight, ids),
        *tests,
        *_note(row, tonight, ids),
    )


def typed_again(value: SessionEntry | SessionMissed, tonight: Tonight) -> TypedRow:
    """Return a saved session as a row, to be corrected."""
    if isinstance(value, SessionMissed):
        return TypedRow(missed=value.reason, words=value.text)
    symptom = value.symptom
    return TypedRow(
        done=value.done,
        symptom=None if symptom is None else symptom.score,
        feeling=_letter(symptom),
        effort=value.effort,
        minutes=value.minutes,
        limp=value.limp,
        painkiller=value.painkiller,
        kind=None if value.kind is tonight.plan.kind else value.kind,
        not_asked=_not_asked(value),
        exercises=_seen_again(value, tonight) if value.done is Done.PARTLY else (),
    )


def _letter(symptom: Symptom | None) -> Feeling | None:
    """Return the kind as a letter says it, None where none was typed or the symptom is 0."""
    if symptom is None or not symptom.score or symptom.feeling is Feeling.NOT_SAID:
        return None
    return symptom.feeling


def _not_asked(entry: SessionEntry) -> tuple[Cell, ...]:
    pairs = ((Cell.SYMPTOM, entry.symptom), (Cell.EFFORT, entry.effort))
    return tuple(cell for cell, value in pairs if value is None)


def why_questions(row: TypedRow, tonight: Tonight) -> tuple[str, ...]:
    """Return why the four questions are asked before a row is saved; empty: silently."""
    session = _session(row, tonight, lambda _name: tonight.session or _TYPED, None)
    history = tonight.line.history
    return questions_for(history, tonight.protocol, (*session, *tonight.tests), tonight.on)


def _session(row: TypedRow, tonight: Tonight, ids: Ids, corrected: Any) -> tuple[Any, ...]:
    about = {**_about(tonight), "session_id": ids("session")}
    if row.missed is not None:
        return (SessionMissed(**about, reason=row.missed, text=row.words.strip()),)
    if row.done is None:
        return ()
    plan = tonight.plan
    planned = row.done is Done.AS_PLANNED and row.kind is None
    entry = SessionEntry(
        **about,
        kind=row.kind or plan.kind,
        minutes=plan.minutes if row.minutes is None and planned else row.minutes,
        effort=row.effort,
        symptom=row.felt,
        limp=row.limp,
        painkiller=row.painkiller,
        done=row.done,
    )
    if isinstance(corrected, SessionEntry) and _same_work(entry, row, corrected, tonight):
        return (replace(entry, exercises=corrected.exercises),)
    return (replace(entry, exercises=as_done(plan) if planned else _as_seen(row, tonight)),)


def _same_work(
    entry: SessionEntry, row: TypedRow, corrected: SessionEntry, tonight: Tonight
) -> bool:
    """Return whether nothing is typed anew of what was done, in which session."""
    if entry.done is not corrected.done:
        return False
    if entry.done is Done.PARTLY:
        return row.exercises == _seen_again(corrected, tonight)
    return entry.kind is corrected.kind


def _as_seen(row: TypedRow, tonight: Tonight) -> tuple[ExerciseDone, ...]:
    """Return the exercises of which something was typed."""
    pairs = zip(tonight.exercises, row.exercises, strict=False)
    return tuple(
        ExerciseDone(
            exercise=planned.exercise, level=planned.level, sets=seen.sets, faults=seen.faults
        )
        for planned, seen in pairs
        if seen != TypedExercise()
    )


def _seen_again(entry: SessionEntry, tonight: Tonight) -> tuple[TypedExercise, ...]:
    noted = {(one.exercise, one.level): one for one in entry.exercises}
    found = (noted.get((one.exercise, one.level)) for one in tonight.exercises)
    return tuple(
        TypedExercise() if one is None else TypedExercise(sets=one.sets, faults=one.faults)
        for one in found
    )


def _safety(row: TypedRow, tonight: Tonight, ids: Ids) -> tuple[Any, ...]:
    check = check_of(row, tonight, ids("check"))
    return () if check is None else (check,)


def check_of(row: TypedRow, tonight: Tonight, check_id: str) -> SafetyCheck | None:
    """Return the answers to the four questions, None before all are given."""
    if len(row.safety) < QUESTIONS:
        return None
    same_spot, swollen, push_off, chest = row.safety
    return SafetyCheck(
        **_about(tonight),
        check_id=check_id,
        same_spot=same_spot,
        swollen_or_warm=swollen,
        can_push_off=push_off,
        chest_or_breath=chest,
    )


def _note(row: TypedRow, tonight: Tonight, ids: Ids) -> tuple[Any, ...]:
    words = row.note.strip()
    return (Remark(**_about(tonight), remark_id=ids("remark"), text=words),) if words else ()


def _about(tonight: Tonight) -> dict[str, Any]:
    line = tonight.line
    return {"case_id": line.case_id, "athlete_id": line.athlete_id, "on": tonight.on}
