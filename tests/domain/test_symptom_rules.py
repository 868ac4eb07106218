"""How much symptom a kind of work, a ladder and a stage allow together."""

from dataclasses import replace

import pytest

from teamrehab.domain.guidance import Guidance, KindOfWork, SymptomRule
from teamrehab.domain.measures import SessionKind
from teamrehab.domain.protocol import Protocol, Stage
from teamrehab.domain.symptom_rules import allowed, allowed_in_team, most_allowed, rule_for
from teamrehab.protocols import load_protocols

SHIPPED = load_protocols()
CALF, TENDON = SHIPPED["calf_strain"], SHIPPED["achilles_tendinopathy"]
SLOW, QUICK = KindOfWork.SLOW, KindOfWork.QUICK

# slow gym work 2 in the first stage and 3 later, hops, jumps, running and team 0-1
CALF_RULES = [(SLOW, 1, 2), (SLOW, 2, 3), (SLOW, 5, 3), (QUICK, 3, 1), (KindOfWork.TEAM, 5, 1)]


@pytest.mark.parametrize(("work", "stage", "most"), CALF_RULES)
def test_of_several_rules_for_a_kind_of_work_the_one_of_the_latest_open_stage_counts(
    work, stage, most
):
    assert allowed(CALF, work, stage) == most
    ladders = [ladder for ladder in CALF.ladders if ladder.work is work]
    assert {allowed(CALF, one, stage) for one in ladders if one.open_at(stage)} <= {most}


def test_the_least_of_rule_ladder_and_stage_counts():
    raises = next(one for one in CALF.ladders if one.key == "raise_straight")
    assert allowed(CALF, replace(raises, symptom=1), 2) == 1
    assert allowed(CALF, replace(raises, symptom=9), 2) == 3
    assert allowed(CALF, replace(raises, symptom=9), 1) == 2
    assert allowed(CALF, replace(raises, symptom=9, work=None), 2) == 9


def test_a_tendon_may_be_loaded_at_five_as_its_rule_says():
    # Am J Sports Med 2007;35:897, doi 10.1177/0363546506298279: up to 5 of 10
    assert {allowed(TENDON, one, one.stage) for one in TENDON.ladders} == {5}
    assert most_allowed(TENDON, 1) == 5
    assert most_allowed(CALF, 1) == 2
    assert most_allowed(CALF, 4) == 3


def test_work_nobody_set_a_limit_for_allows_less_than_what_always_stops():
    bare = Protocol(
        key="p",
        name="P",
        version="1",
        injuries=(),
        stages=(Stage(name="First", phase=1),),
        sign_off=(),
        guidance=Guidance(
            symptom_rules=(SymptomRule(work=SLOW, most=5, stage=2, source="common practice"),)
        ),
    )
    assert allowed(bare, QUICK, 1) == 3
    assert rule_for(bare, SLOW, 1) is None
    assert rule_for(bare, None, 1) is None


def test_a_team_session_has_the_rule_of_team_training_and_a_rehab_session_none_of_its_own():
    assert allowed_in_team(CALF, SessionKind.TEAM_WITH_LIMITS, 5) == 1
    assert allowed_in_team(CALF, SessionKind.REHAB, 5) is None
