"""Estimates of open cases: what lengthens them, and what must hold whatever the case."""

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teamrehab.domain.estimates import Estimate
from teamrehab.forecast import Course, NoPublishedFigureError, Status, estimate, estimates, fit
from tests.forecast.clubs import PUBLISHED, TODAY, Club, as_known, course, through

NO_PAST = fit([], PUBLISHED)
CLUB = fit(Club(np.random.default_rng(3)).cases(40), PUBLISHED)


def left(case: Course, day: int, model=NO_PAST) -> Estimate:
    """Return the estimate at the end of ``day`` after the injury."""
    return estimate(model, as_known(case, day), TODAY)


def median(estimate: Estimate) -> int:
    assert estimate.median is not None
    return (estimate.median - TODAY).days


def test_slow_early_stages_lengthen_what_is_still_to_come():
    slow, usual, quick = (left(through(d, 2 * d, 3 * d), 3 * d + 1) for d in (14, 5, 2))
    assert median(slow) > median(usual) > median(quick)
    assert slow.pace > 1.3
    assert quick.pace < 0.8


def test_a_case_in_its_first_stage_has_shown_no_pace_yet():
    assert left(course(), 3).pace == 1


def test_a_later_stage_is_nearer_to_clearance():
    medians = [median(left(through(*range(3, 3 * n, 3)), 13)) for n in range(1, 6)]
    assert all(later < earlier for earlier, later in pairwise(medians))


def test_a_longer_stay_than_usual_means_more_time_to_go():
    assert median(left(course(), 30)) > median(left(course(), 6))


def test_a_setback_costs_time():
    before = through(5, 10, 15)
    after = replace(before, entries=(*before.entries, (18, 3)))
    assert median(left(after, 18)) > median(left(before, 18))
    assert all(
        a < b for a, b in zip(left(after, 18).cdf[:30], left(before, 18).cdf, strict=False)
    )


def test_a_club_with_many_setbacks_expects_longer():
    bumpy = replace(NO_PAST, setbacks=NO_PAST.setbacks * 5)
    assert median(left(course(), 2, bumpy)) > median(left(course(), 2))


def test_grade_recurrence_and_age_enter_as_published():
    plain = median(left(course(), 2))
    assert median(left(course(grade=3), 2)) > 1.5 * plain
    assert median(left(course(recurrence=True), 2)) > plain
    assert median(left(course(age=36), 2)) > plain
    assert left(course(age=None), 2) == left(course(age=25), 2)


def test_without_protocol_the_estimate_is_the_whole_time_given_that_it_is_still_open():
    """Within 0.01: the nodes of the pace are laid anew for each day."""
    case = course(staged=False)
    whole = np.asarray(left(case, 0, CLUB).cdf)
    for day in (5, 40):
        given_open = (whole[day:] - whole[day - 1]) / (1 - whole[day - 1])
        found = np.asarray(left(case, day, CLUB).cdf)
        assert np.abs(found[: 420 - day] - given_open).max() < 0.01
        assert np.abs(found - whole).max() > 0.05


def test_a_case_open_for_years_without_protocol_still_has_chances_and_perhaps_no_last_day():
    found = left(course(staged=False), 1500)
    assert 0 < found.cdf[0] < found.cdf[-1] < 1
    assert found.window[1] is None


def test_a_range_that_outlasts_the_grid_has_no_last_day():
    stalled = left(course(injury="achilles_tendinopathy", muscle=""), 400)
    assert stalled.window[0] is not None
    assert stalled.window[1] is None


def test_an_unknown_muscle_is_estimated_as_the_injury_at_large():
    assert left(course(muscle="never heard of"), 3) == left(course(muscle=""), 3)


def test_a_closed_case_and_one_nothing_is_published_on_are_refused():
    with pytest.raises(ValueError, match="only an open case"):
        estimate(NO_PAST, course(status=Status.CLEARED), TODAY)
    with pytest.raises(NoPublishedFigureError, match="toe_bruise"):
        estimate(NO_PAST, course(injury="toe_bruise"), TODAY)


def test_no_case_asked_is_no_case_answered():
    assert estimates(NO_PAST, [], TODAY) == ()


def test_a_squad_at_once_gives_what_each_case_alone_gives_and_the_same_again():
    cases = [as_known(case, 6) for case in Club(np.random.default_rng(2)).cases(30)]
    cases += [replace(cases[0], staged=False, entries=((0, 1),))]
    together = estimates(CLUB, cases, TODAY)
    assert together == estimates(CLUB, cases, TODAY)
    for case, found in zip(cases, together, strict=True):
        alone = estimate(CLUB, case, TODAY)
        np.testing.assert_allclose(found.cdf, alone.cdf, atol=1e-12)
        assert (found.window, found.median) == (alone.window, alone.median)


@st.composite
def courses(draw) -> Course:
    steps = draw(st.lists(st.tuples(st.integers(1, 200), st.integers(1, 5)), max_size=6))
    entries = [(0, 1)]
    for stay, phase in steps:
        if phase != entries[-1][1]:
            entries.append((entries[-1][0] + stay, phase))
    day = entries[-1][0] + draw(st.integers(0, 900))
    staged = draw(st.booleans())
    return course(
        injury=draw(st.sampled_from(sorted(PUBLISHED.injuries))),
        grade=draw(st.sampled_from([None, 0, 1, 2, 3])),
        age=draw(st.sampled_from([None, 18, 45])),
        entries=tuple(entries) if staged else ((0, 1),),
        staged=staged,
        injured_on=TODAY - timedelta(days=day),
        until=day,
    )


@settings(max_examples=150)
@given(courses(), st.sampled_from([NO_PAST, CLUB]))
def test_whatever_the_case_chances_never_fall_and_the_range_lies_ahead_in_order(case, model):
    found = estimate(model, case, TODAY)
    assert len(found.cdf) == 420
    assert all(0 <= a <= b <= 1 for a, b in pairwise(found.cdf))
    assert found.pace > 0
    days = [found.window[0], found.median, found.window[1]]
    reached = [d for d in days if d is not None]
    assert days[: len(reached)] == reached
    assert [TODAY, *reached] == sorted([TODAY, *reached])
    assert TODAY not in reached
