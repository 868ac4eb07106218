"""Each formula against figures worked out elsewhere; the source stands beside them."""

import pytest

from teamrehab.domain import formulas


@pytest.mark.parametrize(
    ("flight", "height"), [(0.500, 0.30656), (0.450, 0.24832), (0.400, 0.19620)]
)
def test_jump_height_follows_from_flight_time(flight, height):
    # g t^2 / 8: Am J Phys 2001;69:1198, doi 10.1119/1.1397460
    assert formulas.jump_height(flight) == pytest.approx(height, abs=1e-4)


def test_jump_height_can_use_standard_gravity():
    assert formulas.jump_height(0.5, gravity=9.80665) == pytest.approx(0.30646, abs=1e-5)


def test_both_reactive_strength_indices_are_told_apart():
    # Sports Med 2022;52:301; identity: by height = (g t_f / 8) x by flight
    by_height = formulas.reactive_strength_by_height(0.450, 0.220)
    by_flight = formulas.reactive_strength_by_flight(0.450, 0.220)
    assert by_height == pytest.approx(1.1287, abs=1e-3)
    assert by_flight == pytest.approx(2.0455, abs=1e-3)
    assert by_flight is not None
    assert by_height == pytest.approx(formulas.GRAVITY * 0.450 / 8 * by_flight)


def test_symmetry_of_27_against_30_is_90_with_a_difference_of_10():
    # J Orthop Sports Phys Ther 2017;47:334; Strength Cond J 2018;40(4):1
    assert formulas.symmetry_index(27, 30) == pytest.approx(90.0)
    assert formulas.percent_difference(27, 30) == pytest.approx(10.0)
    assert formulas.percent_difference(30, 27) == pytest.approx(10.0)


def test_a_good_leg_that_fell_from_34_does_not_flatter_the_own_healthy_value():
    # J Orthop Sports Phys Ther 2017;47:334
    assert formulas.percent_of_healthy(27, 34) == pytest.approx(79.41, abs=0.01)


def test_symmetry_is_turned_over_for_timed_tests():
    assert formulas.symmetry_index(2.20, 2.00, timed=True) == pytest.approx(90.91, abs=0.01)


def test_nothing_against_nothing_has_no_symmetry():
    assert formulas.symmetry_index(0, 0) is None
    assert formulas.symmetry_index(0, 0, timed=True) is None
    assert formulas.symmetry_index(5, 0) is None
    assert formulas.percent_difference(0, 0) is None
    assert formulas.percent_of_healthy(0, 0) is None
    assert formulas.reactive_strength_by_height(0.4, 0) is None
    assert formulas.reactive_strength_by_flight(0.4, 0) is None


@pytest.mark.parametrize(
    ("standard_error", "change"),
    # J Sport Rehabil 2000;9:117; J Electromyogr Kinesiol 2017;36:34 (repetitions, then cm)
    [(2.07, 5.74), (6.7, 18.57), (0.8, 2.22)],
)
def test_detectable_change_at_95(standard_error, change):
    assert formulas.detectable_change_95(standard_error) == pytest.approx(change, abs=0.01)


@pytest.mark.parametrize(("standard_error", "published"), [(3.04, 7.05), (5.59, 12.96)])
def test_detectable_change_at_90_agrees_with_the_published_one(standard_error, published):
    # Phys Ther 2007;87:337
    change = formulas.detectable_change_90(standard_error)
    assert change == pytest.approx(published, abs=0.05)


def test_error_from_limits_of_agreement():
    # Physiotherapy 2017;103:446, doi 10.1016/j.physio.2017.03.002: -6.2 to 6.5
    assert formulas.detectable_change_from_limits(-6.2, 6.5) == pytest.approx(6.35)
    assert formulas.error_from_limits(-6.2, 6.5) == pytest.approx(2.29, abs=0.01)


def test_error_from_spread_and_reliability():
    # SD 11.1: Phys Ther 1995;75:694, doi 10.1093/ptj/75.8.694
    error = formulas.error_from_reliability(11.1, 0.96)
    assert error == pytest.approx(2.220, abs=1e-3)
    assert formulas.detectable_change_95(error) == pytest.approx(6.154, abs=1e-3)


def test_work_of_25_heel_raises():
    # mass x g x sum of heights; 1710.6 J lies between the published 1374 and 1800-3000 J
    # (Braz J Phys Ther 2025, doi 10.1016/j.bjpt.2025.101188)
    assert formulas.heel_raise_work(75, 0.093, 25) == pytest.approx(1710.6, abs=0.1)


def test_a_difference_of_12_percent_can_lie_inside_the_error():
    # knee-to-wall 10.5 v 12.0 cm, MDC 1.6 cm: Man Ther 2015;20:524
    assert formulas.percent_difference(10.5, 12.0) == pytest.approx(12.5)
    assert 12.0 - 10.5 < 1.6
