"""A saved row that is corrected: what was done stays as seen, and nothing newer is lost."""

from datetime import UTC, datetime
from typing import Any

from teamrehab.desktop.evening.entry import Entry, press_entry, shown_anew
from teamrehab.desktop.evening.row_values import values
from teamrehab.desktop.evening.row_words import opened
from teamrehab.desktop.evening.typed import Draft, draft_text, read_draft
from teamrehab.domain.history import Standing
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Feeling,
    SessionEntry,
    SessionKind,
    Symptom,
)
from tests.desktop.evening.lines import TONIGHT, exercise, ids, line, tonight

SEEN = (
    ExerciseDone(exercise="raises", level=2, sets=2, faults=("knee",)),
    ExerciseDone(exercise="hops", level=1, sets=3),
)
STOP = "Symptom 6: 4 or more."
TO_EFFORT = ["Left", "Left", "Left", "Right", "Right"]


def saved(fact_id="f1", **changes) -> Standing[SessionEntry]:
    told: dict[str, Any] = {
        "session_id": "s1",
        "case_id": "c1",
        "athlete_id": "a1",
        "on": TONIGHT,
        "kind": SessionKind.REHAB,
        "minutes": 40,
        "symptom": Symptom(1),
        "effort": 4,
        "done": Done.PARTLY,
        "exercises": SEEN,
    }
    at = datetime(2026, 10, 25, 19, tzinfo=UTC)
    value = SessionEntry(**(told | changes))
    return Standing(fact_id=fact_id, value=value, author="s1", noted_at=at)


def correcting(*keys, noted=None, **changes) -> Entry:
    """Return a row after Y twice over what is saved, then these keys."""
    of = tonight(noted=(noted or saved(),), **changes)
    return pressed(Entry(tonight=of), "y", "y", *keys)


def pressed(entry: Entry, *keys: str) -> Entry:
    for key in keys:
        entry = press_entry(entry, key)
    return entry


def said_of(entry) -> SessionEntry:
    corrected = None if entry.corrected is None else entry.corrected.value
    session: SessionEntry = values(entry.typed, entry.asked, ids, (), corrected)[0]
    return session


def test_correcting_the_effort_of_a_stopped_row_keeps_its_exercises():
    entry = correcting(*TO_EFFORT, "6", stopped=STOP)
    assert (said_of(entry).effort, said_of(entry).exercises) == (6, SEEN)


def test_correcting_the_effort_of_a_whole_session_keeps_the_levels_it_was_done_at():
    """The plan of the page has raises at level 2: a level accepted since."""
    first = saved(done=Done.AS_PLANNED, exercises=(ExerciseDone(exercise="raises", level=1),))
    for of in ({}, {"stopped": STOP}):
        entry = correcting(*TO_EFFORT, "6", noted=first, **of)
        assert said_of(entry).exercises == first.value.exercises


def test_a_correction_shows_the_exercises_of_the_saved_session_in_a_stopped_row_too():
    entry = correcting("Left", "Left", "Left", "p", stopped=STOP)
    entry = pressed(entry, "p")
    words = [told.words for told in opened(entry.typed, entry.asked, cut=False)]
    assert words[0].startswith("2 of 2 x ")
    assert "knee bends" in words[0]
    assert words[1].startswith("3 of 3 x ")


def test_one_exercise_typed_anew_leaves_the_others_as_they_were_seen():
    entry = correcting("Left", "Left", "Left", "p", "p", "Enter", "1", stopped=STOP)
    assert [one.sets for one in said_of(entry).exercises] == [2, 1]
    assert said_of(entry).exercises[0] == SEEN[0]


def test_more_or_less_than_was_saved_is_told_by_the_plan_anew():
    entry = correcting("Left", "Left", "Left", "y")
    assert [one.sets for one in said_of(entry).exercises] == [3, 4]


def test_a_stop_that_comes_while_exercises_are_typed_takes_none_of_them():
    entry = pressed(Entry(tonight=tonight()), "p", "2", "Enter", "1", "Escape", "1", "4")
    entry = shown_anew(entry, tonight(stopped=STOP), "")
    assert [(one.exercise, one.sets) for one in said_of(entry).exercises] == [
        ("raises", 2),
        ("hops", 1),
    ]
    draft = Draft(typed=entry.typed, ids={}, looked_at=entry.looked_at)
    assert read_draft(draft_text(draft)) == draft


def test_what_was_saved_meanwhile_is_shown_and_replaced_only_when_asked_twice():
    entry = correcting(*TO_EFFORT, "6")
    newer = saved("f2", symptom=Symptom(3, Feeling.PAIN), effort=5)
    entry = shown_anew(entry, tonight(noted=(newer,)), "20:00")
    assert "Symptom 3 p. Effort 5." in entry.typed.said
    entry = press_entry(entry, "Enter")
    assert (entry.typed.ready, entry.typed.effort) == (False, 6)
    assert "Symptom 3 p. Effort 5." in entry.typed.said
    entry = press_entry(entry, "Enter")
    assert (entry.typed.ready, entry.replaces) == (True, "f2")


def test_a_third_version_is_shown_as_well_before_it_is_replaced():
    entry = correcting(*TO_EFFORT, "6")
    for number, effort in (("f2", 5), ("f3", 7)):
        newer = saved(number, effort=effort)
        entry = shown_anew(entry, tonight(noted=(newer,)), "20:00")
        entry = press_entry(entry, "Enter")
        assert (entry.typed.ready, f"Effort {effort}." in entry.typed.said) == (False, True)


def test_escape_leaves_what_was_saved_meanwhile():
    entry = correcting(*TO_EFFORT, "6")
    entry = shown_anew(entry, tonight(noted=(saved("f2", effort=5),)), "20:00")
    entry = press_entry(entry, "Escape")
    assert (entry.replaces, entry.shown.effort) == ("", 5)


def test_an_entry_taken_back_meanwhile_is_saved_anew_only_when_asked_twice():
    other = saved("f9", session_id="s9", effort=2)
    entry = correcting(*TO_EFFORT, "6")
    entry = shown_anew(entry, tonight(noted=(other,)), "20:00")
    assert "taken back or moved" in entry.typed.said
    entry = pressed(entry, "Enter")
    assert (entry.typed.ready, entry.replaces) == (False, "f1")
    entry = pressed(entry, "Enter")
    assert (entry.typed.ready, entry.replaces, entry.session) == (True, "", "")


def test_an_exercise_the_protocol_lacks_is_kept_by_its_key():
    odd = saved(exercises=(ExerciseDone(exercise="older", level=9, sets=1),))
    entry = correcting(*TO_EFFORT, "6", noted=odd)
    assert said_of(entry).exercises == odd.value.exercises
    assert line().plan.exercises[0] == exercise()
