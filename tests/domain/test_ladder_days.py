"""Which ladders are open on which day: the easier way in, what comes first, days between."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.ladder_days import walk
from teamrehab.domain.ladders import open_ladders
from teamrehab.domain.measures import Done, ExerciseDone, Feeling, SessionKind, Symptom
from teamrehab.domain.protocol import Passed
from tests.builders import day, history
from tests.domain.evenings import CALF, level, moved, session

STRAIGHT, SEATED, BENT = "raise_straight", "raise_seated", "raise_bent"
EASIER = ["before_weight", "holds"]


def planned(on=20, **more):
    return session(on, SessionKind.REHAB, **({"done": Done.AS_PLANNED} | more))


def only(on, *keys, number=1, **more):
    """Return a session in which these ladders were looked at, every set done."""
    by_key = {ladder.key: ladder for ladder in CALF.ladders}
    seen = tuple(
        ExerciseDone(exercise=k, level=number, sets=by_key[k].levels[number - 1].sets)
        for k in keys
    )
    return session(on, SessionKind.REHAB, exercises=seen, **more)


def now(*facts, on=30):
    return [one.key for one in open_ladders(history(*facts), CALF, day(on))]


def test_the_easier_work_ends_once_what_it_leads_to_was_passed():
    assert now() == [*EASIER, STRAIGHT, SEATED]
    assert now(only(3, "holds")) == ["holds", STRAIGHT, SEATED]
    assert now(only(3, STRAIGHT)) == [STRAIGHT, SEATED]
    assert now(only(3, "before_weight")) == [*EASIER, STRAIGHT, SEATED]
    assert now(level(3, 2, STRAIGHT)) == [STRAIGHT, SEATED]


@pytest.mark.parametrize("felt", [Symptom(3), Symptom(0, Feeling.SHARP)])
def test_where_the_first_level_hurts_the_plan_goes_to_holds_and_then_to_work_without_weight(
    felt,
):
    hurt = only(3, STRAIGHT, symptom=felt)
    assert now(hurt) == EASIER
    assert now(hurt, only(4, "holds", symptom=felt)) == EASIER[:1]
    again = [hurt, only(4, "holds", symptom=felt), only(5, "before_weight")]
    assert now(*again) == EASIER
    assert now(*again, only(6, "holds")) == ["holds", STRAIGHT, SEATED]
    assert now(only(2, STRAIGHT), hurt) == ["holds"]


def test_a_person_may_try_the_first_level_again_and_a_later_stage_knows_no_easier_work():
    hurt = only(3, STRAIGHT, symptom=Symptom(3))
    assert STRAIGHT in now(hurt, level(4, 1, STRAIGHT))
    assert now(hurt, moved(4, 2)) == [STRAIGHT, SEATED, BENT]
    assert "raise_leaning" in now(moved(4, 2), only(5, STRAIGHT, number=2))


def test_what_was_passed_under_a_painkiller_or_with_a_limp_was_not_passed():
    for amiss in ({"painkiller": True}, {"limp": True}, {"symptom": None}):
        assert now(only(3, STRAIGHT, **amiss)) == [*EASIER, STRAIGHT, SEATED]


def test_hops_open_after_level_1_in_both_knee_positions_and_on_one_leg_after_level_2():
    third = moved(10, 3)
    assert "hop" not in now(third, only(11, STRAIGHT))
    assert "hop" in now(third, only(11, STRAIGHT, BENT))
    assert "hop" not in now(third, only(11, STRAIGHT, BENT, limp=True))
    assert "hop" in now(third, level(11, 1, "hop"))
    one_leg = next(one for one in CALF.ladders if one.key == "hop").levels[2]
    place = walk(history(third, level(11, 2, STRAIGHT), level(12, 2, BENT)), CALF)
    asked = (Passed(ladder=STRAIGHT, level=2), Passed(ladder=BENT, level=2))
    assert place.waits_for(one_leg) == asked
    place = walk(history(third, level(11, 3, STRAIGHT), level(12, 3, BENT)), CALF)
    assert place.waits_for(one_leg) == ()


def test_hops_and_jumps_are_not_planned_on_the_day_after_either_but_slow_work_is():
    facts = (moved(10, 3), only(11, STRAIGHT, BENT), only(20, "jump"))
    quick = {"hop", "jump"}
    assert not quick & set(now(*facts, on=21))
    assert STRAIGHT in now(*facts, on=21)
    assert quick <= set(now(*facts, on=22))
    days = [planned(on) for on in (20, 21, 22)]
    place = walk(history(moved(10, 3), only(11, STRAIGHT, BENT), *days), CALF)
    assert [work.session.on for work in place.works["hop"]] == [day(20), day(22)]
    assert len(place.works[SEATED]) == 3


done = st.builds(
    only,
    st.integers(1, 12),
    st.sampled_from([*EASIER, STRAIGHT]),
    symptom=st.builds(Symptom, st.integers(0, 4)),
)


@given(st.lists(st.one_of(done, st.builds(planned, st.integers(1, 12))), max_size=8))
def test_there_is_always_work_on_the_way_in_and_never_past_what_hurt_last(facts):
    open_now = [key for key in now(*facts) if key in (*EASIER, STRAIGHT)]
    assert open_now
    worked = sorted((f for f in facts if f.exercises), key=lambda f: f.on)
    if worked and worked[-1].on > max((f.on for f in facts if not f.exercises), default=day(0)):
        last = [f for f in worked if f.on == worked[-1].on]
        if len(last) == 1 and last[0].symptom.score > 2:
            hurt = last[0].exercises[0].exercise
            assert hurt not in open_now or hurt == EASIER[0]


def test_who_cannot_walk_begins_without_weight_and_who_limps_with_holds():
    def found(gait, on=2):
        return Examination(
            examination_id=f"x{on}", case_id="c1", athlete_id="a1", on=day(on), walking=gait
        )

    assert now(found(Gait.UNABLE), on=3) == EASIER[:1]
    assert now(found(Gait.LIMPS), on=3) == EASIER
    assert now(found(Gait.UNABLE), found(Gait.CLEAN, 4), on=5) == now()
    assert now(found(Gait.UNABLE), only(3, "before_weight"), on=4) == EASIER
