"""What stops the day before any criterion is looked at, and what waits for a morning."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.deciding import decide, situation_of
from teamrehab.domain.decision import Proposal
from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.injuries import Urgency
from teamrehab.domain.measures import (
    Feeling,
    Missed,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.domain.protocol import Ladder, Level
from teamrehab.domain.safety import answered
from teamrehab.domain.stops import stop_reasons
from teamrehab.protocols import load_protocols
from tests.builders import day, history
from tests.domain.evenings import (
    CALF,
    flag,
    four,
    level,
    looked,
    morning,
    moved,
    passing,
    raises,
    session,
    to_wall,
)

TODAY = 20
EXAMINED = Examination(
    examination_id="x", case_id="c1", athlete_id="a1", on=day(TODAY), walking=Gait.CLEAN
)


def stopped(*facts, protocol=CALF):
    return " ".join(stop_reasons(situation_of(history(*facts), protocol, day(TODAY))))


def told(*facts, protocol=CALF):
    return " ".join(decide(history(*facts), protocol, day(TODAY)).cautions)


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ([morning(20, 4)], "Symptom 4: 4 or more."),
        ([morning(20, 1, Feeling.SHARP)], "sharp"),
        ([morning(19, 0), session(19), morning(20, 2)], "from 0 to 2"),
        ([session(20, SessionKind.REHAB, symptom=Symptom(4))], "Symptom 4 today"),
        ([raises(20, symptom=Symptom(7))], "Symptom 7 today"),
    ],
)
def test_a_bad_morning_or_a_high_symptom_of_today_stops_with_its_numbers(facts, said):
    assert said in stopped(moved(10, 3), *facts)
    decision = decide(history(moved(10, 3), *passing(3, 20), *facts), CALF, day(TODAY))
    assert decision.proposal is Proposal.STOP_AND_REVIEW
    calm_since = [*passing(3, 20), *facts, session(21, SessionKind.REHAB, limp=False)]
    next_day = decide(history(moved(10, 3), *calm_since), CALF, day(21))
    assert next_day.proposal is not Proposal.STOP_AND_REVIEW


def test_one_point_less_does_not_stop():
    calm = [morning(19, 1), session(19), morning(20, 2), raises(20, symptom=Symptom(1))]
    assert stopped(moved(10, 3), *calm) == ""
    assert stopped(raises(20, symptom=Symptom(3)), looked(20, symptom=None)) == ""


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ([four(20)], "Stopped on day 20"),
        ([four(20), session(20)], "Stopped on day 20"),
        ([four(18)], "Stopped on day 18"),
        ([four(18), session(18)], "Stopped on day 18"),
        ([four(18), session(19, symptom=None)], "Stopped on day 18"),
        ([four(18), session(19)], ""),
        ([four(18), morning(19)], ""),
        ([four(18), EXAMINED], ""),
        # answers that raise a red flag: by the flag, and where it was not noted by themselves
        ([four(20, chest_or_breath=True)], "emergency medical care now"),
        ([four(20, swollen_or_warm=True), flag(20, flag_id="q20")], "Open red flag"),
        (
            [
                four(19, can_push_off=False),
                flag(
                    19,
                    flag_id="q19",
                    what=answered(four(19, can_push_off=False)).what,
                    closed_on=day(20),
                    closed_by="s2",
                ),
            ],
            "Stopped on day 19",
        ),
        ([four(19, can_push_off=False), flag(12, closed_on=day(13), closed_by="s2")], "doctor"),
    ],
)
def test_four_answers_stop_until_the_leg_was_felt_or_examined_on_a_later_day(facts, said):
    assert said in stopped(*facts)
    assert bool(stopped(*facts)) is bool(said)


SHARP_LIMP = session(19, symptom=Symptom(9, Feeling.SHARP), limp=True)
LIMPED = [moved(10, 3), session(19, limp=True)]


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ([SHARP_LIMP], "Day 19: A sharp symptom, whatever the number. Symptom 9: 4 or more."),
        ([raises(18, symptom=Symptom(4))], "Day 18: Symptom 4: 4 or more."),
        ([morning(18, 5), session(19, symptom=Symptom(6))], "Day 19: Symptom 6"),
        ([morning(19, 1, Feeling.SHARP)], "Day 19: A sharp symptom"),
        ([morning(19), session(19, symptom=Symptom(4))], "Day 19: Symptom 4"),
        ([SHARP_LIMP, session(20, symptom=None)], "Day 19"),
        (LIMPED, "Day 19: A limp."),
        ([session(19, limp=True), moved(20, 3)], ""),
        ([session(19, symptom=Symptom(3)), looked(19, symptom=None)], ""),
        ([SHARP_LIMP, EXAMINED], ""),
        ([SHARP_LIMP, replace(EXAMINED, on=day(19))], "Day 19"),
        ([SHARP_LIMP, raises(20)], ""),
        # a morning at rest says nothing about a leg that was stopped under load
        ([SHARP_LIMP, morning(20)], "Day 19"),
        ([morning(19, 5), morning(20)], ""),
        ([*LIMPED, morning(20, 1)], "Day 19: A limp."),
        ([*LIMPED, session(20, limp=None)], "Day 19: A limp."),
        ([*LIMPED, session(20, limp=False)], ""),
        ([*LIMPED, looked(20)], ""),
        ([SHARP_LIMP, moved(5, 3), moved(19, 1), session(20, limp=None)], "A limp."),
        # too little lifts nothing: nothing looked at, found unable, the other leg only
        ([SHARP_LIMP, replace(EXAMINED, walking=None)], "Day 19"),
        ([SHARP_LIMP, replace(EXAMINED, walking=Gait.UNABLE)], "Day 19"),
        ([SHARP_LIMP, replace(EXAMINED, resisted_bent=Resisted.UNABLE)], "Day 19"),
        ([*LIMPED, replace(EXAMINED, walking=Gait.LIMPS)], "Day 19"),
        ([SHARP_LIMP, to_wall(20, left=None, right=120)], "Day 19"),
        ([*LIMPED, morning(20, 3)], "The symptom rose from 0 to 3 by the morning"),
        # calm under a painkiller is not calm, nor is a morning that rose
        ([SHARP_LIMP, replace(morning(20), painkiller=True)], "Day 19"),
        ([SHARP_LIMP, raises(20, painkiller=True)], "Day 19"),
        ([SHARP_LIMP, session(20, painkiller=True)], "Day 19"),
        ([morning(19, 5), morning(20), replace(morning(20, nth=2), painkiller=True)], ""),
        ([four(18), replace(morning(19), painkiller=True)], "Stopped on day 18"),
        ([morning(17), four(18), session(18), morning(19, 2)], "Stopped on day 18"),
    ],
)
def test_too_much_stands_until_a_later_day_was_calm_without_a_painkiller(facts, said):
    assert said in stopped(*facts)
    assert bool(stopped(*facts)) is bool(said)


symptoms = st.builds(Symptom, st.sampled_from([0, 1, 2, 3, 4, 7]), st.sampled_from(Feeling))
entries = st.one_of(
    st.builds(session, st.integers(16, TODAY), symptom=symptoms, limp=st.booleans()),
    st.builds(raises, st.integers(16, TODAY), symptom=symptoms),
    st.builds(
        lambda on, felt: morning(on, felt.score, felt.feeling),
        st.integers(16, TODAY),
        symptoms,
    ),
    st.builds(four, st.integers(16, TODAY)),
)
courses = st.lists(entries, min_size=1, max_size=7)


@given(facts=courses, data=st.data())
def test_a_painkiller_never_lifts_a_stop(facts, data):
    index = data.draw(st.integers(0, len(facts) - 1))
    if not hasattr(facts[index], "painkiller"):
        return
    masked = [*facts]
    masked[index] = replace(facts[index], painkiller=True)
    assert bool(stopped(*masked)) >= bool(stopped(*facts))


@given(facts=courses, data=st.data())
def test_a_worse_last_symptom_never_lifts_a_stop(facts, data):
    last = max(fact.on for fact in facts)
    felt = [i for i, f in enumerate(facts) if hasattr(f, "painkiller") and f.on == last]
    if not felt:
        return
    index = data.draw(st.sampled_from(felt))
    symptom = facts[index].symptom
    worse = [*facts]
    feeling = data.draw(st.sampled_from([symptom.feeling, Feeling.SHARP]))
    score = symptom.score + data.draw(st.integers(0, 3))
    worse[index] = replace(facts[index], symptom=Symptom(score, feeling))
    assert bool(stopped(*worse)) >= bool(stopped(*facts))


def test_an_open_flag_speaks_for_the_answers_that_raised_it():
    raised = flag(20, urgency=Urgency.EMERGENCY, flag_id="q20")
    found = stopped(four(20, chest_or_breath=True), raised)
    assert found == "Open red flag: seek emergency medical care now."


def test_without_a_protocol_a_limp_stops():
    limped = session(20, SessionKind.REHAB, limp=True)
    assert "A limp." in stopped(limped, protocol=None)
    assert stopped(limped) == ""


def test_a_missed_session_is_no_session():
    gone = SessionMissed(
        session_id="e20", case_id="c1", athlete_id="a1", on=day(20), reason=Missed.SYMPTOM
    )
    tested = [one for one in passing(5, 20) if not isinstance(one, SessionEntry)]
    missing = decide(history(moved(10, 5), *tested, gone), CALF, day(TODAY)).missing
    assert [m.criterion.key for m in missing] == ["session_with_limits", "full_sessions"]
    assert stopped(gone) == ""
    assert history(gone).last_entry is None


LADDERS = (
    Ladder(
        key="raise",
        name="Single-leg raise",
        stage=2,
        levels=(
            Level(name="on two legs", sets=3, dose="10"),
            Level(name="on the floor", sets=3, dose="12"),
        ),
        symptom=3,
        source="common practice",
    ),
)
WITH_LADDERS = replace(CALF, ladders=LADDERS)


def test_a_move_up_of_today_is_called_provisional_by_name_and_day():
    said = told(moved(18, 2), level(18, 2), protocol=WITH_LADDERS)
    assert "Strength, opened on day 18, is provisional until the next morning" in said
    assert "Single-leg raise, level 2 (on the floor), opened on day 18, is provisional" in said
    settled = told(moved(18, 2), level(18, 2), morning(19), protocol=WITH_LADDERS)
    assert "provisional" not in settled


def test_a_ladder_or_level_the_protocol_does_not_have_is_named_all_the_same():
    assert "hop, level 2" in told(level(18, 2, "hop"), protocol=WITH_LADDERS)
    assert "Single-leg raise, level 9, opened" in told(level(18, 9), protocol=WITH_LADDERS)


def test_a_bad_first_morning_says_that_the_move_can_be_taken_back():
    said = told(moved(18, 2), morning(19, 5))
    assert "The leg answered Strength, opened on day 18, badly" in said
    assert "provisional" not in said
    assert "taking it back" not in told(moved(18, 2), morning(19, 1))


def test_what_the_protocol_allows_in_training_stops_nothing_and_a_point_more_does():
    tendon = load_protocols()["achilles_tendinopathy"]
    assert stopped(session(20, SessionKind.REHAB, symptom=Symptom(5)), protocol=tendon) == ""
    above = session(20, SessionKind.REHAB, symptom=Symptom(6))
    assert "Symptom 6 today, 6 or more" in stopped(above, protocol=tendon)
    # a tendon that wakes with what is allowed is not stopped every day, one that rose is
    steady = [morning(18, 4), session(18, symptom=Symptom(5)), morning(20, 4)]
    assert stopped(*steady, protocol=tendon) == ""
    risen = [morning(18, 2), session(18, symptom=Symptom(5)), morning(20, 4)]
    assert "rose from 2 to 4" in stopped(*risen, protocol=tendon)
