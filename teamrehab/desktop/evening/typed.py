"""One row of the evening as far as it is typed; nothing here knows the screen."""

from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

import msgspec

from teamrehab.domain.guidance import Exercise
from teamrehab.domain.measures import (
    Done,
    Feeling,
    Missed,
    SessionKind,
    Symptom,
    Test,
)
from teamrehab.domain.plans import Plan, PlannedExercise
from teamrehab.domain.protocol import FormFault, Protocol
from teamrehab.reports.evening import EveningLine

QUESTIONS = 4
"""How many questions are asked before a symptom that is not accepted silently is saved."""


class Cell(StrEnum):
    """Where the cursor of a row is."""

    DONE = "done"
    REASON = "reason"
    WORDS = "words"
    EXERCISES = "exercises"
    SYMPTOM = "symptom"
    EFFORT = "effort"
    MINUTES = "minutes"
    TESTS = "tests"
    NOTE = "note"
    SAFETY = "safety"


MAIN = (Cell.DONE, Cell.SYMPTOM, Cell.EFFORT, Cell.MINUTES)
"""The cells every row shows, in the order in which they are typed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedExercise:
    """What was seen of one planned exercise: sets done, and faults by their key."""

    sets: int | None = None
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedRow:
    """A row as typed; None and "" are what nobody typed.

    ``exercises`` follow the order of the plan, () while they are not opened. ``tests`` are the
    texts of the test fields by their names. ``not_asked`` are the cells of which a person said
    so. ``line`` and ``in_faults`` say where the cursor is among the exercises.
    ``letter_may_follow``: the key before was the digit of the symptom. ``asked``: the same key
    again takes what was asked about. ``said`` answers the last key, ``ready`` says that it was
    an Enter that saves.
    """

    done: Done | None = None
    missed: Missed | None = None
    words: str = ""
    symptom: int | None = None
    feeling: Feeling | None = None
    effort: int | None = None
    minutes: int | None = None
    limp: bool | None = None
    painkiller: bool | None = None
    kind: SessionKind | None = None
    exercises: tuple[TypedExercise, ...] = ()
    tests: tuple[tuple[str, str], ...] = ()
    note: str = ""
    not_asked: tuple[Cell, ...] = ()
    safety: tuple[bool, ...] = ()
    cell: Cell = Cell.DONE
    line: int = 0
    in_faults: bool = False
    letter_may_follow: bool = False
    asked: str = ""
    said: str = ""
    ready: bool = False

    @property
    def is_empty(self) -> bool:
        """Return whether nothing is typed, wherever the cursor is."""
        return self.content == TypedRow()

    @property
    def content(self) -> "TypedRow":
        """Return the row without its cursor and what was said."""
        return replace(
            self,
            cell=Cell.DONE,
            line=0,
            in_faults=False,
            letter_may_follow=False,
            asked="",
            said="",
            ready=False,
        )

    @property
    def felt(self) -> Symptom | None:
        """Return the symptom typed; without a letter nobody said its kind."""
        if self.symptom is None:
            return None
        return Symptom(self.symptom, self.feeling or Feeling.NOT_SAID)

    @property
    def is_session(self) -> bool:
        """Return whether it is typed that a session was done or missed."""
        return self.done is not None or self.missed is not None

    @property
    def has_session(self) -> bool:
        """Return whether something is typed that belongs to a session done."""
        numbers = (self.symptom, self.effort, self.minutes, self.limp, self.painkiller)
        several = (self.exercises, self.not_asked)
        return any(n is not None for n in (*numbers, self.kind)) or any(several)


def lines_of(plan: Plan) -> tuple[PlannedExercise, ...]:
    """Return all that a plan asks for, a line each: its ladders, then what has no levels."""
    return (*plan.exercises, *map(without_levels, plan.beside))


def without_levels(one: Exercise) -> PlannedExercise:
    """Return an exercise without levels as a line; nothing is ever proposed for it."""
    return PlannedExercise(
        exercise=one.key, level=1, ladder=one.name, name="", sets=one.sets, dose=one.dose
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Tonight:
    """What the keys of a row answer to: the line, the evening, the faults one may see.

    ``protocol`` is the one that is followed. ``looked_at`` are the exercises a row that is
    being typed was begun with, () while they are those of the plan. ``session`` is the id of
    the session that is being corrected, ``tests`` are what can be read of those typed.
    ``coach`` is what the coach reads of an athlete who is stopped and of whom nobody has
    stated it yet, "" otherwise.
    """

    line: EveningLine
    on: date
    faults: tuple[FormFault, ...] = ()
    protocol: Protocol | None = None
    looked_at: tuple[PlannedExercise, ...] = ()
    session: str = ""
    tests: tuple[Test, ...] = ()
    coach: str = ""

    @property
    def plan(self) -> Plan:
        """Return the plan; a stopped athlete has none."""
        plan = self.line.plan
        return Plan(kind=plan.kind) if self.line.stopped else plan

    @property
    def exercises(self) -> tuple[PlannedExercise, ...]:
        """Return the exercises of a row, a line each; those without levels come last."""
        return self.looked_at or lines_of(self.plan)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A row that is not saved, as it survives a crash: with the ids its facts will have.

    ``replaces`` is the fact that a correction replaces, "" for a first entry. ``looked_at`` are
    the exercises that those typed are of, in their order.
    """

    typed: TypedRow
    ids: dict[str, str]
    replaces: str = ""
    looked_at: tuple[PlannedExercise, ...] = ()


def draft_text(draft: Draft) -> str:
    """Return a draft as text."""
    return msgspec.json.encode(draft).decode()


def read_draft(text: str) -> Draft | None:
    """Return the draft in a text, None where it is none this program can read."""
    try:
        return msgspec.json.decode(text, type=Draft)
    except msgspec.DecodeError:
        return None
