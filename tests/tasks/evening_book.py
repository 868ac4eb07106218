"""A casebook for an evening: two athletes in rehab and one without a protocol."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from teamrehab.domain.combining import availability_on
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Certainty, Diagnosis, Nature, StageMoved
from teamrehab.domain.measures import (
    Missed,
    SafetyCheck,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.domain.plans import plan_for
from teamrehab.protocols import load_protocols
from teamrehab.records import Casebook
from teamrehab.tasks import cases, evening
from teamrehab.tasks.board import protocol_of
from tests import builders
from tests.builders import day
from tests.records import books

TONIGHT = day(14)
PEOPLE = {"c1": "Okafor", "c2": "Adeyemi", "c3": "Ferrigno"}


def evening_book(folder: Path) -> Casebook:
    """Return a casebook with calf cases c1 and c2 in Strength and an illness c3."""
    book = books.new_book(folder, builders.clock(TONIGHT))
    for number, (case_id, surname) in enumerate(PEOPLE.items(), start=1):
        athlete_id = f"a{number}"
        book.note(builders.athlete(athlete_id=athlete_id, surname=surname, number=number))
        nature = Nature.ILLNESS if case_id == "c3" else Nature.INJURY
        of = builders.case(case_id=case_id, athlete_id=athlete_id, nature=nature)
        cases.open_case(book, of, builders.stated(of))
        if nature is Nature.INJURY:
            _in_strength(book, case_id)
    return book


def _in_strength(book: Casebook, case_id: str) -> None:
    values = {"injury": "calf_strain", "certainty": Certainty.CONFIRMED, "on": day(2)}
    diagnosis = Diagnosis(**(ids(case_id) | values))
    cases.diagnose(book, book.case(case_id), diagnosis, load_protocols()["calf_strain"])
    moved = StageMoved(**ids(case_id), on=day(7), stage=2, proposed=2, why="seen by the doctor")
    cases.move_stage(book, book.case(case_id), moved)


def ids(case_id: str = "c1") -> dict[str, Any]:
    """Return the ids of a case and its athlete."""
    return {"case_id": case_id, "athlete_id": f"a{case_id[1:]}"}


def session(case_id: str = "c1", nth: int = 1, **changes) -> SessionEntry:
    """Return an unremarkable session of tonight."""
    values: dict[str, Any] = {
        "session_id": f"s{case_id}-{nth}",
        "on": TONIGHT,
        "kind": SessionKind.REHAB,
        "symptom": Symptom(1),
        "effort": 4,
    }
    return SessionEntry(**(ids(case_id) | values | changes))


def missed(case_id: str = "c1", nth: int = 1, **changes) -> SessionMissed:
    """Return that nobody saw the athlete tonight."""
    values: dict[str, Any] = {
        "session_id": f"s{case_id}-{nth}",
        "on": TONIGHT,
        "reason": Missed.NOT_SEEN,
    }
    return SessionMissed(**(ids(case_id) | values | changes))


def answers(case_id: str = "c1", **changes) -> SafetyCheck:
    """Return four answers of tonight that raise no red flag."""
    values: dict[str, Any] = {
        "check_id": f"q{case_id}",
        "on": TONIGHT,
        "same_spot": True,
        "swollen_or_warm": False,
        "can_push_off": True,
        "chest_or_breath": False,
    }
    return SafetyCheck(**(ids(case_id) | values | changes))


def entered(history: History) -> list[Any]:
    """Return what was noted of evenings in a case, the start of the case left out."""
    kinds = (SessionEntry, SessionMissed, SafetyCheck)
    return [fact.value for fact in history.facts if isinstance(fact.value, kinds)]


def at(book: Casebook, on: int, hour: int = 20) -> Casebook:
    """Turn the clock of a casebook to another day after the onset."""
    book.clock = replace(book.clock, now=builders.clock(day(on), hour).now)
    return book


def save(book, *values, case_id="c1", **options):
    """Save values as one row of a case as it stands."""
    return evening.save_row(book, book.case(case_id), values, **options)


def after_reopening(book, case_id):
    """Return a case as the casebook holds it once it was closed and opened again."""
    with books.reopened(book) as again:
        return again.case(case_id)


def plan_of(book, case_id):
    """Return what a case is to do tonight."""
    history = book.case(case_id)
    there = availability_on(TONIGHT, (history,))
    return plan_for(history, protocol_of(history), there, TONIGHT)
