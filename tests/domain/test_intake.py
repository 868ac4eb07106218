"""What an examination points to, and the reference leg that was hurt itself.

The patterns here are made up: the shipped ones stand with their sources in the protocol.
"""

from dataclasses import replace
from typing import get_args, get_type_hints

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.examination import (
    Character,
    EarlierInjury,
    Examination,
    OnsetKind,
    Resisted,
)
from teamrehab.domain.injuries import Nature, Side
from teamrehab.domain.intake import answer, other_leg_hurt, weigh
from teamrehab.domain.protocol import IntakePattern
from teamrehab.protocols import load_protocols
from teamrehab.protocols.intake import answers
from tests.builders import case, day

BLANK = Examination(examination_id="x", case_id="c1", athlete_id="a1", on=day(2))


def pattern(finding, value, muscle, weight=1):
    return IntakePattern(
        finding=finding, value=value, muscle=muscle, weight=weight, source="made up"
    )


PATTERNS = (
    pattern("onset", "sudden", "outer", 2),
    pattern("onset", "gradual", "inner", 2),
    pattern("resisted_bent", "weak", "inner", 3),
    pattern("resisted_straight", "weak", "outer", 3),
    pattern("stretch_bent", "yes", "inner", 1),
    pattern("stretch_bent", "no", "outer", 1),
)


def pointed(**found):
    return [(p.muscle, p.weight, p.findings) for p in weigh(replace(BLANK, **found), PATTERNS)]


def test_nothing_answered_points_to_nothing():
    assert pointed() == []
    assert weigh(replace(BLANK, onset=OnsetKind.SUDDEN), ()) == ()


def test_weights_of_a_muscle_add_up_and_the_heaviest_comes_first():
    found = pointed(onset=OnsetKind.SUDDEN, resisted_bent=Resisted.WEAK, stretch_bent=True)
    assert found == [
        ("inner", 4, ("resisted_bent", "stretch_bent")),
        ("outer", 2, ("onset",)),
    ]


def test_equal_weights_stay_equal():
    found = pointed(resisted_bent=Resisted.WEAK, resisted_straight=Resisted.WEAK)
    assert [(muscle, weight) for muscle, weight, _f in found] == [("inner", 3), ("outer", 3)]


def test_no_is_an_answer_and_not_asked_is_none():
    assert pointed(stretch_bent=False) == [("outer", 1, ("stretch_bent",))]
    assert pointed(stretch_bent=None, character=Character.CRAMP) == []


def test_a_finding_the_examination_does_not_have_points_to_nothing():
    assert weigh(BLANK, (pattern("colour", "", "inner"), pattern("site", "", "inner"))) == ()


def test_every_answer_a_protocol_file_may_ask_for_can_be_given():
    hints = get_type_hints(Examination)
    for finding, options in answers().items():
        kind = get_args(hints[finding])[0]
        values = (True, False) if kind is bool else tuple(kind)
        assert {answer(replace(BLANK, **{finding: v}), finding) for v in values} == {*options}


def test_the_shipped_patterns_can_point_to_each_of_their_muscles():
    for protocol in load_protocols().values():
        for muscle in {each.muscle for each in protocol.intake}:
            ours = [each for each in protocol.intake if each.muscle == muscle]
            hints = get_type_hints(Examination)
            found = {
                each.finding: _typed(get_args(hints[each.finding])[0], each.value)
                for each in ours
            }
            assert muscle in {p.muscle for p in weigh(replace(BLANK, **found), protocol.intake)}


def _typed(kind, value):
    return value == "yes" if kind is bool else kind(value)


@given(
    onset=st.sampled_from([None, *OnsetKind]),
    bent=st.sampled_from([None, *Resisted]),
    straight=st.sampled_from([None, *Resisted]),
    stretch=st.sampled_from([None, True, False]),
)
def test_every_weight_is_accounted_for_by_its_findings(onset, bent, straight, stretch):
    found = pointed(
        onset=onset, resisted_bent=bent, resisted_straight=straight, stretch_bent=stretch
    )
    weights = [weight for _muscle, weight, _findings in found]
    assert weights == sorted(weights, reverse=True)
    for muscle, weight, findings in found:
        possible = [p.weight for p in PATTERNS if p.muscle == muscle and p.finding in findings]
        assert weight == sum(possible)


def other(on=-100, **more):
    values = {"case_id": "c0", "on": day(on), "side": Side.RIGHT, "area": "knee"}
    return case(**(values | more))


def earlier(on, side=Side.RIGHT, **more):
    values = {"earlier_id": "y", "athlete_id": "a1", "area": "ankle"} | more
    return EarlierInjury(on=day(on), side=side, **values)


@pytest.mark.parametrize(
    ("cases", "before", "found_on"),
    [
        ([other(-365)], [], -365),
        ([other(-366)], [], None),
        ([other(-100, side=Side.LEFT)], [], None),
        ([other(-100, side=Side.BOTH)], [], -100),
        ([other(-100, nature=Nature.ILLNESS)], [], None),
        ([other(-100, athlete_id="a2")], [], None),
        ([case(side=Side.RIGHT)], [], None),
        ([other(5)], [], 5),
        ([other(11)], [], None),
        ([], [earlier(-365)], -365),
        ([], [earlier(-366)], None),
        # an injury of 500 days ago that kept the athlete out for 200 reaches into the year
        ([], [earlier(-500, days_out=200)], -500),
        ([], [earlier(-500, days_out=100)], None),
        ([other(-100)], [earlier(-50)], -50),
        ([], [earlier(-50, athlete_id="a2")], None),
    ],
)
def test_the_other_leg_was_hurt_within_a_year_before_the_onset(cases, before, found_on):
    found = other_leg_hurt(case(), cases, before, day(10))
    assert (found and found.on) == (None if found_on is None else day(found_on))


def test_what_was_hurt_is_told():
    found = other_leg_hurt(case(), [other(what="twisted")], [], day(10))
    assert found is not None
    assert (found.area, found.what, found.side) == ("knee", "twisted", Side.RIGHT)


@pytest.mark.parametrize("side", [Side.BOTH, Side.NOT_APPLICABLE])
def test_without_a_single_injured_side_no_leg_is_the_reference(side):
    assert other_leg_hurt(case(side=side), [other()], [], day(10)) is None
