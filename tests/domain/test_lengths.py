"""Jump and knee to wall: the legs apart, how sure that is, and the leg's own past."""

import pytest

from teamrehab.domain.checks import judge
from teamrehab.domain.decision import Verdict
from teamrehab.domain.injuries import Side
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Situation
from tests.builders import case, day, history
from tests.domain.evenings import jump, to_wall

MET, NOT_MET = Verdict.MET, Verdict.NOT_MET


def within_ten(check, *facts, side=Side.LEFT, baseline=()):
    """Judge whether the legs are within 10 % on day 20."""
    asked = Criterion(key="k", check=check, sentence="", source="", parameters={"percent": 10})
    noted = history(*facts, of=case(side=side), baseline=baseline).as_of(day(20))
    seen = Situation(history=noted, today=day(20), settings=ClubSettings(), phase=3)
    return judge(asked, seen)


def walls(*facts, **more):
    return within_ten("knee_to_wall_within", *facts, **more)


def jumps(*facts, **more):
    return within_ten("jump_within", *facts, **more)


def test_a_difference_of_one_and_a_half_centimetres_is_inside_the_published_error():
    # Man Ther 2015;20:524, doi 10.1016/j.math.2015.01.004: 1.6 cm between raters, 1.9 cm
    # within one; 10.5 v 12.0 cm is 12.5 % apart and fails the 10 % of Sports Med Open 2022;8:10
    result = walls(to_wall(20, 105, 120))
    apart, left, right = result.evidence
    assert (result.verdict, result.inside_error) == (NOT_MET, True)
    assert apart.value == pytest.approx(12.5)
    assert apart.error == pytest.approx(100 * 1.9 / 12)
    assert (left.value, left.unit, left.error, right.value) == (10.5, "cm", 1.9, 12.0)
    assert "Man Ther 2015;20:524" in left.error_source


def test_a_large_difference_to_the_wall_is_outside_the_error():
    assert not walls(to_wall(20, 60, 120)).inside_error


def test_no_error_is_claimed_for_a_jump():
    result = jumps(jump(20, 180, 200))
    assert result.evidence[0].error is None
    assert (result.verdict, result.inside_error) == (MET, False)
    assert [e.value for e in result.evidence[1:]] == [18.0, 20.0]


def test_the_injured_leg_stands_first():
    sides = [e.side for e in jumps(jump(20), side=Side.RIGHT).evidence]
    assert sides == [None, Side.RIGHT, Side.LEFT]


@pytest.mark.parametrize(("judged", "test"), [(jumps, jump), (walls, to_wall)])
def test_legs_are_compared_within_one_test_that_is_not_too_old(judged, test):
    assert judged(test(19, 200, None), test(20, None, 200)).verdict is Verdict.NEVER_TESTED
    assert judged(test(13, 200, 200)).verdict is MET
    assert judged(test(12, 200, 200)).verdict is Verdict.DUE_AGAIN
    nothing = judged(test(20, 0, 0))
    assert (nothing.verdict, "no symmetry" in nothing.remark) == (NOT_MET, True)


@pytest.mark.parametrize(("judged", "test"), [(jumps, jump), (walls, to_wall)])
def test_what_symmetry_hides_is_said_from_the_own_healthy_value(judged, test):
    # J Orthop Sports Phys Ther 2017;47:334: the own earlier value tells what symmetry hides
    before = test(-60, 200, 200, case_id="", test_id="b")
    said = judged(test(20, 150, 150), baseline=[before]).remark
    assert "did 20 cm, left: now 15 cm, which is 75 %" in said
    fell = judged(test(3, 100, 200), test(20, 150, 160)).remark
    assert "fell from 20 cm at the first test of the case to 16 cm" in fell
    assert judged(test(20, 190, 200), baseline=[before]).remark == ""
