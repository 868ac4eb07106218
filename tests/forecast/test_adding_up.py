"""Adding up stages: against plain convolution and against playing the stages out."""

from math import log, sqrt

import numpy as np
import pytest
from scipy.stats import lognorm

from teamrehab.forecast.adding_up import remaining, remaining_in_all, survival
from teamrehab.forecast.nodes import nodes_given_stay

LOG_MEANS = np.log([4.0, 6.0, 5.0, 5.0, 4.0])
SDS = np.array([0.6, 0.5, 0.7, 0.5, 0.6])
NO_SETBACK = np.zeros(5)
SETBACKS = np.array([0, 0.1, 0.2, 0.15, 0.25])
ONE = np.ones((1, 1))


def chances(phase: int, days: int, setbacks, log_means=LOG_MEANS):
    shape = (log_means[None, None], SDS[None], ONE, setbacks)
    if phase:
        return remaining(phase, np.array([float(days)]), *shape)[0]
    return remaining_in_all(np.array([float(days)]), *shape)[0]


def stay(phase: int, grid: int = 2000):
    left = survival(np.arange(float(grid)), LOG_MEANS[phase - 1], SDS[phase - 1])
    return -np.diff(left, prepend=1)


def test_a_stage_outlasts_a_day_as_a_reference_library_says():
    """The time plus one is a mixture of two log-normals, cut at half days (scipy.stats)."""
    days = np.arange(0.0, 100)
    narrow = lognorm(0.5, scale=5).sf(days + 1.5)
    wide = lognorm(1.0, scale=5).sf(days + 1.5)
    mine = survival(days, np.array(log(5)), np.array(0.5))
    np.testing.assert_allclose(mine, 0.95 * narrow + 0.05 * wide, rtol=1e-9)


def test_stages_add_up_as_plain_convolution_says():
    left = survival(np.array([0.0]), LOG_MEANS[2], SDS[2])
    head = stay(3).copy()
    head[0] = 0
    expected = np.convolve(np.convolve(head, stay(4)), stay(5)) / left
    np.testing.assert_allclose(
        chances(3, 0, NO_SETBACK), np.cumsum(expected)[1:421], atol=1e-12
    )


@pytest.mark.parametrize("days", [1, 9, 60])
def test_the_last_stage_is_its_own_rest(days):
    left = survival(np.arange(days, days + 421.0), LOG_MEANS[4], SDS[4])
    np.testing.assert_allclose(
        chances(5, days, NO_SETBACK), 1 - left[1:] / left[0], rtol=1e-9, atol=1e-12
    )


def test_a_stalled_case_stays_exact_far_in_the_tail_and_nothing_wraps_around():
    slow = LOG_MEANS + 2.5
    grid = np.arange(2000.0)
    parts = [-np.diff(survival(grid, slow[i], SDS[i]), prepend=1) for i in (3, 4)]
    left = survival(300 + grid, slow[2], SDS[2])
    rest = np.concatenate(([0], -np.diff(left))) / left[0]
    expected = np.cumsum(np.convolve(np.convolve(rest, parts[0])[:2000], parts[1]))[1:421]
    np.testing.assert_allclose(chances(3, 300, NO_SETBACK, slow), expected, atol=1e-6)


def played_out(rng, phase: int, days: int, draws: int):
    """Play cases ``days`` into ``phase`` to the end, one stay after another."""
    where = np.full(draws, phase)
    total = rest_of_stay(rng, phase, days, draws)
    leaving = np.ones(draws, bool)
    while leaving.any():
        back = rng.random(draws) < SETBACKS[np.minimum(where, 5) - 1]
        where = np.where(leaving, where + np.where(back, -1, 1), where)
        leaving = where < 6
        for s in range(1, 6):
            here = where == s
            total[here] += drawn(rng, s, int(here.sum()))
    return total


def drawn(rng, phase: int, count: int):
    wide = np.where(rng.random(count) < 0.05, 2.0, 1.0)
    y = LOG_MEANS[phase - 1] + SDS[phase - 1] * wide * rng.standard_normal(count)
    return np.maximum(np.rint(np.exp(y) - 1), 0)


def rest_of_stay(rng, phase: int, days: int, count: int):
    many = drawn(rng, phase, 40 * count)
    kept = many[many > days][:count] - days
    assert len(kept) == count
    return kept


@pytest.mark.parametrize(("phase", "days"), [(1, 0), (2, 9), (4, 3), (5, 8)])
def test_setbacks_add_up_as_playing_the_stages_out_says(phase, days):
    """Within the bound of Ann Probab 1990;18:1269 (from memory) at one in a million."""
    draws = 60_000
    total = played_out(np.random.default_rng(8), phase, days, draws)
    seen = np.searchsorted(np.sort(total), np.arange(1, 421), side="right") / draws
    bound = sqrt(log(2e6) / (2 * draws))
    assert np.abs(chances(phase, days, SETBACKS) - seen).max() < bound
    assert np.abs(chances(phase, days, NO_SETBACK) - seen).max() > bound


def test_a_case_of_unknown_stage_is_the_whole_way_cut_off_at_today():
    whole = np.array([1.0])
    for phase in range(1, 6):
        whole = np.convolve(whole, stay(phase, 1000))
    by = np.cumsum(whole)
    for days in (0, 25, 80):
        expected = (by[days + 1 : days + 421] - by[days]) / (1 - by[days])
        np.testing.assert_allclose(chances(0, days, NO_SETBACK), expected, atol=1e-9)


@pytest.mark.parametrize("days", [0, 6, 120])
def test_few_nodes_stand_for_the_pace_however_long_the_stay(days):
    """Against a fine sum over the pace; the stay of 120 days is far out in the tail."""
    centre, sd, variance = np.array([1.4]), np.array([0.6]), np.array([0.25])
    fine = np.linspace(-5, 5, 4001)
    shape = np.exp(-(fine**2) / (2 * 0.25)) * survival(np.array(float(days)), 1.4 + fine, sd)
    nodes, weights = nodes_given_stay(
        np.zeros(1), variance, np.array([float(days)]), centre, sd
    )
    share = weights[0] * survival(np.array(float(days)), 1.4 + nodes[0], sd)
    assert share.sum() == pytest.approx(1)
    for power in (1, 2, 3, 4):
        expected = (shape * fine**power).sum() / shape.sum()
        assert (share * nodes[0] ** power).sum() == pytest.approx(expected, abs=1e-6)
