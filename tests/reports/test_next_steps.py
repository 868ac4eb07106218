"""What comes next: stops first, the plan, what is missing with its numbers, no promise."""

import re
from typing import Any

import pytest

from teamrehab.domain.availability import Availability, Training
from teamrehab.domain.days import Fixture
from teamrehab.domain.deciding import decide
from teamrehab.domain.decision import Verdict
from teamrehab.domain.injuries import (
    Clearance,
    LevelMoved,
    Nature,
    ProtocolChosen,
    Scope,
    StageMoved,
)
from teamrehab.domain.measures import Feeling, SessionKind, Symptom
from teamrehab.domain.plans import plan_for
from teamrehab.domain.situation import RUNNING_PHASE
from teamrehab.protocols import load_protocols
from teamrehab.reports import wording_session, wording_steps
from teamrehab.reports.next_steps import Answer, Lift, near_a_match, next_steps
from teamrehab.reports.wording_criteria import short_words, standing_words
from tests.builders import case, day, history
from tests.domain.evenings import (
    CALF,
    before_hops,
    flag,
    hops,
    looked,
    morning,
    moved,
    passing,
    raises,
    session,
)

TODAY = 20
RUNNING = next(n for n, s in enumerate(CALF.stages, 1) if s.phase >= RUNNING_PHASE)
NAMES = {"s1": "Ines Duarte"}


def steps_of(found, protocol=CALF, training=Training.NONE):
    decision = None if protocol is None else decide(found, protocol, day(TODAY))
    there = Availability(training=training)
    return next_steps(found, protocol, there, decision, day(TODAY))


def steps(*facts, protocol=CALF, **more):
    return steps_of(history(*facts, **more), protocol)


def why(found):
    return " ".join(wording_steps.answer_sentences(found))


def rehab(on, **more):
    return session(on, SessionKind.REHAB, **more)


@pytest.mark.parametrize("stage", range(1, RUNNING))
def test_before_running_every_gate_on_the_way_to_it_is_named(stage):
    found = steps(moved(10, stage))
    assert [gate.opens for gate in found.gates] == [
        each.name for each in CALF.stages[stage:RUNNING]
    ]
    assert wording_steps.missing_title(found) == "Missing to run"


@pytest.mark.parametrize("stage", range(RUNNING, len(CALF.stages) + 1))
def test_once_running_is_open_only_the_next_gate_is_named(stage):
    found = steps(moved(10, stage))
    (gate,) = found.gates
    assert gate.stage == stage
    name = gate.opens or "sign-off"
    assert wording_steps.missing_title(found) == f"Missing for {name}"


def test_staying_is_said_with_the_number_that_falls_short_and_its_error():
    found = steps(moved(10, RUNNING - 1), raises(18, 11, 35))
    assert found.answer is Answer.STAY
    assert re.search(r"11 of \d+, left, Fri 23 Oct; error of the test 6", why(found))
    assert "35" not in why(found)


def test_the_criteria_missing_are_those_the_decision_finds_missing():
    facts = [moved(10, RUNNING - 1), raises(18, 21, 35)]
    decision = decide(history(*facts), CALF, day(TODAY))
    assert steps(*facts).gates[0].open == decision.missing


def test_an_old_result_is_due_again_with_its_number_and_an_unknown_one_never_tested():
    done = (moved(10, RUNNING - 1), hops(8, 40, 40), before_hops(11))
    gate = steps(*done).gates[0]
    old = [standing_words(result) for result in wording_steps.tested(gate)]
    assert any(words.startswith("due again: ") and "40" in words for words in old)
    never = [r for r in gate.open if r.verdict is Verdict.NEVER_TESTED]
    told = wording_steps.untested_words(gate)
    assert never
    assert all(short_words(result) in told for result in never)


@pytest.mark.parametrize("protocol", load_protocols().values(), ids=lambda p: p.key)
def test_every_criterion_of_every_protocol_has_few_words(protocol):
    for stage in range(1, len(protocol.stages) + 1):
        found = steps(moved(10, stage), protocol=protocol)
        for result in found.gates[0].open:
            assert 3 < len(short_words(result)) <= 60


def test_a_stop_takes_the_place_of_the_plan_and_no_day_is_named():
    found = steps(*passing(RUNNING - 1, TODAY), moved(10, RUNNING - 1), flag(19))
    assert found.answer is Answer.STOP
    assert (found.plan, found.earliest) == (None, None)
    assert Lift.DOCTOR in found.lifts
    assert "Open red flag" in why(found)
    assert wording_steps.earliest_words(found, day(TODAY)).startswith("no earliest day")


def test_a_sharp_symptom_is_lifted_by_an_examination_or_a_calm_day_not_by_a_doctor():
    found = steps(moved(10, 2), rehab(19, symptom=Symptom(4, Feeling.SHARP)))
    assert (found.answer, found.lifts) == (Answer.STOP, (Lift.EXAMINE,))


def test_another_open_case_that_stops_stands_here_too_and_is_settled_there():
    other = history(flag(19, case_id="c2"), of=case(case_id="c2", area="ankle"))
    mine = history(moved(10, 2))
    beside = type(mine)(athlete=mine.athlete, case=mine.case, facts=mine.facts, beside=(other,))
    found = steps_of(beside)
    assert (found.answer, found.lifts) == (Answer.STOP, (Lift.OTHER_CASE,))
    assert "ankle" in why(found)


def test_the_plan_is_that_of_tomorrow_once_todays_session_is_noted():
    open_still, done = steps(moved(10, 2)), steps(moved(10, 2), rehab(TODAY))
    assert (open_still.session_on, done.session_on) == (day(TODAY), day(TODAY + 1))
    assert open_still.plan == plan_for(
        history(moved(10, 2)), CALF, Availability(training=Training.NONE), day(TODAY)
    )
    assert "today" in wording_session.session_title(open_still, day(TODAY))
    assert "Mon 26 Oct" in wording_session.session_title(done, day(TODAY))


def test_every_exercise_of_the_plan_is_told_with_its_level_and_its_dose():
    found = steps(moved(10, 3))
    lines = wording_session.session_lines(found)
    assert len(lines) == len(found.plan.exercises)
    for one, (name, what) in zip(found.plan.exercises, lines, strict=True):
        assert one.ladder in name
        assert f"{one.sets} x {one.dose}" in what
    assert "Slow gym work 3" in wording_session.symptom_line(found)


def test_a_move_against_the_proposal_keeps_who_and_why():
    ids: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1", "on": day(17)}
    up = StageMoved(stage=RUNNING, proposed=RUNNING - 1, why="clean in the sand", **ids)
    level = LevelMoved(ladder="hop", level=3, proposed=2, why="asked by her", **ids)
    told = wording_steps.notes_words(steps(up, level), NAMES)
    assert "clean in the sand. The likely return counts it as reached. Decided by Ines" in told
    assert "level 3 was decided by Ines Duarte against the proposal" in told
    assert "asked by her" in told


def test_a_level_decided_again_as_proposed_is_no_override_any_more():
    ids = {"case_id": "c1", "athlete_id": "a1"}
    over = LevelMoved(ladder="hop", level=3, proposed=2, why="x", on=day(17), **ids)
    back = LevelMoved(ladder="hop", level=2, proposed=2, on=day(18), **ids)
    assert steps(moved(10, 3), over, back).overrides == ()


def test_a_stage_the_leg_answered_badly_is_a_step_back_with_its_numbers():
    bad = [moved(10, 2), moved(18, 3), rehab(18), morning(19, 3), rehab(19)]
    found = steps(*bad)
    assert found.answer is Answer.STEP_BACK
    assert "rose from 0 to 3" in why(found)
    assert steps(*bad, morning(20, 0)).answer is Answer.STAY


def test_a_case_without_a_protocol_says_so_and_invents_no_plan():
    for found, said in (
        (steps(protocol=None), "follows no protocol"),
        (steps(protocol=None, of=case(nature=Nature.ILLNESS)), "Illness"),
        (steps(protocol=None, of=case(head_injury=True)), "a doctor decides"),
    ):
        assert found.answer is Answer.UNGUIDED
        assert (found.plan, found.gates) == (None, ())
        assert said in why(found)
        assert "No criteria" in wording_steps.earliest_words(found, day(TODAY))


def test_an_ill_athlete_of_whom_no_training_is_stated_rests():
    found = steps_of(history(of=case(nature=Nature.ILLNESS)), protocol=None)
    assert wording_session.session_title(found, day(TODAY)) == "Next session: none"
    able = steps_of(
        history(of=case(nature=Nature.ILLNESS)), protocol=None, training=Training.FULL
    )
    assert "none" not in wording_session.session_title(able, day(TODAY))


def test_a_bound_is_worded_as_one():
    found = steps(moved(10, 1))
    words = wording_steps.earliest_words(found, day(TODAY))
    assert words.startswith("not before")
    assert words.endswith("only if all of it passes")


def test_each_ladder_says_what_moves_it_up_and_its_earliest_day_as_a_bound():
    found = steps(moved(10, 2), rehab(TODAY))
    told = wording_session.outlook_lines(found, day(TODAY))
    assert [name for name, _needs in told] == [
        f"{one.ladder.name}, to level {one.level + 1}" for one in found.ladders if one.next_name
    ]
    assert any(
        "no form fault" in needs and "Not before Mon 26 Oct" in needs for _n, needs in told
    )
    assert steps(moved(10, 2), flag(19)).ladders == ()


def test_what_the_plan_leaves_out_and_what_goes_on_beside_it_is_told():
    found = steps(moved(10, 3))
    assert found.plan.notes
    assert wording_session.plan_notes(found) == " ".join(found.plan.notes)
    told = wording_session.plain_words(found)
    assert all(one.name in told for one in found.plan.beside)


def test_what_was_seen_with_too_much_symptom_is_said_not_to_count_and_why():
    gate = steps(looked(TODAY, symptom=Symptom(3))).gates[0]
    told = wording_steps.ahead_words(gate)
    assert "seen so on Sun 25 Oct, but it does not count" in told
    assert "Symptom 3 in this test; at most 2 is allowed." in told


@pytest.mark.parametrize(("until_match", "warned"), [(0, True), (1, True), (2, False)])
def test_around_a_match_the_first_screen_asks_for_no_test_to_the_limit(until_match, warned):
    match = Fixture(fixture_id="m1", on=day(TODAY + until_match), opponent="Saltreach")
    said = near_a_match(steps(moved(10, 2)), (match,), day(TODAY)).prompts
    assert any("No maximal test" in one for one in said) is warned
    assert near_a_match(steps(protocol=None), (match,), day(TODAY)).prompts == ()


def chosen(version):
    return ProtocolChosen(
        case_id="c1", athlete_id="a1", on=day(1), protocol=CALF.key, version=version
    )


def test_another_version_than_the_case_follows_is_said_once_before_all_else():
    found = steps(chosen("0.9"), moved(10, 2))
    assert "started with version 0.9" in found.prompts[0]
    assert found.prompts[0] not in found.notes
    agreed = steps(chosen(CALF.version), moved(10, 2))
    assert not any("started with version" in one for one in (*agreed.prompts, *agreed.notes))


def test_a_protocol_that_is_not_at_hand_is_not_told_as_none():
    assert "follows no protocol" in why(steps(protocol=None))
    lost = why(steps(chosen("7-club"), protocol=None))
    assert "version 7-club, which is not at hand or cannot be read here" in lost


def test_an_athlete_who_is_back_and_still_has_a_case_is_watched():
    back = Clearance(
        case_id="c1", athlete_id="a1", on=day(18), scope=Scope.MATCH, signed_by="Kim Vale"
    )
    said = steps(moved(10, len(CALF.stages)), back).prompts
    assert any(one.startswith("Day 2 after the return") for one in said)
