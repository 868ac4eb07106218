"""Load as description, against worked examples of the published formulas."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.load import (
    ewma,
    monotony,
    rolling_ratio,
    session_load,
    strain,
    weighted_ratio,
)

UNEVEN = [400, 0, 600, 300, 0, 500, 700]
FOSTER = [0, 420, 300, 0, 450, 360, 540]
DOUBLED = [300] * 28 + [600] * 7
loads = st.lists(st.integers(0, 1500), min_size=28, max_size=60)


def test_a_session_is_effort_times_minutes():
    # J Strength Cond Res 2001;15:109
    assert session_load(7, 60) == 420
    assert session_load(0, 60) == 0
    assert session_load(None, 60) is None
    assert session_load(7, None) is None


def averages(loads):
    acute, chronic = ewma(loads, 7), ewma(loads, 28)
    assert acute
    assert chronic
    return acute, chronic, acute / chronic


def test_weighted_averages_of_an_uneven_week():
    # 2 / (N + 1) seeded with the first day: Br J Sports Med 2017;51:209
    assert averages(UNEVEN) == pytest.approx((419.043, 388.698, 1.0781), abs=1e-3)
    assert averages(UNEVEN[:2]) == pytest.approx((300.0, 372.414, 0.8056), abs=1e-3)


def test_a_week_of_twice_the_load_by_every_ratio():
    # closed form 300 + 300 (1 - (1 - w)^7): Br J Sports Med 2017;51:209 and 2019;53:988
    assert ewma(DOUBLED, 7) == pytest.approx(559.955, abs=1e-3)
    assert ewma(DOUBLED, 7) == pytest.approx(300 + 300 * (1 - 0.75**7))
    assert ewma(DOUBLED, 28) == pytest.approx(418.080, abs=1e-3)
    assert weighted_ratio(DOUBLED) == pytest.approx(1.3394, abs=1e-4)
    assert rolling_ratio(DOUBLED, coupled=True) == pytest.approx(1.6)
    assert rolling_ratio(DOUBLED, coupled=False) == pytest.approx(2.0)


def test_monotony_and_strain_by_either_deviation():
    # J Strength Cond Res 2001;15:109: mean 295.714; SD 215.241 of a sample, 199.274 of all
    assert monotony(FOSTER) == pytest.approx(1.3739, abs=1e-4)
    assert strain(FOSTER) == pytest.approx(2843.9, abs=0.1)
    assert monotony(FOSTER, population=True) == pytest.approx(1.4840, abs=1e-4)
    assert strain(FOSTER, population=True) == pytest.approx(3071.8, abs=0.1)


@pytest.mark.parametrize("week", [[300] * 7, [0] * 7, FOSTER[:6], [*FOSTER[:6], None], []])
def test_a_week_without_spread_or_with_a_day_unknown_has_no_monotony(week):
    assert monotony(week) is None
    assert strain(week) is None


@pytest.mark.parametrize("few", [[], [300] * 27, [0] * 28, [None, *DOUBLED[1:28]]])
def test_no_ratio_before_28_known_days_nor_over_nothing(few):
    assert weighted_ratio(few) is None
    assert rolling_ratio(few, coupled=True) is None
    assert rolling_ratio(few, coupled=False) is None


def test_a_rest_day_lowers_the_average_and_an_unknown_day_leaves_none():
    assert ewma([400, 0], 7) == 300
    assert ewma([400, None], 7) is None
    assert ewma([], 7) is None


def test_days_long_past_do_not_count_in_a_rolling_ratio():
    assert rolling_ratio([None, 9000, *DOUBLED], coupled=True) == pytest.approx(1.6)


@given(loads)
def test_the_coupled_ratio_follows_from_the_uncoupled_and_never_exceeds_four(given):
    coupled = rolling_ratio(given, coupled=True)
    uncoupled = rolling_ratio(given, coupled=False)
    if uncoupled is not None:
        assert coupled == pytest.approx(4 * uncoupled / (uncoupled + 3))
    assert coupled is None or 0 <= coupled <= 4 + 1e-9


@given(loads)
def test_a_weighted_average_lies_between_the_lowest_and_the_highest_day(given):
    assert min(given) - 1e-6 <= (ewma(given, 7) or 0) <= max(given) + 1e-6
