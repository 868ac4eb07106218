"""The four questions: when they are asked, and what the answers mean.

Features of a clot: Lancet 1997;350:1795, doi from memory 10.1016/S0140-6736(97)08140-3; a
ruptured tendon: J Athl Train 2014;49:820. The two urgencies are common practice.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.injuries import Urgency
from teamrehab.domain.measures import Feeling, Symptom
from teamrehab.domain.safety import answered, flag_of, why_asked
from tests.builders import day
from tests.domain.evenings import four


@pytest.mark.parametrize(
    ("symptom", "limp", "phase", "rise", "said"),
    [
        (None, None, 2, None, ""),
        (Symptom(3), False, 2, (1, 2), ""),
        (Symptom(4), False, 2, None, "Symptom 4: 4 or more."),
        (Symptom(0, Feeling.SHARP), None, 2, None, "sharp"),
        (Symptom(2), True, 2, None, "limp"),
        (Symptom(2), True, None, None, "limp"),
        (Symptom(2), True, 1, None, ""),
        (None, None, 3, (1, 3), "from 1 to 3"),
        (None, None, 3, (3, 1), ""),
    ],
)
def test_the_questions_are_asked_of_what_is_not_accepted_silently(
    symptom, limp, phase, rise, said
):
    found = why_asked(symptom, limp, phase, rise)
    assert len(found) == bool(said)
    assert said in " ".join(found)


def test_every_reason_is_named():
    assert len(why_asked(Symptom(6, Feeling.SHARP), True, 4, (0, 6))) == 4


@pytest.mark.parametrize(
    ("answers", "urgency", "named"),
    [
        ({}, None, []),
        ({"same_spot": False}, None, []),
        ({"swollen_or_warm": True}, Urgency.SAME_DAY, ["clot"]),
        ({"can_push_off": False}, Urgency.SAME_DAY, ["tendon rupture"]),
        ({"chest_or_breath": True}, Urgency.EMERGENCY, ["Chest"]),
        (
            {"swollen_or_warm": True, "can_push_off": False, "chest_or_breath": True},
            Urgency.EMERGENCY,
            ["Chest", "clot", "tendon rupture"],
        ),
    ],
)
def test_the_most_urgent_answer_counts_and_every_sign_is_named(answers, urgency, named):
    found = answered(four(5, **answers))
    assert found.urgency is urgency
    assert all(word in found.what for word in named)
    assert bool(found.what) is bool(named)


def test_what_is_to_be_done_differs_with_the_urgency_and_the_spot():
    assert "emergency" in answered(four(5, chest_or_breath=True)).sentence
    assert "doctor" in answered(four(5, swollen_or_warm=True)).sentence
    assert "Review before the next load" in answered(four(5)).sentence
    assert "Another spot" in answered(four(5, same_spot=False)).sentence


def test_a_flag_belongs_to_the_case_and_day_of_the_answers_and_is_open():
    check = four(5, can_push_off=False)
    flag = flag_of(check, "r7")
    assert flag is not None
    assert (flag.flag_id, flag.case_id, flag.athlete_id) == ("r7", "c1", "a1")
    assert (flag.on, flag.urgency, flag.open_on(day(5))) == (day(5), Urgency.SAME_DAY, True)
    assert flag_of(four(5), "r7") is None


WORRYING = {"swollen_or_warm": True, "can_push_off": False, "chest_or_breath": True}
RANK = [None, Urgency.SAME_DAY, Urgency.EMERGENCY]


@given(answers=st.builds(four, st.just(5), **dict.fromkeys(WORRYING, st.booleans())))
def test_one_more_worrying_answer_never_lowers_the_urgency(answers):
    before = answered(answers)
    for name, worrying in WORRYING.items():
        after = answered(replace(answers, **{name: worrying}))
        assert RANK.index(after.urgency) >= RANK.index(before.urgency)
        assert set(before.what.split("; ")) - {""} <= set(after.what.split("; "))
