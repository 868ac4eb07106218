"""One change at a time, mornings after, versions and what comes first, in shipped protocols."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.injuries import ProtocolChosen
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import ExerciseDone, Feeling, SessionKind, Symptom
from teamrehab.domain.outlooks import ladder_outlooks
from teamrehab.domain.plans import plan_for
from teamrehab.protocols import load_protocols
from tests.builders import day, history
from tests.domain.evenings import CALF, level, morning, moved, passing, session
from tests.domain.test_ladder_days import BENT, SEATED, STRAIGHT, only, planned
from tests.domain.test_plans import OUT

TENDON = load_protocols()["achilles_tendinopathy"]
SECOND = moved(2, 2)


def found(*facts, on=20, protocol=CALF, told=None):
    known = told or history(*facts)
    return {one.ladder.key: one for one in level_proposals(known, protocol, day(on))}


def ups(*facts, **more):
    return [key for key, one in found(*facts, **more).items() if one.proposed > one.level]


# --- never two changes at once


def test_of_one_evening_the_ladder_that_waited_longest_goes_up_and_the_others_say_so():
    facts = [SECOND, level(5, 2, STRAIGHT), level(8, 2, SEATED), planned(20)]
    proposed = found(*facts)
    assert [key for key, one in proposed.items() if one.proposed > one.level] == [BENT]
    assert "Bent-knee raise, standing goes up first" in proposed[STRAIGHT].reason
    assert ups(*facts, level(9, 2, BENT)) == [STRAIGHT]
    assert ups(*facts, level(9, 2, BENT), level(20, 2, BENT)) == []


def test_nothing_goes_up_beside_a_stage_that_is_proposed_or_was_decided_today():
    gate = passing(2, 20)
    stage = found(SECOND, planned(20), *gate)
    assert "A stage is proposed today" in stage[STRAIGHT].reason
    assert (
        "A stage was decided today" in found(SECOND, planned(20), moved(20, 2))[STRAIGHT].reason
    )
    risen = [replace(test, symptom=Symptom(4)) for test in gate]
    assert ups(SECOND, planned(20), *risen) == []


def test_nothing_goes_up_beside_a_step_back_or_a_step_in_another_case():
    bad = ExerciseDone(exercise=STRAIGHT, level=2, sets=3, faults=("drop",))
    facts = [SECOND, level(10, 2, STRAIGHT), planned(12, exercises=(bad,))]
    facts.append(planned(20, exercises=(bad,)))
    proposed = found(*facts)
    assert proposed[STRAIGHT].proposed == 1
    assert ups(*facts) == []
    assert "a step back: one change at a time" in proposed[BENT].reason
    alone = history(SECOND, planned(20))
    beside = history(level(20, 2, BENT))
    assert ups(told=alone)
    assert ups(told=replace(alone, beside=(beside,))) == []


# --- symptom by kind of work


@pytest.mark.parametrize(("score", "up"), [(5, True), (6, False)])
def test_where_the_rule_allows_five_a_ladder_goes_up_at_five(score, up):
    # Am J Sports Med 2007;35:897, doi 10.1177/0363546506298279
    facts = [moved(1, 2), session(19, SessionKind.REHAB, symptom=Symptom(5))]
    heavy = ExerciseDone(exercise=BENT, level=1, sets=3)
    facts.append(session(20, SessionKind.REHAB, symptom=Symptom(score), exercises=(heavy,)))
    assert (ups(*facts, protocol=TENDON) == [BENT]) is up


def test_a_symptom_that_the_hops_of_the_day_do_not_allow_lets_no_slow_work_go_up():
    open_hops = [moved(10, 3), only(11, STRAIGHT, BENT)]
    slow = only(20, STRAIGHT, symptom=Symptom(2))
    calm = only(19, STRAIGHT, symptom=Symptom(1))
    assert ups(*open_hops, calm, slow) == [STRAIGHT]
    both = found(*open_hops, calm, only(20, STRAIGHT, "hop", symptom=Symptom(2)))
    assert both[STRAIGHT].proposed == 1
    assert "other work of today allows 1 at most" in both[STRAIGHT].reason


def test_hops_on_two_days_in_a_row_do_not_go_up():
    open_hops = [moved(10, 3), only(11, STRAIGHT, BENT)]
    assert ups(*open_hops, only(20, "hop")) == ["hop"]
    twice = found(*open_hops, only(19, "jump"), only(20, "hop"))
    assert "not for consecutive days" in twice["hop"].reason


# --- what is to be passed first


def test_a_level_waits_for_a_level_of_another_ladder_and_says_which():
    facts = [
        moved(10, 3),
        level(11, 2, "hop"),
        level(11, 2, STRAIGHT),
        only(20, "hop", number=2),
    ]
    waits = found(*facts, only(12, BENT))["hop"]
    assert waits.proposed == 2
    assert waits.reason.startswith("Level 3 waits: level 2 of ")
    both = only(18, STRAIGHT, BENT, number=2)
    assert ups(*facts, both) == ["hop"]


# --- the mornings after


def bad(on):
    return morning(on, 3)


def test_after_a_bad_morning_the_last_clean_dose_is_repeated():
    never = [SECOND, level(5, 2, STRAIGHT), morning(6), only(10, STRAIGHT, number=2), bad(11)]
    work = only(20, STRAIGHT, number=2)
    back = found(*never, work)[STRAIGHT]
    assert (back.level, back.proposed) == (2, 1)
    assert "day 11" in back.reason
    once = [only(7, STRAIGHT, number=2), morning(8)]
    stay = found(*never, *once, work)[STRAIGHT]
    assert (stay.level, stay.proposed) == (2, 2)
    assert "repeat level 2 once more" in stay.reason
    assert ups(*never, work, morning(21), only(22, STRAIGHT, number=2), on=22) == [STRAIGHT]
    (note,) = plan_for(history(*never), CALF, OUT, day(12)).notes[:1]
    assert "level 1 is the last clean dose" in note
    (note,) = plan_for(history(*never, *once), CALF, OUT, day(12)).notes[:1]
    assert "level 2 and no more" in note
    first = [SECOND, morning(6), only(10, STRAIGHT), bad(11), only(20, STRAIGHT)]
    assert found(*first)[STRAIGHT].proposed == 1


def test_two_bad_mornings_in_a_row_stop_the_work_until_an_examination():
    facts = [SECOND, morning(6), only(10, STRAIGHT), bad(11), only(14, STRAIGHT), bad(15)]
    work = only(20, STRAIGHT)
    held = found(*facts, work)[STRAIGHT]
    assert held.proposed == held.level
    assert "stop, and examine again" in held.reason
    notes = plan_for(history(*facts), CALF, OUT, day(20)).notes
    assert any("two mornings in a row" in note for note in notes)
    unseen = found(*facts, only(18, STRAIGHT), work)[STRAIGHT]
    assert "stop, and examine again" in unseen.reason
    between = [only(12, STRAIGHT), morning(13)]
    assert "examine" not in found(*facts, *between, work)[STRAIGHT].reason
    seen = Examination(
        examination_id="x", case_id="c1", athlete_id="a1", on=day(16), walking=Gait.CLEAN
    )
    assert "repeat it once more" in found(*facts, seen, work)[STRAIGHT].reason
    repeated = [seen, only(18, STRAIGHT), morning(19)]
    assert ups(*facts, *repeated, work) == [STRAIGHT]


def test_two_versions_of_a_session_or_a_level_hold_every_step_up():
    told = history(SECOND, level(5, 1, STRAIGHT), only(12, STRAIGHT), only(20, STRAIGHT))
    assert ups(told=told) == [STRAIGHT]
    for index in (1, 2, 3):
        facts = list(told.facts)
        facts[index] = replace(facts[index], versions=2)
        held = found(told=replace(told, facts=tuple(facts)))[STRAIGHT]
        assert held.proposed == held.level
        assert "Two versions" in held.reason


# --- whatever was noted

days = st.integers(14, 20)
feelings = st.builds(Symptom, st.integers(0, 4), st.sampled_from([*Feeling] * 2))
keys = st.sampled_from([STRAIGHT, SEATED, BENT, "hop", "jump"])
entries = st.one_of(
    st.builds(planned, days, symptom=feelings),
    st.builds(lambda on, key, s: only(on, key, symptom=s), days, keys, feelings),
    st.builds(lambda on, two: only(on, *two), days, st.lists(keys, min_size=1, unique=True)),
)
others = st.one_of(
    st.builds(morning, days, st.integers(0, 3)),
    st.builds(level, days, st.integers(1, 4), keys),
    st.builds(moved, st.integers(1, 20), st.sampled_from([2, 3, 3])),
    st.sampled_from([test for stage in (2, 3) for test in passing(stage, 20)]),
)
courses = st.lists(st.one_of(entries, others), min_size=1, max_size=10)


@settings(deadline=None)
@given(facts=courses, data=st.data())
def test_a_higher_symptom_of_the_day_yields_no_higher_level_in_any_ladder(facts, data):
    today = [i for i, f in enumerate(facts) if getattr(f, "symptom", None) and f.on == day(20)]
    if not today:
        return
    index = data.draw(st.sampled_from(today))
    score = data.draw(st.integers(facts[index].symptom.score, 10))
    more = replace(facts[index], symptom=replace(facts[index].symptom, score=score))
    told = history(*facts)
    changed = (replace(f, value=more) if f.value is facts[index] else f for f in told.facts)
    before = found(told=told)
    for key, one in found(told=replace(told, facts=tuple(changed))).items():
        assert one.proposed <= before[key].proposed


@settings(deadline=None)
@given(facts=courses, shuffle=st.randoms(use_true_random=False))
def test_one_ladder_goes_up_at_most_by_one_whatever_the_order_of_the_facts(facts, shuffle):
    told = history(*facts)
    mixed = list(told.facts)
    shuffle.shuffle(mixed)
    proposed = found(told=told)
    assert found(told=replace(told, facts=tuple(mixed))) == proposed
    steps = [one.proposed - one.level for one in proposed.values()]
    assert sum(step > 0 for step in steps) <= 1
    assert all(abs(step) <= 1 for step in steps)


@pytest.mark.parametrize("key", sorted(load_protocols()))
def test_passing_everything_reaches_the_last_level_of_every_ladder(key):
    protocol = load_protocols()[key]
    last = len(protocol.stages)
    facts, reached = [moved(1, last)], dict[str, int]()
    many = {one.key: len(one.levels) for one in protocol.ladders if one.open_at(last)}
    on = 1
    while any(reached.get(one, 1) < levels for one, levels in many.items()):
        on += 1
        assert on < 2 * sum(many.values())
        facts.append(planned(on))
        steps = level_proposals(history(*facts), protocol, day(on))
        up = {one.ladder.key: one.proposed for one in steps if one.proposed > one.level}
        reached |= up
        facts += [level(on, to, one) for one, to in up.items()]


def test_no_ladder_goes_up_by_another_version_than_the_case_follows():
    def under(version):
        chosen = ProtocolChosen(
            case_id="c1", athlete_id="a1", on=day(1), protocol=CALF.key, version=version
        )
        return history(chosen, SECOND, only(20, STRAIGHT))

    assert ups(told=under(CALF.version)) == [STRAIGHT]
    held = found(told=under("0"))[STRAIGHT]
    assert held.proposed == held.level
    assert "version 0, which is not at hand" in held.reason
    (outlook,) = [
        one for one in ladder_outlooks(under("0"), CALF, day(20)) if one.ladder.key == STRAIGHT
    ]
    assert outlook.earliest is None
