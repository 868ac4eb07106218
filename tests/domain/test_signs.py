"""When the red flags of a protocol are asked for, and what a yes raises."""

import pytest

from teamrehab.domain.deciding import decide, situation_of
from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.injuries import Urgency
from teamrehab.domain.measures import SessionKind, Symptom
from teamrehab.domain.signs import flag_of_signs, signs_due
from teamrehab.protocols import load_protocols
from tests.builders import day, history
from tests.domain.evenings import CALF, asked, four, looked, morning, session

SIGNS = CALF.guidance.signs
EXAMINED = Examination(
    examination_id="x", case_id="c1", athlete_id="a1", on=day(12), walking=Gait.CLEAN
)


def due(on, *facts, protocol=CALF):
    return " ".join(signs_due(situation_of(history(*facts), protocol, day(on)), protocol))


@pytest.mark.parametrize(
    ("on", "facts", "said"),
    [
        (2, [], "not asked for in this case yet"),
        (2, [asked(2)], ""),
        (12, [asked(2)], ""),
        (12, [asked(2), EXAMINED], "a review in the first three weeks"),
        (12, [asked(2), looked(12)], "a review"),
        (12, [asked(12), looked(12)], ""),
        (14, [asked(2), looked(12)], "a review"),
        (30, [asked(20), looked(29)], ""),
        (30, [asked(20), morning(28, 0), session(28), morning(29, 2)], "rose by 2"),
        (
            30,
            [asked(20), session(28, symptom=Symptom(0)), session(30, symptom=Symptom(2))],
            "rose by 2",
        ),
        (30, [asked(20), four(25, swollen_or_warm=True)], "swelling or warmth"),
        (30, [asked(25), four(25, swollen_or_warm=True)], ""),
    ],
)
def test_red_flags_are_asked_for_at_intake_at_reviews_and_when_something_changed(
    on, facts, said
):
    found = due(on, *facts)
    assert said in found
    assert bool(found) is bool(said)


def test_a_decision_says_that_they_are_to_be_asked_for():
    told = decide(history(), CALF, day(3)).cautions
    assert any(caution.startswith("Ask for the red flags today") for caution in told)
    assert not any(
        "Ask for the red flags" in caution
        for caution in decide(history(asked(3)), CALF, day(3)).cautions
    )


def raised(asked_for, signs=SIGNS):
    flag = flag_of_signs(asked_for, signs, "r")
    assert flag is not None
    return flag


def test_what_was_seen_raises_one_flag_as_urgent_as_the_worst_of_it():
    answers = asked(14, "clot", "chest")
    flag = raised(answers)
    assert flag.urgency is Urgency.EMERGENCY
    assert "clot is possible" in flag.what
    assert "Chest pain" in flag.what
    assert flag.on == day(14)
    same_day = raised(asked(14, "clot"))
    assert same_day.urgency is Urgency.SAME_DAY
    assert flag_of_signs(asked(14), SIGNS, "r") is None


@pytest.mark.parametrize("key", sorted(load_protocols()))
def test_each_sign_of_a_shipped_protocol_raises_a_flag_of_its_own_urgency(key):
    signs = load_protocols()[key].guidance.signs
    for sign in signs:
        flag = raised(asked(3, sign.key), signs)
        assert (flag.what, flag.urgency) == (sign.sentence, sign.urgency)


def test_a_session_alone_is_no_review():
    assert due(6, asked(2), session(5, SessionKind.REHAB)) == ""
