"""Each named check: what meets it, what does not, and what is said beside it."""

from dataclasses import replace
from typing import Any

import pytest

from teamrehab.domain.checks import CHECKS, judge
from teamrehab.domain.decision import Verdict
from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import Feeling, Hops, SessionKind, Symptom
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Situation
from tests.builders import case, day, history
from tests.domain.evenings import (
    bent,
    hops,
    jump,
    loaded,
    looked,
    morning,
    moved,
    raises,
    ran,
    session,
    to_wall,
)

TODAY = 20
MET, NOT_MET = Verdict.MET, Verdict.NOT_MET
DUE, NEVER = Verdict.DUE_AGAIN, Verdict.NEVER_TESTED


def judged(check, *facts, phase=3, side=Side.LEFT, settings=None, **parameters):
    """Judge ``facts`` by one check, as of day 20."""
    asked = Criterion(key="k", check=check, sentence="", source="", parameters=parameters)
    noted = history(*facts, of=case(side=side)).as_of(day(TODAY))
    settings = settings or ClubSettings()
    seen = Situation(history=noted, today=day(TODAY), settings=settings, phase=phase)
    return judge(asked, seen)


def twenty_five(*facts, **more):
    return judged("raises_at_least", *facts, **({"repetitions": 25} | more))


def twenty_hops(*facts, **more):
    return judged("hops_at_least", *facts, **({"hops": 20, "symptom": 1} | more))


def within_ten(*facts, **more):
    return judged("raises_within", *facts, percent=10, **more)


FLIPS = [
    ("observed", {"what": "walks_clean"}, looked(20), looked(20, walks_clean=False)),
    (
        "observed",
        {"what": "no_signs", "symptom": 0},
        looked(20),
        looked(20, symptom=Symptom(1)),
    ),
    ("raises_at_least", {"repetitions": 25}, raises(20, 25, 25), raises(20, 24, 25)),
    ("raises_at_least", {"repetitions": 25}, raises(20, 25, 25), raises(20, 25, 24)),
    ("hops_at_least", {"hops": 20}, hops(20, 20, 20), hops(20, 19, 20)),
    (
        "hops_at_least",
        {"hops": 20, "symptom": 1},
        hops(20, symptom=Symptom(1)),
        hops(20, symptom=Symptom(2)),
    ),
    ("raises_within", {"percent": 10}, raises(20, 27, 30), raises(20, 26, 30)),
    ("raises_within", {"percent": 10}, raises(20, 30, 27), raises(20, 30, 26)),
    ("symptom_at_most", {"score": 1}, ran(20, symptom=Symptom(1)), ran(20, symptom=Symptom(2))),
    ("speed_over", {"percent": 90}, ran(20, 91), ran(20, 90)),
    (
        "sessions_at_least",
        {"sessions": 1, "kind": "full team session"},
        session(20, SessionKind.TEAM_FULL),
        session(20, SessionKind.TEAM_FULL, limp=True),
    ),
    ("days_in_stage", {"days": 5}, moved(15, 2), moved(16, 2)),
    ("raises_to_target", {"repetitions": 25}, raises(20, 23, 25), raises(20, 22, 25)),
    ("loaded_raises_within", {"percent": 10}, loaded(20, 36, 40), loaded(20, 35, 40)),
    ("clean_runs", {"runs": 1, "symptom": 1}, ran(20), ran(20, symptom=Symptom(2))),
    ("clean_mornings", {"mornings": 1, "symptom": 1}, morning(20, 1), morning(20, 2)),
    (
        "full_sessions",
        {"symptom": 1},
        session(20, SessionKind.TEAM_FULL),
        session(20, SessionKind.TEAM_FULL, symptom=Symptom(2)),
    ),
    ("jump_within", {"percent": 10}, jump(20, 180, 200), jump(20, 179, 200)),
    ("knee_to_wall_within", {"percent": 10}, to_wall(20, 108, 120), to_wall(20, 120, 107)),
]


@pytest.mark.parametrize(("check", "parameters", "good", "bad"), FLIPS)
def test_a_verdict_flips_with_the_decisive_number(check, parameters, good, bad):
    assert judged(check, good, **parameters).verdict is MET
    assert judged(check, bad, **parameters).verdict is NOT_MET


def test_every_check_of_the_table_is_flipped_by_a_test():
    assert {check for check, *_rest in FLIPS} | {"reactive_within", "level_passed"} == set(
        CHECKS
    )


@pytest.mark.parametrize(
    ("check", "parameters"),
    [(check, parameters) for check, parameters, *_rest in FLIPS if check != "days_in_stage"],
)
def test_without_a_test_it_was_never_tested(check, parameters):
    assert judged(check, **parameters).verdict is NEVER


def test_evidence_carries_value_day_test_and_published_error():
    # Physiotherapy 2017;103:446: MDC95 of 6.15 to 6.35 repetitions, shown as 6
    left, right = twenty_five(raises(18, 27, 33)).evidence
    assert (left.value, left.on, left.test_id, left.side) == (27, day(18), "h18", Side.LEFT)
    assert (left.error, right.value) == (6, 33)
    assert "Physiotherapy 2017;103:446" in left.error_source


def test_a_pass_by_less_than_the_error_says_so():
    assert twenty_five(raises(20, 40, 30)).inside_error
    assert not twenty_five(raises(20, 0, 26)).inside_error
    assert twenty_five(raises(20, 30, 40)).inside_error
    assert not twenty_five(raises(20, 31, 40)).inside_error
    assert twenty_five(raises(20, 20, 40)).inside_error
    assert within_ten(raises(20, 30, 30)).inside_error
    assert not twenty_hops(hops(20, 21, 21)).inside_error


def test_no_error_is_claimed_for_a_bent_knee_or_for_hops():
    assert twenty_five(bent(20, 26, 26), knee="bent").evidence[0].error is None
    assert twenty_hops(hops(20)).evidence[0].error is None


def test_a_result_is_due_again_after_seven_days_and_hops_after_three_once_running_is_open():
    assert twenty_five(raises(13)).verdict is MET
    assert twenty_five(raises(12)).verdict is DUE
    assert twenty_five(raises(12, 20, 20)).verdict is NOT_MET
    assert twenty_hops(hops(13)).verdict is MET
    assert twenty_hops(hops(17), phase=4).verdict is MET
    assert twenty_hops(hops(16), phase=4).verdict is DUE


def test_a_club_may_set_how_long_a_result_counts():
    longer = ClubSettings(retest_days=14)
    assert twenty_five(raises(8), settings=longer).verdict is MET


def test_the_newest_test_counts_even_if_it_is_worse():
    assert twenty_five(raises(18, 26, 26), raises(19, 24, 24)).verdict is NOT_MET


def test_each_leg_is_judged_by_its_own_newest_test():
    result = twenty_five(raises(18, 26, None), raises(19, None, 27))
    assert result.verdict is MET
    assert [evidence.on for evidence in result.evidence] == [day(18), day(19)]
    assert twenty_five(raises(18, 26, None)).verdict is NEVER
    assert twenty_five(raises(18, 20, None)).verdict is NOT_MET


def test_only_the_injured_leg_is_asked_for_where_the_protocol_says_so():
    assert twenty_hops(hops(20, 20, 3), legs="injured").verdict is MET
    assert twenty_hops(hops(20, 3, 20), legs="injured", side=Side.RIGHT).verdict is MET


@pytest.mark.parametrize("side", [Side.BOTH, Side.NOT_APPLICABLE])
def test_both_legs_are_judged_where_no_single_side_is_injured(side):
    assert twenty_hops(hops(20, 20, 19), legs="injured", side=side).verdict is NOT_MET
    assert twenty_hops(hops(20, 20, 20), legs="injured", side=side).verdict is MET
    assert within_ten(raises(10, 40, 40), raises(20, 30, 30), side=side).verdict is MET


def test_knee_positions_are_not_mixed():
    assert twenty_five(bent(20)).verdict is NEVER
    assert twenty_five(raises(20), knee="bent").verdict is NEVER


def test_raises_short_of_the_full_range_do_not_count():
    result = twenty_five(raises(20, full_range=False))
    assert result.verdict is NOT_MET
    assert "full range" in result.remark
    assert within_ten(raises(20, full_range=False)).verdict is NOT_MET


def test_tests_of_another_case_do_not_count():
    assert twenty_five(raises(20, case_id="c2")).verdict is NEVER
    assert judged("symptom_at_most", raises(20, case_id="c2"), score=1).verdict is NEVER


def test_a_sharp_symptom_never_meets_whatever_the_number():
    sharp = Symptom(0, Feeling.SHARP)
    assert twenty_five(raises(20, symptom=sharp)).verdict is NOT_MET
    assert "Sharp" in twenty_hops(hops(20, symptom=sharp)).remark


def test_a_symptom_not_noted_meets_no_limit_but_an_observation_speaks_for_itself():
    assert twenty_hops(hops(20, symptom=None)).verdict is NOT_MET
    assert "not noted" in twenty_hops(hops(20, symptom=None)).remark
    assert twenty_five(raises(20, symptom=None)).verdict is MET
    unasked = looked(20, symptom=None)
    assert judged("observed", unasked, what="no_signs", symptom=0).verdict is MET


def examined(on, **found):
    ids: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
    return Examination(examination_id=f"x{on}", on=day(on), **ids, **found)


def test_an_examination_says_whether_the_athlete_walks_and_takes_stairs_cleanly():
    found = examined(18, walking=Gait.LIMPS, stairs=Gait.CLEAN)
    walks = judged("observed", found, what="walks_clean")
    assert (walks.verdict, walks.evidence[0].on, walks.evidence[0].value) == (
        NOT_MET,
        day(18),
        0,
    )
    assert judged("observed", found, what="stairs_clean").verdict is MET
    assert judged("observed", found, what="no_signs").verdict is NEVER
    unable = examined(18, walking=Gait.UNABLE)
    assert judged("observed", unable, what="walks_clean").verdict is NOT_MET
    assert judged("observed", unable, what="stairs_clean").verdict is NEVER


def test_of_an_examination_and_a_check_the_later_one_speaks_and_a_painkiller_opens_no_gate():
    limps, clean = examined(18, walking=Gait.LIMPS), examined(19, walking=Gait.CLEAN)
    assert judged("observed", limps, looked(19), what="walks_clean").verdict is MET
    assert judged("observed", looked(17), limps, what="walks_clean").verdict is NOT_MET
    assert judged("observed", limps, clean, what="walks_clean").verdict is MET
    helped = judged("observed", clean, raises(19, painkiller=True), what="walks_clean")
    assert helped.verdict is NOT_MET
    assert "painkiller" in helped.remark


def test_a_pass_under_a_painkiller_is_kept_but_opens_no_gate():
    helped = raises(20, painkiller=True)
    assert twenty_five(helped).verdict is NOT_MET
    assert "painkiller" in twenty_five(helped).remark
    before = twenty_five(raises(18, 26, 26), helped)
    assert (before.verdict, before.evidence[0].on) == (MET, day(18))
    assert "painkiller" in before.remark
    assert twenty_five(raises(12, 26, 26), helped).verdict is DUE


def test_a_failure_under_a_painkiller_is_a_failure():
    assert twenty_five(raises(18), raises(20, 12, 30, painkiller=True)).verdict is NOT_MET


def test_equal_repetitions_ask_for_the_height():
    # Knee Surg Sports Traumatol Arthrosc 2010;18:258: 84 % by repetitions, 61 % by work
    said = "Equal repetitions can hide unequal work: measure the height."
    assert within_ten(raises(20, 27, 30)).remark == said
    assert within_ten(raises(20, 30, 30, left_mm=90)).remark == said
    assert twenty_five(raises(20, 29, 30)).remark == said
    assert within_ten(raises(20, 20, 30)).remark == ""


def test_equal_repetitions_with_unequal_work_say_by_how_much():
    result = within_ten(raises(20, 30, 30, left_mm=61, right_mm=100))
    assert result.verdict is MET
    assert "differs by 39 %" in result.remark
    assert within_ten(raises(20, 30, 30, left_mm=90, right_mm=100)).remark == ""


def test_no_raise_on_either_leg_has_no_symmetry():
    result = within_ten(raises(20, 0, 0))
    assert result.verdict is NOT_MET
    assert "no symmetry" in result.remark
    assert result.evidence[0].value is None


def test_symmetry_needs_both_legs_in_one_test():
    assert within_ten(raises(19, 30, None), raises(20, None, 30)).verdict is NEVER


def test_the_difference_is_printed_with_the_error_in_percent():
    apart = within_ten(raises(20, 27, 30)).evidence[0]
    assert apart.value == pytest.approx(10.0)
    assert apart.error == pytest.approx(20.0)  # 6 of 30 repetitions


def test_reactive_strength_of_the_legs_is_compared():
    def hopped(left, right):
        test = replace(hops(20), left=Hops(20, *left), right=Hops(20, *right))
        return judged("reactive_within", test, percent=10)

    # flight over contact: 2.0 v 2.2 is 9.1 % apart, 2.0 v 2.25 is 11.1 %
    assert hopped((200, 400), (200, 440)).verdict is MET
    assert hopped((200, 400), (200, 450)).verdict is NOT_MET
    assert hopped((200, 400), (200, None)).verdict is NEVER
    assert hopped((None, 400), (200, 400)).verdict is NEVER
    assert judged("reactive_within", hops(20), percent=10).verdict is NEVER


def test_an_easy_run_does_not_undo_a_fast_one_but_one_with_symptom_does():
    easy, painful = ran(20, 60), ran(20, 60, symptom=Symptom(2))
    fast = judged("speed_over", ran(18, 95), easy, percent=90, symptom=1)
    assert (fast.verdict, fast.evidence[0].value) == (MET, 95)
    assert judged("speed_over", ran(18, 95), painful, percent=90, symptom=1).verdict is NOT_MET
    slow = judged("speed_over", ran(18, 80), ran(19, 60), percent=90)
    assert (slow.verdict, slow.evidence[0].value) == (NOT_MET, 80)
    assert judged("speed_over", ran(12, 95), easy, percent=90).verdict is DUE


def test_the_worst_symptom_of_the_newest_days_counts():
    calm, sore = ran(20), session(19, symptom=Symptom(3))
    assert judged("symptom_at_most", sore, calm, score=1).verdict is MET
    result = judged("symptom_at_most", sore, calm, score=1, days=2)
    assert (result.verdict, result.evidence[0].value) == (NOT_MET, 3)
    assert judged("symptom_at_most", ran(12), score=1).verdict is DUE
    assert judged("symptom_at_most", sore, calm, score=3, days=2).verdict is MET
    helped = judged("symptom_at_most", ran(20, painkiller=True), score=1)
    assert helped.verdict is NOT_MET
    assert "painkiller" in helped.remark


def sessions(*facts, count=2, kind="team session with limits"):
    return judged("sessions_at_least", *facts, sessions=count, kind=kind, symptom=1)


def test_clean_sessions_count_in_a_row_since_the_stage_was_opened():
    assert sessions(moved(10, 5), session(11), session(12)).verdict is MET
    assert sessions(session(9), moved(10, 5), session(12)).verdict is NOT_MET
    spoilt = session(13, symptom=Symptom(2))
    assert sessions(session(11), session(12), spoilt, session(14)).verdict is NOT_MET
    assert sessions(session(11), session(12), session(13, limp=True)).evidence[0].value == 0


def test_a_harder_session_counts_and_an_easier_does_not():
    assert sessions(session(11), session(12, SessionKind.TEAM_FULL)).verdict is MET
    assert sessions(session(11), session(12, SessionKind.REHAB)).verdict is NOT_MET


def test_a_session_under_a_painkiller_or_without_symptom_is_passed_over():
    helped = sessions(session(11), session(12, painkiller=True), session(13))
    assert helped.verdict is MET
    assert "painkiller" in helped.remark
    assert sessions(session(11), session(12, symptom=None)).verdict is NOT_MET
