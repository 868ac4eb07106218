"""The morning after: what is compared with what, and which moves up it settles.

The 24-hour rule is common practice; a similar rule for tendons: Am J Sports Med 2007;35:897,
doi 10.1177/0363546506298279.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.measures import Feeling, Missed, SessionMissed, Symptom
from teamrehab.domain.mornings import (
    morning_of,
    morning_rise,
    morning_troubles,
    provisional,
    turned_out_badly,
)
from tests.builders import day, history
from tests.domain.evenings import level, morning, moved, raises, session

TODAY = day(20)


def missed(on):
    return SessionMissed(
        session_id=f"e{on}", case_id="c1", athlete_id="a1", on=day(on), reason=Missed.ILL
    )


def masked(fact):
    return replace(fact, painkiller=True)


@pytest.mark.parametrize(
    ("facts", "rise"),
    [
        ([morning(19, 1), session(19), morning(20, 3)], (1, 3)),
        # the morning after the session was bad, so is the next: both against the one before
        ([morning(18, 1), session(18), morning(19, 4), morning(20, 3)], (1, 3)),
        ([morning(18, 1), session(18), morning(19, 3), session(19), morning(20, 3)], (1, 3)),
        ([morning(19, 1), morning(19, 2, nth=2), session(19), morning(20, 4)], (2, 4)),
        ([morning(19, 1), session(19), morning(20, 4), morning(20, 1, nth=2)], (1, 4)),
        ([session(17, symptom=None), morning(19, 1), morning(20, 2)], (1, 2)),
        ([morning(19, 1), morning(20, 2)], (1, 2)),
        ([morning(19, 1), session(19), morning(20, 3), session(20)], (1, 3)),
        ([morning(18, 0), session(18), morning(19, 2), missed(19), morning(20, 2)], (0, 2)),
        # no morning was ever noted: held against the worst of the last day felt
        ([session(18, symptom=Symptom(3)), session(19), morning(20, 3)], (0, 3)),
        ([session(19), raises(19, symptom=Symptom(2)), morning(20, 3)], (2, 3)),
        ([session(19, symptom=None), morning(20, 3)], None),
        ([morning(19, 3), session(19)], None),
    ],
)
def test_a_morning_is_held_against_the_last_one_before_the_latest_session(facts, rise):
    assert morning_rise(history(*facts), TODAY) == rise


@pytest.mark.parametrize(
    ("facts", "rise"),
    [
        ([session(19), morning(20, 3)], (0, 3)),
        ([session(19, symptom=Symptom(2)), morning(20, 3)], (2, 3)),
        ([session(19), raises(19, symptom=Symptom(1)), morning(20, 3)], (1, 3)),
        ([session(18, symptom=Symptom(4)), session(19), morning(20, 3)], (0, 3)),
        # a morning of its own before that session is still what it is held against
        ([morning(19, 2), session(19), morning(20, 3)], (2, 3)),
        # no session, or one of which no symptom was noted: the last day with one
        ([raises(18, symptom=Symptom(1)), session(19, symptom=None), morning(20, 3)], (1, 3)),
        ([raises(19), morning(20, 3)], (0, 3)),
        ([raises(20), morning(20, 3)], None),
        # the mornings after it are not: a leg that gets worse step by step is seen
        ([session(17), morning(19, 1), morning(20, 2)], (0, 2)),
    ],
)
def test_without_a_morning_before_the_latest_session_what_was_felt_that_day_is_compared(
    facts, rise
):
    assert morning_rise(history(*facts), TODAY) == rise


def test_a_first_morning_of_3_after_an_evening_of_0_stops_the_day():
    (why,) = morning_troubles(history(session(19), morning(20, 3)), TODAY)
    assert why == "The symptom rose from 0 to 3 by the morning."
    assert not morning_troubles(history(session(19), morning(20, 1)), TODAY)


def test_of_two_responses_of_a_morning_the_worst_counts_and_sharp_is_the_worst():
    both = history(morning(20, 3), morning(20, 1, Feeling.SHARP, nth=2))
    found = morning_of(both, TODAY)
    assert found is not None
    assert found.symptom.feeling is Feeling.SHARP
    assert morning_of(both, day(19)) is None


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ([morning(20, 3)], []),
        ([morning(20, 4)], ["Symptom 4"]),
        ([morning(20, 0, Feeling.SHARP)], ["sharp"]),
        ([morning(20, 1, Feeling.SHARP), morning(20, 5, nth=2)], ["sharp", "Symptom 5"]),
        ([morning(19, 1), session(19), morning(20, 3)], ["from 1 to 3"]),
        ([morning(19, 1), session(19), morning(20, 2)], []),
    ],
)
def test_a_bad_morning_says_why_with_its_numbers(facts, said):
    found = morning_troubles(history(*facts), TODAY)
    assert len(found) == len(said)
    assert all(words in sentence for words, sentence in zip(said, found, strict=True))


@pytest.mark.parametrize(
    ("later", "waits"),
    [
        ([], True),
        ([morning(18)], True),
        ([session(18)], True),
        ([missed(19)], True),
        ([session(19, symptom=None)], True),
        ([morning(21)], True),
        # what was calm in training judges nothing, nor does calm under a painkiller
        ([session(19)], True),
        ([raises(20)], True),
        ([masked(morning(19))], True),
        ([masked(morning(19)), morning(20)], False),
        ([masked(morning(19)), morning(19, nth=2)], False),
        ([morning(19)], False),
        ([morning(19, 8)], False),
        ([masked(morning(19, 8))], False),
        ([session(19, symptom=Symptom(7))], False),
        ([raises(20, symptom=Symptom(0, Feeling.SHARP))], False),
    ],
)
def test_a_move_up_waits_until_the_next_morning_is_in_or_training_was_too_much(later, waits):
    up = [moved(18, 2), level(18, 3)]
    assert provisional(history(*up, *later), TODAY) == (tuple(up) if waits else ())


def test_of_moves_up_on_one_path_the_newest_waits():
    up = [moved(10, 2), moved(18, 3), level(10, 2), level(12, 2)]
    assert provisional(history(*up), TODAY) == (moved(18, 3),)
    assert turned_out_badly(history(*up, HARD), TODAY) == (moved(18, 3),)


def test_only_moves_up_that_still_stand_are_provisional():
    assert provisional(history(moved(10, 3), moved(20, 2)), TODAY) == ()
    assert provisional(history(level(20, 3), level(20, 2)), TODAY) == (level(20, 2),)
    assert provisional(history(level(10, 3), level(20, 2, "hop")), TODAY) == (
        level(10, 3),
        level(20, 2, "hop"),
    )
    assert provisional(history(level(20, 1)), TODAY) == ()
    assert provisional(history(moved(21, 2)), TODAY) == ()


HARD = session(19, symptom=Symptom(7, Feeling.SHARP))
BAD = [morning(18, 1), level(18, 2), session(18), morning(19, 3)]


@pytest.mark.parametrize(
    ("facts", "offered"),
    [
        (BAD, True),
        ([level(18, 2), morning(19, 4)], True),
        ([level(18, 2), morning(19, 1, Feeling.SHARP)], True),
        ([level(18, 2), morning(19, 3)], False),
        ([level(18, 2), morning(19, 1), morning(20, 5)], False),
        # taken back, or decided to stay
        ([*BAD, level(19, 1)], False),
        ([*BAD, level(19, 2)], False),
        ([*BAD, level(19, 2, "hop")], True),
        # a quiet morning settles it only once the same was done again
        ([*BAD, morning(20, 1)], True),
        ([*BAD, session(19), morning(20, 1)], False),
        ([*BAD, session(19), morning(20, 3)], True),
        ([*BAD, session(19), morning(20, 5)], True),
        # under a painkiller neither the session nor the morning shows that it was fine
        ([*BAD, session(19), masked(morning(20, 1))], True),
        ([*BAD, masked(session(19)), morning(20, 1)], True),
        # too much in training before any morning was in
        ([level(18, 2), HARD], True),
        ([level(18, 2), masked(morning(19)), masked(HARD)], True),
        ([level(18, 2), morning(19), HARD], False),
        ([level(18, 2), HARD, morning(20)], True),
        ([level(17, 2), replace(HARD, on=day(18)), session(19), morning(20)], False),
    ],
)
def test_a_move_up_is_offered_back_after_a_bad_first_answer(facts, offered):
    assert (level(18, 2) in turned_out_badly(history(*facts), TODAY)) is offered


@given(
    mornings=st.lists(st.tuples(st.integers(10, 20), st.integers(0, 10)), max_size=6),
    sessions=st.sets(st.integers(10, 20), max_size=5),
    shuffle=st.randoms(use_true_random=False),
)
def test_a_worse_morning_never_looks_better_and_the_order_of_facts_is_nothing(
    mornings, sessions, shuffle
):
    facts = [morning(on, score, nth=i) for i, (on, score) in enumerate(mornings)]
    facts += [session(on) for on in sorted(sessions)] + [level(12, 2), moved(14, 2)]
    before = history(*facts)
    mixed = list(before.facts)
    shuffle.shuffle(mixed)
    assert provisional(replace(before, facts=tuple(mixed)), TODAY) == provisional(before, TODAY)
    worse = history(*(_worse(f) if f.on == TODAY else f for f in facts))
    assert len(morning_troubles(worse, TODAY)) >= len(morning_troubles(before, TODAY))
    assert not set(provisional(before, TODAY)) & set(turned_out_badly(before, TODAY))


@given(
    mornings=st.lists(st.tuples(st.integers(17, 20), st.integers(0, 5)), max_size=5),
    sessions=st.lists(st.tuples(st.integers(17, 20), st.integers(0, 5)), max_size=5),
    data=st.data(),
)
def test_a_painkiller_never_settles_a_move_as_good(mornings, sessions, data):
    facts = [morning(on, score, nth=i) for i, (on, score) in enumerate(mornings)]
    facts += [session(on, symptom=Symptom(score)) for on, score in sessions]
    if not facts:
        return
    index = data.draw(st.integers(0, len(facts) - 1))
    under = [masked(fact) if i == index else fact for i, fact in enumerate(facts)]
    before, after = (history(*some, level(17, 2)) for some in (facts, under))
    assert _settled_well(before) >= _settled_well(after)


def _settled_well(history):
    return not provisional(history, TODAY) and not turned_out_badly(history, TODAY)


def _worse(fact):
    if not hasattr(fact, "response_id"):
        return fact
    return replace(fact, symptom=Symptom(fact.symptom.score + 1))


def test_what_a_protocol_allows_is_no_bad_answer_to_a_move():
    facts = [level(18, 2), session(19, symptom=Symptom(5))]
    assert turned_out_badly(history(*facts), day(20))
    assert not turned_out_badly(history(*facts), day(20), high=6)
