"""The athlete's own healthy value beside symmetry: which one is used, and that it is said."""

import pytest

from teamrehab.domain.checks import judge
from teamrehab.domain.decision import Verdict
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import Knee
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Situation
from tests.builders import case, day, history
from tests.domain.evenings import hops, raises

MET, NEVER = Verdict.MET, Verdict.NEVER_TESTED
WITHIN = Criterion(
    key="k", check="raises_within", sentence="", source="", parameters={"percent": 10}
)


def within_ten(*facts, side=Side.LEFT, baseline=()):
    """Judge whether the legs are within 10 % on day 20."""
    noted = history(*facts, of=case(side=side), baseline=baseline).as_of(day(20))
    seen = Situation(history=noted, today=day(20), settings=ClubSettings(), phase=3)
    return judge(WITHIN, seen)


def test_symmetry_with_a_good_leg_that_fell_says_so():
    # J Orthop Sports Phys Ther 2017;47:334: 27 v 30 passes, of the healthy 34 it is 79 %
    result = within_ten(raises(3, 5, 34), raises(20, 27, 30))
    assert result.verdict is MET
    assert "fell from 34 at the first test of the case to 30" in result.remark
    assert "79 %" in result.remark
    assert "fell" not in within_ten(raises(3, 5, 30), raises(20, 27, 30)).remark
    assert "fell" not in within_ten(raises(3, 5, 30), raises(20, 27, 29)).remark


def healthy(on, left, right, **more):
    return raises(on, left, right, case_id="", test_id=f"b{on}", **more)


def test_the_leg_s_own_value_from_before_the_injury_comes_before_the_other_leg():
    # J Orthop Sports Phys Ther 2017;47:334: 27 of the leg's own 36 is 75 %
    known = [healthy(-300, 40, 40), healthy(-60, 36, 34)]
    result = within_ten(raises(3, 5, 34), raises(20, 27, 30), baseline=known)
    assert result.verdict is MET
    for said in ("36", "75 %", "left", "Thu 6 Aug 2026"):
        assert said in result.remark
    assert "other leg" not in result.remark
    assert "healthy" not in within_ten(raises(20, 33, 34), baseline=known).remark


def test_a_leg_at_its_own_value_needs_no_word_about_the_other():
    known = [healthy(-60, 28, 34)]
    assert "34" not in within_ten(raises(3, 5, 34), raises(20, 27, 30), baseline=known).remark


@pytest.mark.parametrize(
    "unlike",
    [
        healthy(0, 36, 34),
        healthy(2, 36, 34),
        healthy(-731, 36, 34),
        healthy(-60, None, 36),
        healthy(-60, 36, 34, knee=Knee.BENT),
        healthy(-60, 36, 34, full_range=False),
        hops(-60, case_id=""),
    ],
)
def test_what_is_not_the_same_test_of_the_healthy_leg_is_no_baseline(unlike):
    remark = within_ten(raises(3, 5, 34), raises(20, 27, 30), baseline=[unlike]).remark
    assert "fell from 34 at the first test of the case to 30" in remark


def test_both_injured_legs_are_held_against_their_own_values():
    remark = within_ten(
        raises(20, 30, 30), side=Side.BOTH, baseline=[healthy(-60, 40, 31)]
    ).remark
    assert "did 40, left" in remark
    assert "right" not in remark


def test_a_baseline_opens_no_gate():
    assert within_ten(baseline=[healthy(-1, 30, 30)]).verdict is NEVER
