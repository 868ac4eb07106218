"""What a caution names: activities allowed before the phase in which they commonly open."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.availability import Activity, Limit, Training
from teamrehab.domain.early import allowed_early

ALL = tuple(Limit(activity) for activity in Activity)
RUNS = (Activity.PACE, Activity.SPRINT)
LAST = (Activity.CHANGE_OF_DIRECTION, Activity.CONTACT)
limits = st.lists(
    st.builds(Limit, st.sampled_from(Activity), st.none() | st.integers(1, 100)), max_size=8
)


@pytest.mark.parametrize(
    ("phase", "early"),
    [
        (1, {Activity.JUMP, *RUNS, *LAST}),
        (2, {Activity.JUMP, *RUNS, *LAST}),
        (3, {*RUNS, *LAST}),
        (4, set(LAST)),
        (5, set()),
    ],
)
def test_jumps_wait_for_phase_three_running_for_four_contact_and_turns_for_five(phase, early):
    assert set(allowed_early(Training.FULL, (), phase)) == early
    assert set(allowed_early(Training.WITH_LIMITS, (), phase)) == early


def test_running_up_to_a_cap_is_running():
    slow = [limit for limit in ALL if limit.activity is not Activity.PACE]
    found = allowed_early(Training.WITH_LIMITS, [*slow, Limit(Activity.PACE, 50)], 2)
    assert found == (Activity.PACE,)


@given(limits, st.integers(1, 5), st.sampled_from(Training))
def test_a_later_phase_and_one_more_limit_never_add_a_caution(some, phase, training):
    found = set(allowed_early(training, some, phase))
    assert set(allowed_early(training, some, phase + 1)) <= found
    for one in ALL:
        assert set(allowed_early(training, [*some, one], phase)) <= found


@given(limits, st.integers(1, 5))
def test_who_does_not_train_needs_no_caution(some, phase):
    assert allowed_early(Training.NONE, some, phase) == ()
    assert allowed_early(None, some, phase) == ()
    assert allowed_early(Training.WITH_LIMITS, ALL, phase) == ()
