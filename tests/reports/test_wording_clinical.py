"""Criteria, problems and reasons in words, for the medical staff."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from teamrehab.domain.decision import CriterionResult, Decision, Evidence, Proposal, Verdict
from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.formulas import symmetry_index
from teamrehab.domain.injuries import Certainty, Diagnosis, Side
from teamrehab.domain.protocol import Criterion, InjuryKind, Muscle
from teamrehab.reports.findings import FixtureChance, LikelyReturn
from teamrehab.reports.wording_clinical import (
    behind_words,
    criterion_sentence,
    inside_error_words,
    likely_words,
    missing_words,
    no_estimate_words,
    numbers_words,
    problem_words,
    proposal_sentence,
    started_words,
    symmetry_words,
)
from tests.builders import case, history

RAISES = Criterion(key="r", check="raises_at_least", sentence="25 raises", source="x")
TUESDAY = date(2026, 11, 3)


def result(verdict=Verdict.MET, **changes):
    number = Evidence(
        measure="Heel raises", on=TUESDAY, value=27, unit="raises", side=Side.LEFT, error=6
    )
    values: dict[str, Any] = {
        "criterion": RAISES,
        "needed": 25,
        "unit": "raises",
        "evidence": (number,),
    }
    return CriterionResult(verdict=verdict, **(values | changes))


def decision(*results, proposal=Proposal.STAY):
    return Decision(
        stage=2,
        stage_name="Strength",
        stages=5,
        proposal=proposal,
        criteria=results,
        proposed_stage=2,
        next_name="Hop and jump",
    )


def test_a_criterion_says_its_number_side_day_and_the_error_of_the_test():
    assert criterion_sentence(result()) == (
        "25 raises: met; 27 of 25 raises, left, Tue 3 Nov; error of the test 6 raises"
    )


def test_a_criterion_never_tested_says_so_and_shows_no_number():
    assert criterion_sentence(result(Verdict.NEVER_TESTED, evidence=())) == (
        "25 raises: never tested"
    )


def test_a_share_is_not_told_as_a_count_of_the_share_asked_for():
    number = Evidence(measure="Difference", on=TUESDAY, value=8.04, unit="%")
    assert numbers_words(result(unit="%", needed=10, evidence=(number,))) == (
        "Difference: 8 %, Tue 3 Nov",
    )


def test_what_was_observed_is_told_as_yes_or_no():
    seen = Criterion(key="w", check="observed", sentence="Walks", source="x")
    walks = Evidence(measure="Walks without limp", on=TUESDAY, value=0.0)
    assert numbers_words(result(criterion=seen, needed=None, unit="", evidence=(walks,))) == (
        "Walks without limp: no, Tue 3 Nov",
    )


def test_the_first_missing_criterion_is_named_and_the_rest_counted():
    missing = result(Verdict.NOT_MET)
    assert missing_words(decision(result(), missing, missing)) == (
        "25 raises: not met (and 1 more)"
    )
    assert missing_words(decision(result())) == ""


def test_a_proposal_names_the_stage_it_is_about():
    up = decision(result(), proposal=Proposal.MOVE_UP)
    assert proposal_sentence(up) == "Criteria met: Hop and jump can be opened"
    assert proposal_sentence(decision(result(Verdict.NOT_MET))) == (
        "Stay in Strength: 1 criterion open"
    )


def test_every_reason_for_no_range_has_its_own_words():
    assert len({no_estimate_words(why) for why in NoEstimate}) == len(NoEstimate)


def test_a_decision_stands_before_the_range():
    days: dict[str, Any] = {
        "earliest": date(2026, 12, 14),
        "latest": date(2026, 12, 23),
        "median": None,
    }
    decided = LikelyReturn(**days, not_before=date(2026, 12, 12))
    assert likely_words(decided, None) == (
        "not before Sat 12 Dec, decided; 14–23 Dec (8 in 10)"
    )


def test_a_match_ruled_out_is_said_where_there_is_no_range():
    chance = FixtureChance(
        fixture_id="m", on=date(2026, 12, 19), opponent="A", chance=0.0, decided=True
    )
    decided = LikelyReturn(earliest=None, median=None, latest=None, chances=(chance,))
    assert likely_words(decided, NoEstimate.ILLNESS) == "ruled out for Sat 19 Dec, decided"


ALL = "Published figures and 12 closed club cases, of all injuries, are behind it."


@pytest.mark.parametrize(
    ("cases", "same", "words"),
    [
        (0, 0, "Published figures alone are behind it: no closed club case yet."),
        (12, None, ALL),
        (12, 0, f"{ALL} None of them was of this injury."),
        (12, 1, f"{ALL} 1 of them was of this injury."),
        (12, 3, f"{ALL} 3 of them were of this injury."),
    ],
)
def test_the_cases_behind_a_range_are_told_of_all_injuries_and_of_this_one(cases, same, words):
    likely = LikelyReturn(
        earliest=None, median=None, latest=None, club_cases=cases, same_injury_cases=same
    )
    assert behind_words(likely) == words


def test_a_problem_names_injury_muscle_and_how_sure_it_is_but_not_a_sensitive_one():
    kind = InjuryKind(
        key="calf", name="Calf strain", area="calf", muscles=(Muscle(key="s", name="soleus"),)
    )
    found = Diagnosis(
        case_id="c1",
        athlete_id="a1",
        on=TUESDAY,
        injury="calf",
        muscle="s",
        certainty=Certainty.SUSPECTED,
    )
    assert problem_words(history(found), kind) == "Calf strain, soleus (suspected)"
    hidden = problem_words(history(found, of=case(sensitive=True)), kind)
    assert "soleus" not in hidden
    assert "Calf" not in hidden


@pytest.mark.parametrize(
    ("verdict", "words"),
    [
        (Verdict.MET, "Met, but only just: inside the error of the test (6 raises)"),
        (Verdict.NOT_MET, "Missed by less than the error of the test (6 raises)"),
    ],
)
def test_what_lies_inside_the_error_is_to_be_tested_again_and_says_on_which_side(
    verdict, words
):
    near = result(verdict, inside_error=True)
    assert inside_error_words(near) == f"{words}. Test again."
    assert inside_error_words(replace(near, evidence=())).endswith("the test. Test again.")
    assert inside_error_words(result(verdict)) == ""


def test_symmetry_is_told_in_words_and_says_which_leg_of_which():
    # 27 of 30 is an index of 90 (Knee Surg Sports Traumatol Arthrosc 2010;18:258,
    # doi 10.1007/s00167-009-0889-7)
    index = symmetry_index(27, 30)
    assert index is not None
    said = symmetry_words("Hops", index, injured=True)
    assert said == "Hops: the injured leg is 90 % of the other"
    assert symmetry_words("Hops", index, injured=False).endswith(
        "left leg is 90 % of the right"
    )


@pytest.mark.parametrize(
    ("noted", "words"),
    [
        ({"area": "lower leg", "what": "w"}, "lower leg: w"),
        ({"area": "lower leg"}, "lower leg"),
        ({"what": "felt a pull"}, "felt a pull"),
        ({"area": "calf", "what": "Calf went tight"}, "Calf went tight"),
        ({}, "injury, not assessed"),
    ],
)
def test_a_problem_without_diagnosis_says_where_it_is_and_what_happened(noted, words):
    assert problem_words(history(of=case(**noted)), None) == words


def test_what_happened_can_still_be_read_after_the_diagnosis():
    found = Diagnosis(case_id="c1", athlete_id="a1", on=TUESDAY, injury="calf_strain")
    kind = InjuryKind(key="calf_strain", name="Calf strain", area="calf")
    hurt = history(found, of=case(area="lower leg", what="heard a crack at the start"))
    assert "crack" not in problem_words(hurt, kind)
    assert started_words(hurt) == "lower leg: heard a crack at the start"
