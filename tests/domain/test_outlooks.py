"""What each ladder needs to go up, and the first day on which it can."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import Symptom
from teamrehab.domain.outlooks import ladder_outlooks
from tests.builders import day, history
from tests.domain.evenings import CALF, flag, level, morning, moved
from tests.domain.test_ladder_days import BENT, SEATED, STRAIGHT, only, planned

SECOND, THIRD = moved(2, 2), moved(2, 3)
PASSED = only(3, STRAIGHT, BENT)


def outlook(*facts, ladder=STRAIGHT, on=20, told=None):
    found = ladder_outlooks(told or history(*facts), CALF, day(on))
    return next(one for one in found if one.ladder.key == ladder)


def test_before_the_session_it_is_today_with_every_number_of_the_dose():
    found = outlook(SECOND)
    assert (found.level, found.next_name) == (1, "one leg on the floor")
    assert found.earliest == day(20)
    (need,) = found.needs
    assert "all 3 x 25 repetitions, no form fault, symptom 3 at most" in need


def test_what_is_proposed_tonight_is_today_and_what_waits_its_turn_is_tomorrow():
    up = outlook(SECOND, only(20, STRAIGHT, SEATED))
    assert up.earliest == day(20)
    assert "level 2 is proposed" in up.needs[0]
    waits = outlook(SECOND, only(20, STRAIGHT, SEATED), ladder=SEATED)
    assert waits.earliest == day(21)
    assert "goes up first" in waits.needs[0]


def test_a_step_decided_today_is_tomorrow_at_the_earliest_and_waits_for_its_morning():
    found = outlook(SECOND, only(20, STRAIGHT), level(20, 2, STRAIGHT))
    assert (found.level, found.earliest) == (2, day(21))
    said = "The step to level 2 is provisional: the next morning still judges it."
    assert said in found.needs
    assert said not in outlook(SECOND, level(19, 2, STRAIGHT), morning(20)).needs


AGAIN = [only(14, STRAIGHT), morning(15, 3)]
NOBODY_KNOWS = [
    ([], STRAIGHT, "Strength is opened."),
    ([SECOND, flag(12)], STRAIGHT, "Open red flag"),
    (
        [SECOND, morning(6), only(10, STRAIGHT), morning(11, 3), *AGAIN],
        STRAIGHT,
        "two mornings in a row",
    ),
]


@pytest.mark.parametrize(("facts", "ladder", "said"), NOBODY_KNOWS)
def test_where_nobody_can_say_when_there_is_no_day_but_what_it_takes(facts, ladder, said):
    found = outlook(*facts, ladder=ladder)
    assert found.earliest is None
    assert any(said in need for need in found.needs)


def test_two_versions_leave_the_day_open_and_the_last_level_needs_nothing():
    told = history(SECOND, only(12, STRAIGHT))
    twice = replace(told, facts=(told.facts[0], replace(told.facts[1], versions=2)))
    assert outlook(told=twice).earliest is None
    last = outlook(SECOND, level(5, 4, STRAIGHT))
    assert (last.next_name, last.needs, last.earliest) == ("", (), None)


def test_hops_of_yesterday_rest_today_and_what_comes_first_is_named_with_its_days():
    assert outlook(THIRD, PASSED, only(19, "hop"), ladder="hop").earliest == day(21)
    assert outlook(THIRD, PASSED, only(20, "hop"), level(20, 2, "hop"), ladder="hop").earliest
    waits = outlook(THIRD, PASSED, level(10, 2, "hop"), ladder="hop")
    assert "Level 2 of Straight-knee raise is passed." in waits.needs
    assert waits.earliest == day(21)


def test_a_bad_morning_costs_the_session_that_repeats():
    facts = [SECOND, morning(6), only(18, STRAIGHT), morning(19, 3)]
    found = outlook(*facts)
    assert found.earliest == day(21)
    assert any("repeated once" in need for need in found.needs)


days = st.integers(10, 20)
keys = st.sampled_from([STRAIGHT, SEATED, BENT, "hop", "jump"])
courses = st.lists(
    st.one_of(
        st.builds(planned, days, symptom=st.builds(Symptom, st.integers(0, 3))),
        st.builds(only, days, keys),
        st.builds(level, days, st.integers(1, 3), keys),
        st.builds(morning, days, st.integers(0, 2)),
    ),
    max_size=6,
)


@settings(deadline=None)
@given(facts=courses, stage=st.sampled_from([2, 3]), wait=st.integers(0, 3), key=keys)
def test_no_level_is_proposed_before_the_day_that_was_named(facts, stage, wait, key):
    told = (moved(2, stage), *facts)
    found = {one.ladder.key: one for one in ladder_outlooks(history(*told), CALF, day(20))}
    on = day(20 + wait)
    later = history(*told, only(20 + wait, key))
    for one in level_proposals(later, CALF, on):
        if one.proposed > one.level and one.ladder.key in found and wait:
            named = found[one.ladder.key].earliest
            assert named is None or named <= on
