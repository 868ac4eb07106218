"""Which reasons for the four questions are unanswered: reasons are compared, not days."""

from dataclasses import replace

import pytest

from teamrehab.domain.measures import Feeling, HeelRaiseTest, Raises, Symptom
from teamrehab.domain.measures import MorningResponse as Morning
from teamrehab.domain.questions import questions_for
from tests.builders import day, history
from tests.tasks.evening_book import TONIGHT, answers, ids, missed, session

SHARP = Symptom(5, Feeling.SHARP)
TEST = HeelRaiseTest(test_id="t", **ids(), on=TONIGHT, left=Raises(20), symptom=SHARP)
MORNING = Morning(response_id="m", **ids(), on=TONIGHT, symptom=SHARP)
BEFORE = Morning(response_id="m0", **ids(), on=day(12), symptom=Symptom(0))


def asked(values, *noted, checks=()):
    return questions_for(history(*noted), None, values, TONIGHT, checks)


@pytest.mark.parametrize("value", [session(symptom=SHARP), TEST, MORNING])
def test_sessions_tests_and_mornings_ask_alike_and_answers_given_along_answer_all(value):
    assert len(asked([value])) == 2
    assert asked([value], checks=[answers()]) == ()
    assert len(asked([value], checks=[answers(on=day(13))])) == 2


@pytest.mark.parametrize("value", [session(symptom=SHARP, limp=True), TEST, MORNING])
def test_a_correction_asks_only_for_what_was_not_answered_with_the_entry(value):
    assert asked([value], value, answers()) == ()
    worse = replace(value, symptom=Symptom(7, Feeling.SHARP))
    assert asked([worse], value, answers()) == ("Symptom 7: 4 or more.",)


@pytest.mark.parametrize("value", [session(symptom=SHARP), TEST])
def test_answers_of_the_morning_let_no_sharp_symptom_of_the_evening_through(value):
    assert len(asked([value], MORNING, answers())) == 2


def test_answers_of_one_session_do_not_speak_for_the_next():
    assert len(asked([session(nth=2, symptom=SHARP)], session(symptom=SHARP), answers())) == 2


def test_a_rise_of_the_morning_is_answered_once_for_the_day_and_asked_for_if_it_was_not():
    rise = replace(MORNING, symptom=Symptom(2))
    said = ("The symptom rose from 0 to 2 by the morning.",)
    assert asked([rise], BEFORE) == said
    assert asked([session()], BEFORE, rise) == said
    assert asked([session()], BEFORE, rise, answers()) == ()
    assert asked([rise], BEFORE, session(symptom=SHARP), answers()) == said


def test_what_was_missed_or_is_of_another_day_asks_nothing():
    assert asked([missed(), session(on=day(13), symptom=SHARP)]) == ()
