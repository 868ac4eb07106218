"""What opens running and return: targets of the own leg, symmetry twice, full sessions."""

from datetime import date

import pytest

from teamrehab.domain.checks import judge
from teamrehab.domain.decision import Verdict
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import Done, ExerciseDone, Knee, SessionKind, Symptom
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Situation
from tests.builders import athlete, case, day, history
from tests.domain.evenings import (
    CALF,
    bent,
    loaded,
    morning,
    moved,
    raises,
    ran,
    session,
)

MET, NOT_MET = Verdict.MET, Verdict.NOT_MET
DUE, NEVER = Verdict.DUE_AGAIN, Verdict.NEVER_TESTED
MINOR = athlete(born=date(2010, 1, 1))
FULL = SessionKind.TEAM_FULL


def judged(check, *facts, on=20, side=Side.LEFT, baseline=(), by=None, **parameters):
    asked = Criterion(key="k", check=check, sentence="", source="", parameters=parameters)
    noted = history(*facts, of=case(side=side), baseline=baseline, by=by).as_of(day(on))
    seen = Situation(
        history=noted, today=day(on), settings=ClubSettings(), phase=3, protocol=CALF
    )
    return judge(asked, seen)


def healthy(left, right, **more):
    return raises(-60, left, right, case_id="", test_id="b", **more)


def target(*facts, number=25, **more):
    return judged("raises_to_target", *facts, repetitions=number, **more)


def targets(result):
    """The numbers asked for, as printed: a leg's target follows what the leg did."""
    return [evidence.value for evidence in result.evidence[1::2]]


def test_the_target_is_90_percent_of_the_own_healthy_value_of_each_leg():
    # own values first: J Orthop Sports Phys Ther 2017;47:334; 25: Phys Ther 1995;75:694
    known = [healthy(40, 30)]
    result = target(raises(3, 5, 28), raises(20, 36, 27), baseline=known)
    assert (result.verdict, targets(result)) == (MET, [36, 27])
    assert target(raises(20, 35, 27), baseline=known).verdict is NOT_MET
    assert target(raises(20, 36, 26), baseline=known).verdict is NOT_MET
    assert "own healthy 40" in result.evidence[1].measure


def test_without_an_own_value_the_uninjured_leg_at_its_first_test_counts_for_both():
    first = raises(3, 5, 34)
    assert targets(target(first, raises(20, 31, 31))) == [31, 31]
    assert target(first, raises(20, 30, 31)).verdict is NOT_MET
    # a good leg that loses strength cannot lower the target
    assert target(first, raises(20, 30, 30)).verdict is NOT_MET
    assert target(first, raises(20, 31, 31), legs="injured").evidence[-1].side is Side.LEFT


def test_without_any_value_of_the_athlete_the_number_of_the_protocol_counts():
    both = {"side": Side.BOTH}
    assert targets(target(raises(20, 25, 25), **both)) == [25, 25]
    assert target(raises(20, 25, 24), **both).verdict is NOT_MET
    assert target(bent(3, 5, 40), raises(20, 25, None), legs="injured").verdict is MET


def test_a_low_first_value_of_the_other_leg_is_asked_about():
    assert "18 at its first test" in target(raises(20, 17, 18)).remark
    assert "first test" not in target(raises(20, 30, 30)).remark


def test_a_target_missed_by_less_than_the_error_says_so():
    # 6 repetitions: Physiotherapy 2017;103:446
    known = [healthy(40, 40)]
    assert target(raises(20, 31, 40), baseline=known).inside_error
    assert not target(raises(20, 30, 43), baseline=known).inside_error


def test_under_18_the_numbers_of_adults_are_off_and_it_is_said():
    alone = target(raises(20, 40, None), side=Side.BOTH, by=MINOR)
    assert alone.verdict is not MET
    assert "Under 18: the 25 of adults is not applied." in alone.remark
    assert "a person decides" in alone.remark
    own = target(raises(20, 18, 18), baseline=[healthy(20, 20)], by=MINOR)
    assert (own.verdict, targets(own)) == (MET, [18, 18])
    asked = {"repetitions": 30, "norm": "adults"}
    facts = {"baseline": [healthy(22, 22)], **asked}
    assert judged("raises_at_least", raises(20, 20, 20), by=MINOR, **facts).verdict is MET
    assert judged("raises_at_least", raises(20, 20, 20), **facts).verdict is NOT_MET
    equal = {"percent": 10, "floor": 30}
    assert judged("raises_within", raises(20, 20, 20), by=MINOR, **equal).verdict is MET


def twice(*facts, **more):
    return judged("raises_within", *facts, percent=10, days=2, floor=30, **more)


def test_symmetry_needs_two_passes_on_different_days():
    # 10 % of 30 raises is 3, the error of the test 6: Physiotherapy 2017;103:446
    once = twice(raises(20, 31, 33))
    assert once.verdict is DUE
    assert "1 of 2 days" in once.remark
    again = raises(20, 32, 33, test_id="later")
    assert twice(raises(20, 31, 33), again).verdict is DUE
    assert twice(raises(17, 31, 33), raises(20, 31, 33)).verdict is MET
    assert twice(raises(3, 31, 33), raises(20, 31, 33)).verdict is MET
    assert twice(raises(3, 31, 33), raises(10, 31, 33), on=20).verdict is DUE


@pytest.mark.parametrize(
    "between",
    [raises(18, 29, 33), raises(18, 31, 33, full_range=False)],
)
def test_a_failure_between_two_passes_begins_the_row_again(between):
    assert twice(raises(17, 31, 33), between, raises(20, 31, 33)).verdict is DUE


def test_a_pass_under_a_painkiller_is_no_second_pass():
    helped = raises(17, 31, 33, painkiller=True)
    assert twice(helped, raises(20, 31, 33)).verdict is DUE
    assert twice(raises(16, 31, 33), helped, raises(20, 31, 33)).verdict is MET


def test_equal_work_passes_at_once_and_unequal_work_never():
    # Knee Surg Sports Traumatol Arthrosc 2010;18:258: 84 % by repetitions, 61 % by work
    even = twice(raises(20, 31, 33, left_mm=92, right_mm=92))
    assert even.verdict is MET
    assert even.evidence[3].value == pytest.approx(6.06, abs=0.01)
    low = {"left_mm": 61, "right_mm": 100}
    assert twice(raises(17, 31, 33), raises(20, 33, 33, **low)).verdict is NOT_MET


def test_29_raises_on_both_legs_fail_the_floor_and_31_against_33_pass():
    # the expert checklist, 30 and more and within 10 %: Sports Med Open 2022;8:10,
    # doi 10.1186/s40798-021-00364-0; 31 v 33 is 6.1 % apart
    assert twice(raises(17, 31, 33), raises(20, 31, 33)).evidence[0].value == pytest.approx(
        6.06, abs=0.01
    )
    failed = twice(raises(17, 29, 29), raises(20, 29, 29))
    assert failed.verdict is NOT_MET
    assert "At least 30" in failed.remark


def weights(*facts, **more):
    return judged("loaded_raises_within", *facts, percent=10, **more)


def test_weight_is_held_against_the_own_healthy_weight_before_the_other_leg():
    known = [loaded(-60, 50, 50, case_id="")]
    assert weights(loaded(20, 44, 44), baseline=known).verdict is NOT_MET
    assert weights(loaded(20, 45, 40), baseline=known).verdict is MET
    assert weights(loaded(20, 36, 40)).verdict is MET
    assert weights(loaded(20, 44, 40)).evidence[0].value == 0


def test_weight_tells_the_strength_at_6_to_8_repetitions_only():
    assert weights(loaded(20, 40, 40, times=9)).verdict is NOT_MET
    assert "9 repetitions" in weights(loaded(20, 40, 40, times=9)).remark
    assert weights(loaded(20, 40, 40, times=9), most=10).verdict is MET
    assert "other leg" in weights(loaded(20, 40, None)).remark
    assert weights(loaded(20, knee=Knee.STRAIGHT)).verdict is NEVER
    assert weights(loaded(20, None, 40)).verdict is NEVER
    assert weights(loaded(12)).verdict is DUE


def runs(*facts, **more):
    return judged("clean_runs", *facts, runs=3, symptom=1, before=80, **more)


def test_clean_runs_count_by_days_and_a_fast_one_too_early_is_said():
    three = [ran(14, 60), ran(16, 70), ran(18, 80)]
    assert runs(*three).verdict is MET
    assert runs(*three).remark == ""
    assert runs(*three[:2], ran(16, 75, test_id="second")).verdict is NOT_MET
    assert runs(*three, ran(20, 60, symptom=Symptom(2))).verdict is NOT_MET
    early = runs(ran(14, 60), ran(16, 85), ran(18, 70))
    assert (early.verdict, early.evidence[0].value) == (MET, 3)
    assert "85 %" in early.remark
    assert "1 clean runs of 3" in early.remark


def test_speed_on_two_days_needs_two_days():
    asked = {"percent": 90, "days": 2, "symptom": 1}
    assert judged("speed_over", ran(18, 92), ran(20, 95), **asked).verdict is MET
    once = judged("speed_over", ran(20, 95), **asked)
    assert (once.verdict, once.evidence[1].value) == (DUE, 1)
    easy = judged("speed_over", ran(17, 92), ran(18, 60), ran(20, 95), **asked)
    assert easy.verdict is MET
    hurt = judged(
        "speed_over", ran(17, 92), ran(18, 60, symptom=Symptom(2)), ran(20, 95), **asked
    )
    assert hurt.verdict is DUE


def mornings(*facts, **more):
    return judged("clean_mornings", *facts, mornings=2, symptom=1, **more)


def test_the_newest_two_mornings_noted_must_be_calm():
    assert mornings(morning(18), morning(20, 1)).verdict is MET
    assert mornings(morning(20)).verdict is NOT_MET
    assert mornings(morning(18), morning(19, 2), morning(20)).verdict is NOT_MET
    assert mornings(morning(17), morning(18), on=26).verdict is DUE
    assert mornings().verdict is NEVER


def full(*facts, **more):
    return judged("full_sessions", *facts, symptom=1, **more)


@pytest.mark.parametrize(
    ("returned", "needed"),
    # under 8 days out 1, 8 to 28 days 3, over 28 days 6; the first match after 8 or more days
    # out carried 1.87 x the rate of injuries: Br J Sports Med 2020;54:427
    [(8, 1), (9, 3), (29, 3), (30, 6)],
)
def test_full_sessions_are_asked_for_by_days_out_as_days_lost_are_counted(returned, needed):
    done = [session(returned + n, FULL, session_id=f"s{n}") for n in range(needed)]
    last = returned + needed
    result = full(*done, on=last)
    assert (result.verdict, result.needed) == (MET, needed)
    assert result.evidence[-1].value == returned - 1
    if needed > 1:
        assert full(*done[1:], on=last).verdict is NOT_MET


def test_a_long_lay_off_says_limited_minutes_first_and_a_middle_one_what_is_better():
    # each full session before the first match, OR 0.93: Br J Sports Med 2020;54:427
    assert "Limited minutes" in full(on=40).remark
    assert "6 are better" in full(on=12).remark
    assert full(on=12).verdict is NEVER


def test_only_clean_full_sessions_in_a_row_since_the_stage_was_opened_count():
    assert full(session(5), on=6).verdict is NEVER
    assert full(session(5, FULL), moved(6, 5), on=6).verdict is NEVER
    assert full(session(5, FULL, limp=True), on=6).verdict is NOT_MET


def hopped(sets=3, at=4, score=0, **more):
    work = ExerciseDone(exercise="hop", level=at, sets=sets, faults=more.pop("faults", ()))
    rehab = SessionKind.REHAB
    given = {"exercises": (work,), "done": Done.PARTLY, "symptom": Symptom(score)}
    return session(20, rehab, **(given | more))


@pytest.mark.parametrize(
    ("work", "verdict"),
    [
        (hopped(), MET),
        (hopped(sets=2), NOT_MET),
        (hopped(at=3), NOT_MET),
        (hopped(score=2), NOT_MET),
        (hopped(limp=True), NOT_MET),
        (hopped(painkiller=True), NOT_MET),
        (hopped(faults=("drop",)), NOT_MET),
        (hopped(symptom=None), NOT_MET),
        (raises(20), NEVER),
    ],
)
def test_a_level_is_passed_with_every_set_in_good_form_within_the_symptom(work, verdict):
    assert judged("level_passed", work, ladder="hop", level=4).verdict is verdict


def test_runs_on_days_in_a_row_count_once_and_that_is_said():
    daily = runs(*[ran(on, 60) for on in (18, 19, 20)])
    assert daily.verdict is Verdict.NOT_MET
    assert "a day lies between" in daily.remark
    spaced = runs(*[ran(on, 60) for on in (16, 18, 20)])
    assert spaced.verdict is Verdict.MET
    assert "a day lies between" not in spaced.remark
