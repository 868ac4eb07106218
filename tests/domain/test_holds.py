"""What keeps a case from going up though nothing stops it, and what other cases mean for it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.availability import Training
from teamrehab.domain.deciding import decide, situation_of, stops_since
from teamrehab.domain.decision import Proposal
from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.injuries import Nature, Urgency
from teamrehab.domain.measures import (
    Feeling,
    SessionKind,
    Symptom,
)
from teamrehab.domain.stops import stop_reasons
from tests.builders import case, day, history, stated
from tests.domain.evenings import (
    CALF,
    flag,
    level,
    looked,
    morning,
    moved,
    passing,
    raises,
    session,
)

TODAY = 20
EXAMINED = Examination(
    examination_id="x", case_id="c1", athlete_id="a1", on=day(TODAY), walking=Gait.CLEAN
)


def stopped(*facts, protocol=CALF):
    return " ".join(stop_reasons(situation_of(history(*facts), protocol, day(TODAY))))


SHARP_LIMP = session(19, symptom=Symptom(9, Feeling.SHARP), limp=True)
LIMPED = [moved(10, 3), session(19, limp=True)]


def test_a_risen_morning_is_repeated_before_anything_goes_up():
    gate = [moved(7, 2), *passing(2, 19), morning(18), session(18), morning(20, 3)]
    held = decide(history(*gate), CALF, day(21))
    assert held.proposal is Proposal.STAY
    assert "repeat it once more" in " ".join(held.held)
    assert "This morning" in " ".join(stops_since(history(*gate), CALF, day(19), day(21)))


def test_a_slow_rise_of_the_week_lets_nothing_go_up():
    week = [session(on, SessionKind.REHAB, symptom=Symptom(on - 17)) for on in (17, 18, 19, 20)]
    found = decide(history(moved(7, 2), *passing(2, 20), *week), CALF, day(TODAY))
    assert "rose from 0 to 3" in " ".join(found.held)


def test_nothing_goes_up_beside_a_level_of_today_or_a_stage_that_was_answered_badly():
    gate = [moved(7, 2), *passing(2, 20)]
    changed = decide(history(*gate, level(20, 2)), CALF, day(TODAY))
    assert "one change at a time" in " ".join(changed.held)
    badly = [moved(14, 2), session(14, SessionKind.REHAB), morning(15, 3), morning(16)]
    answered_so = decide(history(morning(13), *badly, *passing(2, 20)), CALF, day(TODAY))
    assert answered_so.proposal is Proposal.STAY
    assert answered_so.held


def test_another_case_that_is_stopped_holds_this_one():
    sharp = session(20, SessionKind.REHAB, symptom=Symptom(9, Feeling.SHARP), case_id="c2")
    found = decide(beside(sharp), CALF, day(TODAY))
    assert found.proposal is Proposal.STAY
    assert "ankle" in found.held[0]
    head = decide(beside(head_injury=True), CALF, day(TODAY))
    assert "is stopped" in head.held[0]


def test_of_two_peoples_stages_of_one_day_the_lower_counts_until_a_later_day():
    told = history(moved(7, 2), moved(14, 1), moved(14, 3))
    facts = tuple(replace(fact, author=f"s{nth}") for nth, fact in enumerate(told.facts))
    assert replace(told, facts=facts).stage == 1
    assert told.stage == 3
    later = history(moved(7, 2), moved(14, 1), moved(14, 3), moved(15, 3)).facts
    assert replace(told, facts=later).stage == 3


@pytest.mark.parametrize(
    "before", [Symptom(9, Feeling.SHARP), Symptom(4), Symptom(1, Feeling.SHARP)]
)
def test_a_worse_yesterday_gives_no_better_today(before):
    gate = [*passing(2, 20), session(18, SessionKind.REHAB, symptom=Symptom(1))]
    facts = [moved(10, 2), *gate, session(19, SessionKind.REHAB, symptom=before, limp=False)]
    decision = decide(history(*facts), CALF, day(TODAY))
    assert decision.proposal is Proposal.STAY
    assert "repeat it once more" in " ".join(decision.held)
    assert decide(history(*gate, moved(10, 2)), CALF, day(TODAY)).proposal is Proposal.MOVE_UP


def test_today_is_held_against_the_last_day_that_was_not_too_much():
    facts = [moved(10, 2), session(17, symptom=Symptom(1)), session(19, symptom=Symptom(7))]
    told = history(*facts, morning(20), raises(20, symptom=Symptom(3)))
    assert "rose from 1 to 3" in " ".join(decide(told, CALF, day(TODAY)).held)


def test_a_morning_is_not_held_against_one_that_was_too_much():
    calm_before = [moved(5, 3), morning(17, 0), session(17)]
    told = [morning(19, 9, Feeling.SHARP), session(19, limp=False), morning(20, 2)]
    assert "from 0 to 2" in stopped(*calm_before, *told)


def beside(*facts, **of):
    """Return a case that passes all it is asked, beside another one of the same athlete."""
    other = history(*facts, of=case(case_id="c2", area="ankle", **of))
    return replace(history(moved(10, 2), *passing(2, 20)), beside=(other,))


def test_an_open_red_flag_of_another_case_stops_this_one_and_the_case_is_named():
    told = beside(flag(19, case_id="c2", urgency=Urgency.EMERGENCY))
    decision = decide(told, CALF, day(TODAY))
    assert decision.proposal is Proposal.STOP_AND_REVIEW
    assert "ankle" in decision.cautions[0]
    assert "emergency medical care now" in decision.cautions[0]
    closed = beside(flag(19, case_id="c2", closed_on=day(20), closed_by="Dr Vale"))
    assert decide(closed, CALF, day(TODAY)).proposal is Proposal.MOVE_UP


def test_an_illness_that_allows_no_training_stops_the_athletes_injury_too():
    ill = stated(case(case_id="c2"), number=18, training=Training.NONE)
    found = " ".join(decide(beside(ill, nature=Nature.ILLNESS), CALF, day(TODAY)).cautions)
    assert "no training is stated" in found
    trains = replace(ill, training=Training.FULL)
    told = beside(trains, nature=Nature.ILLNESS)
    assert decide(told, CALF, day(TODAY)).proposal is Proposal.MOVE_UP


@given(order=st.permutations([0, 1]), bad=st.sampled_from(["walks_clean", "double_leg_raise"]))
def test_of_two_versions_of_a_test_the_worse_one_counts(order, bad):
    versions = [looked(20), replace(looked(20), **{bad: False})]
    told = history(*(versions[nth] for nth in order), morning(20))
    decision = decide(told, CALF, day(TODAY))
    assert decision.proposal is Proposal.STAY
    assert [result.criterion.check for result in decision.missing] == ["observed"]


def test_two_versions_hold_a_move_up_until_one_of_them_counts():
    told = history(moved(10, 2), *passing(2, 20))
    facts = tuple(replace(fact, versions=2) for fact in told.facts)
    decision = decide(replace(told, facts=facts), CALF, day(TODAY))
    assert decision.proposal is Proposal.STAY
    assert "Two versions" in decision.held[0]
    assert decision.held[0] in decision.cautions
