"""An estimate as days and chances, and a person's decision that cuts it off."""

from datetime import date, timedelta
from itertools import accumulate, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.days import Fixture
from teamrehab.domain.estimates import Estimate, cut
from teamrehab.domain.injuries import ReturnDecision

TODAY = date(2026, 11, 2)
BY_TENTHS = Estimate(today=TODAY, cdf=tuple(i / 10 for i in range(1, 11)))


def on(number: int) -> date:
    return TODAY + timedelta(days=number)


def fixture(number: int) -> Fixture:
    return Fixture(fixture_id="f1", on=on(number), opponent="Harbour")


def decision(**values) -> ReturnDecision:
    return ReturnDecision(case_id="c1", athlete_id="a1", on=TODAY, **values)


@st.composite
def estimates(draw) -> Estimate:
    parts = draw(st.lists(st.floats(0, 1), min_size=1, max_size=60))
    beyond = draw(st.floats(0, 1))
    whole = max(sum(parts) + beyond, 1e-6)
    return Estimate(today=TODAY, cdf=tuple(min(f / whole, 1) for f in accumulate(parts)))


def test_days_are_the_first_that_reach_their_share():
    assert BY_TENTHS.median == on(5)
    assert BY_TENTHS.window == (on(1), on(9))


def test_a_share_missed_only_by_rounding_counts_as_reached():
    short = Estimate(today=TODAY, cdf=(0.5 - 5e-10, 0.9))
    assert short.median == on(1)
    assert Estimate(today=TODAY, cdf=(0.5 - 5e-9, 0.9)).median == on(2)


def test_a_range_that_ends_beyond_the_grid_has_no_last_day():
    slow = Estimate(today=TODAY, cdf=(0.1, 0.4))
    assert slow.median is None
    assert slow.window == (on(1), None)
    assert slow.chance_by(on(400)) == 0.4


def test_clearance_on_match_day_counts_only_where_the_club_says_so():
    assert BY_TENTHS.chance_for(fixture(4), same_day=True) == 0.4
    assert BY_TENTHS.chance_for(fixture(4), same_day=False) == pytest.approx(0.3)
    assert BY_TENTHS.chance_for(fixture(1), same_day=False) == 0
    assert BY_TENTHS.chance_for(fixture(0), same_day=True) == 0


def test_the_not_before_day_itself_remains_possible_and_the_day_before_does_not():
    late = cut(BY_TENTHS, decision(not_before=on(6)))
    assert late.chance_by(on(5)) == 0
    assert late.chance_by(on(6)) == pytest.approx(0.1 / 0.5)
    assert late.chance_for(fixture(6), same_day=False) == 0
    assert late.chance_for(fixture(6), same_day=True) == pytest.approx(0.2)
    assert late.not_before == on(6)


def test_a_not_before_day_that_has_passed_changes_nothing():
    assert cut(BY_TENTHS, decision(not_before=TODAY)) == BY_TENTHS
    assert cut(BY_TENTHS, decision(not_before=on(1))).cdf == BY_TENTHS.cdf


def test_a_not_before_day_after_all_chance_takes_all_of_it():
    sure = Estimate(today=TODAY, cdf=(1.0, 1.0, 1.0))
    assert cut(sure, decision(not_before=on(3))).cdf == (0, 0, 1)
    assert cut(sure, decision(not_before=on(90))).median is None


def test_a_match_ruled_out_has_no_chance_and_the_others_keep_theirs():
    ruled = cut(BY_TENTHS, decision(ruled_out=("f1",)))
    assert ruled.chance_for(fixture(9), same_day=True) == 0
    assert ruled.cdf == BY_TENTHS.cdf


def test_no_decision_changes_nothing():
    assert cut(BY_TENTHS, None) is BY_TENTHS


@given(estimates(), st.integers(-5, 80))
def test_whatever_is_decided_chances_never_fall_and_days_stay_in_order(estimate, number):
    for shown in (estimate, cut(estimate, decision(not_before=on(number)))):
        chances = [shown.chance_by(on(i)) for i in range(-1, 70)]
        assert all(a <= b for a, b in pairwise(chances))
        assert chances[0] >= 0
        assert chances[-1] <= 1
        days = [d or date.max for d in (shown.window[0], shown.median, shown.window[1])]
        assert TODAY < days[0] <= days[1] <= days[2]


@given(estimates(), st.integers(1, 60))
def test_a_cut_off_is_the_conditional_chance_and_cutting_again_adds_nothing(estimate, number):
    wanted = decision(not_before=on(number))
    once = cut(estimate, wanted)
    assert cut(once, wanted) == once
    before = estimate.chance_by(on(number - 1))
    for i in range(number, len(estimate.cdf) + 1):
        share = once.chance_by(on(i)) * (1 - before) + before
        assert before > 1 - 1e-8 or share == pytest.approx(estimate.chance_by(on(i)))
