"""What a club's cases teach, against reference libraries and clubs whose truth is known."""

from dataclasses import replace

import numpy as np
import pytest
from lifelines import LogNormalFitter
from lifelines.datasets import load_leukemia
from scipy.stats import truncnorm

from teamrehab.domain.estimates import Estimate
from teamrehab.forecast import Status, estimate, fit
from teamrehab.forecast.model import ClubModel
from teamrehab.forecast.outliers import trust
from teamrehab.forecast.tails import completed_tail
from tests.forecast.clubs import PUBLISHED, TODAY, Club, as_known, course, through

CLUB = 0
NO_PAST = fit([], PUBLISHED)
NEW = course(athlete_id="new", case_id="new")


def mean_days(model: ClubModel, **changes) -> float:
    cdf = estimate(model, replace(NEW, **changes), TODAY).cdf
    return float(np.sum(1 - np.asarray(cdf))) + 1


def test_an_open_stay_is_completed_as_a_truncated_normal():
    """Mean and variance of scipy.stats.truncnorm, from far below to far above the centre."""
    limits = np.array([-3.0, 0.0, 1.0, 4.0, 9.0])
    mean, variance = completed_tail(limits, np.full(5, 0.5), np.full(5, 0.7))
    reference = truncnorm((limits - 0.5) / 0.7, np.inf, 0.5, 0.7)
    np.testing.assert_allclose(mean, reference.mean(), rtol=1e-7)
    np.testing.assert_allclose(variance, reference.var(), rtol=1e-4)


@pytest.mark.parametrize(
    ("arm", "mu", "sigma"), [(0, 3.20307, 0.978734), (1, 1.82513, 0.903204)]
)
def test_completing_open_stays_finds_the_censored_log_normal_of_a_reference_library(
    arm, mu, sigma
):
    """Remission weeks in leukaemia as lifelines ships them (Blood 1963;21:699, from memory)."""
    data = load_leukemia().query("Rx == @arm")
    value, closed = np.log(data["t"].to_numpy(float)), data["status"].to_numpy() == 1
    reference = LogNormalFitter().fit(data["t"], data["status"])
    centre, sd = value.mean(), value.std()
    for _turn in range(500):
        whole, extra = value.copy(), np.zeros_like(value)
        ones = np.ones((~closed).sum())
        whole[~closed], extra[~closed] = completed_tail(
            value[~closed], centre * ones, sd * ones
        )
        centre, sd = whole.mean(), np.sqrt(np.mean((whole - whole.mean()) ** 2 + extra))
    assert (centre, sd) == pytest.approx((mu, sigma), abs=2e-5)
    assert (centre, sd) == pytest.approx((reference.mu_, reference.sigma_), abs=1e-3)


def test_a_stay_far_off_weighs_a_quarter_and_an_ordinary_one_nearly_all():
    assert trust(np.array([0.0, 8.0])) == pytest.approx([0.98, 0.25], abs=0.005)


@pytest.mark.parametrize(
    ("injury", "muscle"),
    [("calf_strain", "soleus"), ("calf_strain", "gastrocnemius"), ("ankle_sprain", "")],
)
def test_without_history_the_mean_is_the_published_one(injury, muscle):
    """Scand J Med Sci Sports 2020;30:174-184 and 2022;32:1690-1709; setbacks included."""
    mean = mean_days(NO_PAST, injury=injury, muscle=muscle, staged=False)
    assert mean == pytest.approx(PUBLISHED.mean(injury, muscle), rel=0.05)


def whole_time(cases) -> float:
    """Return the mean time the cases took in the published one's."""
    means = [PUBLISHED.mean(case.injury, case.muscle, age=case.age) for case in cases]
    return float(np.mean([case.until for case in cases]) / np.mean(means))


def test_the_corrections_find_a_slow_and_a_fast_club():
    found = []
    for slow in (1.8, 0.5):
        cases = Club(np.random.default_rng(5), slow=slow).cases(80)
        found.append(fit(cases, PUBLISHED))
        ratio = mean_days(found[-1], muscle="") / mean_days(NO_PAST, muscle="")
        assert ratio == pytest.approx(whole_time(cases), rel=0.2)
    spread = float(np.sqrt(found[0].covariance[CLUB, CLUB]))
    assert found[0].theta[CLUB] > 3 * spread
    assert found[1].theta[CLUB] < found[0].theta[CLUB] - 3 * spread


def test_more_cases_leave_less_doubt():
    club = Club(np.random.default_rng(5))
    past = club.cases(80)
    doubts = [float(fit(past[:n], PUBLISHED).covariance[CLUB, CLUB]) for n in (0, 10, 80)]
    assert doubts[0] > doubts[1] > doubts[2]


def test_open_cases_kept_in_tell_that_a_club_is_slow():
    """Looking at closed cases only keeps the quick ones."""
    cases = Club(np.random.default_rng(6), slow=1.6).cases(60)
    closed = [case for case in cases if case.until <= 25]
    still_open = [as_known(case, 25) for case in cases if case.until > 25]
    assert len(closed) > 10
    assert len(still_open) > 10
    assert mean_days(fit([*closed, *still_open], PUBLISHED)) > 1.2 * mean_days(
        fit(closed, PUBLISHED)
    )


def test_cases_without_protocol_teach_their_whole_time_open_ones_included():
    slow = [
        course(case_id=f"c{i}", athlete_id=f"b{i}", staged=False, until=60) for i in range(12)
    ]
    done = [replace(case, status=Status.CLEARED) for case in slow]
    assert mean_days(fit(slow, PUBLISHED)) > mean_days(fit(done, PUBLISHED)) > 35
    assert mean_days(NO_PAST) < 30


def test_a_missing_entry_costs_little_of_what_the_case_teaches():
    cases = [through(8, 20, 29, 38, 44, case_id=f"c{i}", athlete_id=f"b{i}") for i in range(20)]
    gaps = [
        replace(case, entries=tuple(e for e in case.entries if e[1] not in (2, 3)))
        for case in cases
    ]
    whole, gappy = mean_days(fit(cases, PUBLISHED)), mean_days(fit(gaps, PUBLISHED))
    assert gappy == pytest.approx(whole, rel=0.08)
    assert mean_days(NO_PAST) < 0.8 * whole


def test_setbacks_at_the_club_are_expected_again():
    up = [through(4, 9, 14, 19, 23, case_id=f"c{i}", athlete_id=f"b{i}") for i in range(30)]
    back = [
        replace(case, entries=(*case.entries[:4], (17, 3), (18, 4), *case.entries[4:]))
        for case in up
    ]
    smooth, bumpy = fit(up, PUBLISHED), fit(back, PUBLISHED)
    assert smooth.setbacks[3] == pytest.approx(0.04 * 25 / (25 + 30))
    assert bumpy.setbacks[3] == pytest.approx((0.04 * 25 + 30) / (25 + 60))
    assert smooth.setbacks[0] == bumpy.setbacks[0] == 0


def normal_equations(model: ClubModel, leave_out: str = "") -> tuple[np.ndarray, np.ndarray]:
    """Return theta and covariance by generalised least squares over the cases kept."""
    mean, sd = model.columns.prior()
    information, right = np.diag(sd**-2), mean / sd**2
    for case_id, own in model.own.items():
        if case_id != leave_out:
            weight = own.x.T @ np.linalg.inv(own.covariance)
            information = information + weight @ own.x
            right = right + weight @ (own.residual + own.x @ model.theta)
    covariance = np.linalg.inv(information)
    return covariance @ right, covariance


def test_a_case_taken_out_leaves_what_a_fit_without_it_with_the_same_weights_gives():
    past = Club(np.random.default_rng(7)).cases(12)
    model = fit(past, PUBLISHED)
    for left_out in ("", "p3"):
        theta, covariance = normal_equations(model, left_out)
        mine = model.without(left_out)
        np.testing.assert_allclose(mine.theta, theta, atol=1e-9)
        np.testing.assert_allclose(mine.covariance, covariance, atol=1e-9)


@pytest.mark.parametrize("days", [(8, 20, 34), (25, 60, 90)])
def test_a_case_is_not_counted_twice(days):
    """A slow case in a small club: nearly as if the club had been fitted without it."""
    past = Club(np.random.default_rng(8)).cases(8)
    slow = through(*days[:2], case_id="own", athlete_id="own", until=days[2])
    slow = replace(slow, injured_on=as_known(slow, days[2]).injured_on)
    inside, outside = fit([*past, slow], PUBLISHED), fit(past, PUBLISHED)
    mine, right, twice = (
        estimate(model, slow, TODAY) for model in (inside, outside, replace(inside, own={}))
    )
    assert distance(mine, right) < 0.5 * distance(twice, right)
    assert mine.club_cases == right.club_cases == len(outside.cleared)
    assert mine.same_injury_cases == right.same_injury_cases


def test_an_estimate_says_how_many_cleared_cases_and_how_many_of_its_injury_are_behind_it():
    calf = [through(5, 12, 20, 26, 30 + n, case_id=f"k{n}") for n in range(3)]
    other = next(injury for injury in PUBLISHED.injuries if injury != calf[0].injury)
    another = replace(calf[0], case_id="h", injury=other, muscle="")
    past = [*calf, another, through(6, case_id="still open", until=9)]
    own = through(5, case_id="own", until=8)
    found = estimate(fit(past, PUBLISHED), own, TODAY)
    assert (found.club_cases, found.same_injury_cases) == (4, 3)
    assert fit(past, PUBLISHED).without("k0").cleared_of(own.injury) == 2


def distance(one: Estimate, other: Estimate) -> float:
    return float(np.abs(np.asarray(one.cdf) - np.asarray(other.cdf)).max())


def test_cases_nothing_is_published_on_teach_nothing():
    past = Club(np.random.default_rng(9)).cases(10)
    strange = [
        replace(case, case_id=f"s{i}", injury="toe_bruise") for i, case in enumerate(past)
    ]
    np.testing.assert_array_equal(
        fit([*past, *strange], PUBLISHED).theta, fit(past, PUBLISHED).theta
    )
