"""What is planned for an evening: exercises, minutes and kind of session."""

from dataclasses import replace

import pytest

from teamrehab.domain.availability import Availability, Training
from teamrehab.domain.ladders import worked
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import Done, ExerciseDone, SessionKind, Symptom
from teamrehab.domain.plans import Plan, plan_for
from tests.builders import day, history, standing
from tests.domain.evenings import CALF, moved, ran, session
from tests.domain.test_levels import PROTOCOL, SECOND, level

OUT = Availability(training=Training.NONE)


def plan(*facts, allowed=OUT, on=20, protocol=PROTOCOL):
    return plan_for(history(*facts), protocol, allowed, day(on))


def test_the_open_ladders_are_planned_at_the_level_decided():
    planned = plan(SECOND, level(3))
    assert [(one.exercise, one.level, one.name) for one in planned.exercises] == [
        ("push", 3, "one with weight"),
        ("bounce", 1, "both"),
    ]
    (push, bounce) = planned.exercises
    assert (push.ladder, push.sets, push.dose) == ("Push", 2, "8 each")
    assert bounce.sets == 3


def test_what_is_decided_after_a_session_is_for_the_next_day():
    facts = (SECOND, session(20, SessionKind.REHAB, done=Done.AS_PLANNED), level(2, 20))
    assert plan(*facts).exercises[0].level == 1
    assert plan(*facts, on=21).exercises[0].level == 2
    assert plan(SECOND, level(2, 20)).exercises[0].level == 2


def test_a_correction_noted_after_a_decision_does_not_change_what_was_planned():
    done = session(20, SessionKind.REHAB, done=Done.AS_PLANNED)
    facts = [standing(SECOND), standing(level(2, 20)), standing(done)]
    stamped = [replace(f, stamp=f"{n}", began=f"{n}") for n, f in enumerate(facts, start=1)]
    for began, planned in (("3", 2), ("1.5", 1)):
        corrected = (*stamped[:2], replace(stamped[2], began=began))
        case = replace(history(), facts=corrected)
        found = plan_for(case, PROTOCOL, OUT, day(20))
        assert found.exercises[0].level == planned
        (work,) = worked(case, PROTOCOL, PROTOCOL.ladders[0])
        assert work.level == planned


def test_the_minutes_are_those_of_the_stage():
    stages = CALF.stages
    assert plan(protocol=CALF).minutes == stages[0].minutes
    assert plan(moved(3, 4), protocol=CALF).minutes == stages[3].minutes
    assert plan(SECOND).minutes is None


KINDS = [
    (4, Training.WITH_LIMITS, SessionKind.REHAB),
    (4, Training.FULL, SessionKind.REHAB),
    (5, Training.NONE, SessionKind.REHAB),
    (5, Training.WITH_LIMITS, SessionKind.TEAM_WITH_LIMITS),
    (5, Training.FULL, SessionKind.TEAM_FULL),
]


@pytest.mark.parametrize(("stage", "training", "kind"), KINDS)
def test_only_in_the_last_phase_and_only_when_allowed_is_it_a_team_session(
    stage, training, kind
):
    allowed = Availability(training=training)
    assert plan(moved(3, stage), allowed=allowed, protocol=CALF).kind is kind


def test_without_a_protocol_the_plan_is_an_empty_rehab_session():
    planned = plan(level(2), protocol=None, allowed=Availability())
    assert planned == Plan(kind=SessionKind.REHAB)


# --- what goes on beside the ladders, and what is left out


def test_the_exercises_without_levels_are_planned_beside_and_nothing_is_proposed_for_them():
    planned = plan(moved(3, 2), protocol=CALF)
    keys = [one.key for one in planned.beside]
    assert keys == [one.key for one in CALF.guidance.exercises if one.stage <= 2]
    assert "up_band" in keys
    assert not set(keys) & {one.exercise for one in planned.exercises}
    ticked = [ExerciseDone(exercise=key, level=1, sets=3) for key in keys]
    done = session(20, SessionKind.REHAB, exercises=tuple(ticked))
    assert level_proposals(history(moved(3, 2), done), CALF, day(20)) == ()


def test_an_exercise_ends_with_its_stage():
    short = replace(CALF.guidance.exercises[0], until=1)
    protocol = replace(CALF, guidance=replace(CALF.guidance, exercises=(short,)))
    assert plan(protocol=protocol).beside == (short,)
    assert plan(moved(3, 2), protocol=protocol).beside == ()


def test_what_is_left_out_is_said_with_its_reason():
    def at(key):
        return replace(level(1, 5), ladder=key)

    third = moved(3, 3)
    notes = plan(third, protocol=CALF).notes
    waits = "Hop waits: level 1 of Straight-knee raise has to be passed first."
    assert waits in notes
    one = ExerciseDone(exercise="hop", level=1, sets=3)
    hopped = session(19, SessionKind.REHAB, exercises=(one,))
    rested = plan(third, at("hop"), hopped, protocol=CALF)
    assert not {"hop", "jump"} & {each.exercise for each in rested.exercises}
    assert "sideways" not in {each.key for each in rested.beside}
    assert any(note.startswith("Hop rests:") for note in rested.notes)
    later = plan(third, at("hop"), hopped, protocol=CALF, on=21)
    assert {"hop", "jump"} <= {each.exercise for each in later.exercises}
    assert not any("rests" in note for note in later.notes)


def test_where_the_first_level_hurts_the_plan_says_what_takes_its_place():
    one = ExerciseDone(exercise="raise_straight", level=1, sets=3)
    hurt = session(19, SessionKind.REHAB, exercises=(one,), symptom=Symptom(3))
    found = plan(hurt, protocol=CALF)
    assert [each.exercise for each in found.exercises] == ["before_weight", "holds"]
    assert found.notes == (
        "Straight-knee raise hurt at level 1: Holds instead, until that is tolerated.",
    )


def test_a_day_after_a_run_holds_none_and_says_so():
    def runs(*facts):
        plan = plan_for(history(moved(7, 4), *facts), CALF, Availability(), day(12))
        planned = [one.key for one in plan.beside if one.key == "runs"]
        return planned, any("No run" in note for note in plan.notes)

    assert runs() == (["runs"], False)
    assert runs(ran(10, 60)) == (["runs"], False)
    assert runs(ran(11, 60)) == ([], True)
