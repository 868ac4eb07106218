"""Exercises without levels are ticked among those of the plan, and open nothing."""

from dataclasses import replace

import pytest

from teamrehab.desktop.evening.entry import Entry, corrected_from
from teamrehab.desktop.evening.place import Part
from teamrehab.desktop.evening.row_values import values
from teamrehab.desktop.evening.row_words import opened
from teamrehab.desktop.evening.typed import TypedExercise, TypedRow, lines_of
from teamrehab.domain.guidance import Exercise
from teamrehab.domain.injuries import ProtocolChosen
from teamrehab.domain.measures import Done, ExerciseDone, SessionEntry, SessionKind
from teamrehab.domain.plans import Plan
from teamrehab.domain.plausibility import check_levels
from teamrehab.protocols import load_protocols
from tests.builders import history, standing
from tests.desktop.evening.lines import TONIGHT, exercise, ids, tonight, typed
from tests.desktop.test_keys import Hands, calf_case, note

BAND = Exercise(
    key="band", name="Foot against a band", sets=3, dose="20", stage=1, source="common practice"
)
WHY = "Hop waits: level 2 of Heel raises has to be passed first."


def planned(**changes):
    parts = {"exercises": (exercise(),), "beside": (BAND,), "notes": (WHY,)}
    return tonight(plan=Plan(kind=SessionKind.REHAB, **(parts | changes)))


def test_an_exercise_without_levels_has_a_line_after_the_ladders_and_is_noted_at_level_1():
    row = typed(["p", "Enter", "2"], planned())
    told = [line.words for line in opened(row, planned(), cut=False)]
    assert told[1] == "2 of 3 x 20   Foot against a band"
    (entry,) = values(typed(["Escape", "1", "4"], planned(), row), planned(), ids)
    assert entry.exercises == (ExerciseDone(exercise="band", level=1, sets=2),)


def test_done_as_planned_says_nothing_of_what_stands_beside_the_plan():
    (entry,) = values(typed(["y", "1", "4"], planned()), planned(), ids)
    assert [one.exercise for one in entry.exercises] == ["raises"]


def test_a_row_in_use_says_what_is_left_out_of_its_plan_unless_it_is_stopped():
    assert [line.words for line in opened(TypedRow(), planned(), cut=False)] == [WHY]
    stopped = replace(planned(), line=replace(planned().line, stopped="Symptom 6."))
    assert opened(TypedRow(), stopped, cut=False) == ()


def test_what_was_ticked_is_told_by_its_name_when_the_session_is_corrected():
    calf = load_protocols()["calf_strain"]
    plain = calf.guidance.exercises[0]
    entry = SessionEntry(
        session_id="s1",
        case_id="c1",
        athlete_id="a1",
        on=TONIGHT,
        kind=SessionKind.REHAB,
        done=Done.PARTLY,
        exercises=(ExerciseDone(exercise=plain.key, level=1, sets=2),),
    )
    of = replace(tonight(plan=Plan(kind=SessionKind.REHAB)), protocol=calf)
    row = corrected_from(Entry(tonight=of), standing(entry))
    assert [one.ladder for one in row.looked_at] == [plain.name]
    assert row.typed.exercises == (TypedExercise(sets=2),)
    assert check_levels(entry, history(), calf) == ()


@pytest.mark.parametrize(("key", "level"), [("up_band", 2), ("band", 1)])
def test_a_level_of_what_has_none_and_an_exercise_nobody_knows_are_refused(key, level):
    done = (ExerciseDone(exercise=key, level=level, sets=2),)
    entry = SessionEntry(
        session_id="s1",
        case_id="c1",
        athlete_id="a1",
        on=TONIGHT,
        kind=SessionKind.REHAB,
        exercises=done,
    )
    calf = load_protocols()["calf_strain"]
    assert [one.value for one in check_levels(entry, history(), calf)] == [key]


def test_a_ticked_exercise_is_kept_by_the_window_and_no_level_of_it_is_proposed(
    qtbot, unlocked
):
    hands = Hands(qtbot, unlocked)
    newer = [
        replace(fact, version="2") if isinstance(fact, ProtocolChosen) else fact
        for fact in calf_case()
    ]
    note(hands, *newer)
    hands.go(Part.EVENING)
    row = unlocked.workplace.after_training.evening.rows[0]
    lines = lines_of(row.entry.tonight.plan)
    (place,) = [n for n, one in enumerate(lines) if one.exercise == "up_band"]
    hands.type("P" + "\n" * place + "3")
    hands.type("\n" * (len(lines) - place) + "14\n")
    hands.until(lambda: hands.facts(SessionEntry))
    (entry,) = hands.facts(SessionEntry)
    assert entry.exercises == (ExerciseDone(exercise="up_band", level=1, sets=3),)
    unlocked.workplace.after_training.show_closing()
    view = unlocked.workplace.after_training.closing
    hands.until(view.isVisible)
    assert not any("band" in line.accessibleName() for line in view.list.lines)
