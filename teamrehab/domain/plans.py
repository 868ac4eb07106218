"""What an athlete is to do tonight, as the protocol and the decided levels have it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.availability import Availability, Training
from teamrehab.domain.guidance import Exercise, KindOfWork
from teamrehab.domain.history import History
from teamrehab.domain.ladder_days import A_DAY, Place, walk
from teamrehab.domain.ladders import before_session
from teamrehab.domain.measures import ExerciseDone, RunTest, SessionKind
from teamrehab.domain.mornings import mornings_of
from teamrehab.domain.next_mornings import Mornings, review_words, reviews, was_clean
from teamrehab.domain.protocol import Ladder, Protocol
from teamrehab.language import _


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

    Of a team session ``exercises`` is the rehab work that goes on beside it. ``beside`` are
    the exercises without levels: done with the plan, nothing is ever proposed for them.
    ``notes`` say what is left out and why, and what must be looked at first.
    """

    kind: SessionKind
    minutes: int | None = None
    exercises: tuple[PlannedExercise, ...] = ()
    beside: tuple[Exercise, ...] = ()
    notes: tuple[str, ...] = ()


def plan_for(
    history: History, protocol: Protocol | None, availability: Availability, on: date
) -> Plan:
    """Return the plan of the session of ``on``.

    Decisions noted before that day's session count; later ones are for the next day.
    """
    if protocol is None:
        return Plan(kind=SessionKind.REHAB)
    place = walk(before_session(history, on), protocol)
    stage = protocol.stages[place.stage - 1]
    last = stage.phase == protocol.stages[-1].phase
    return Plan(
        kind=_kind(availability.training) if last else SessionKind.REHAB,
        minutes=stage.minutes,
        exercises=tuple(planned_at(ladder, place.level(ladder)) for ladder in place.open(on)),
        beside=tuple(_beside(history.as_of(on), place, on)),
        notes=(*_notes(history.as_of(on), place, on), *_no_run(history, place, on)),
    )


def _beside(known: History, place: Place, on: date) -> Iterator[Exercise]:
    """Yield the exercises without levels of the stage, but for those that rest that day."""
    for one in _of_stage(place):
        ran = one.work is KindOfWork.RUNNING and _ran_before(known, on)
        if not ran and not place.rests(one.work, on):
            yield one


def _of_stage(place: Place) -> Iterator[Exercise]:
    for one in place.protocol.guidance.exercises:
        done = one.until is not None and place.stage > one.until
        if one.stage <= place.stage and not done:
            yield one


def _ran_before(known: History, on: date) -> bool:
    return any(run.on == on - A_DAY for run in known.of(RunTest))


def _no_run(known: History, place: Place, on: date) -> Iterator[str]:
    """Yield that a stage with runs has none on a day, and why."""
    runs = any(one.work is KindOfWork.RUNNING for one in _of_stage(place))
    if runs and _ran_before(known, on):
        yield _("No run: one was done the day before; never two days in a row.")


def _notes(known: History, place: Place, on: date) -> Iterator[str]:
    """Yield why a ladder of the stage is not planned, and what stops its work."""
    planned = {one.key for one in place.open(on)}
    for way in place.ways:
        if way.back(place.stage):
            said = (
                _("{ladder} hurt at level 1: {easier} instead, until that is tolerated.")
                if place.works[way.ladders[way.top + 1].key]
                else _("{ladder} waits, as the examination found: {easier} first.")
            )
            easier = way.ladders[way.top].name
            yield said.format(ladder=way.ladders[way.top + 1].name, easier=easier)
    for ladder in place.protocol.ladders:
        if ladder.key not in planned and ladder.open_at(place.stage):
            yield from _why_not(place, ladder, on)
    mornings = mornings_of(known)
    for ladder, bad in reviews(known, mornings, place):
        if len(bad) > 1:
            yield review_words(ladder, known, bad)
        elif ladder.key in planned:
            yield _repeat(known, mornings, place, ladder, bad[0])


def _repeat(
    known: History, mornings: Mornings, place: Place, ladder: Ladder, morning: date
) -> str:
    """Return what is repeated after a bad morning: the last dose that was clean."""
    level, after = place.level(ladder), (morning - known.case.on).days
    if level == 1 or was_clean(mornings, place, ladder, level, morning):
        said = _("{ladder}: the morning after was bad (day {day}): level {level} and no more.")
        return said.format(ladder=ladder.name, day=after, level=level)
    said = _(
        "{ladder}: the morning after was bad (day {day}) and level {level} was never passed"
        " with a good morning after it: level {next} is the last clean dose."
    )
    return said.format(ladder=ladder.name, day=after, level=level, next=level - 1)


def _why_not(place: Place, ladder: Ladder, on: date) -> Iterator[str]:
    if not place.begun(ladder):
        for asked in place.waits_for(ladder.levels[0]):
            said = _("{ladder} waits: level {level} of {first} has to be passed first.")
            yield said.format(
                ladder=ladder.name, level=asked.level, first=place.name(asked.ladder)
            )
    elif place.rests(ladder.work, on):
        said = _("{ladder} rests: such work was done the day before; never two days in a row.")
        yield said.format(ladder=ladder.name)


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
