"""Days lost against the worked cases of the consensus.

Br J Sports Med 2020;54:372 (table 10), doi 10.1136/bjsports-2019-101969.
"""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.days_lost import DaysLost, DayZero, days_lost
from tests.builders import day

FULL = (Training.FULL, Match.AVAILABLE)
LIMITS = (Training.WITH_LIMITS, Match.NOT_AVAILABLE)
OUT = (Training.NONE, Match.NOT_AVAILABLE)
MONDAY = day(0)


def stated(on: date, answer: tuple[Training, Match]) -> AvailabilityStated:
    training, match = answer
    return AvailabilityStated(
        case_id="c1", athlete_id="a1", on=on, training=training, match=match
    )


def lost(onset: int, *said: tuple[int, tuple[Training, Match]], **more) -> int:
    statements = [stated(day(number), answer) for number, answer in said]
    return days_lost(day(onset), statements, day(60), **more).lost


def test_playing_again_the_same_day_loses_nothing():
    assert lost(0, (0, FULL)) == 0


def test_training_normally_the_next_day_loses_nothing():
    assert lost(0, (0, OUT), (1, FULL)) == 0


def test_monday_to_monday_loses_six_days():
    assert lost(0, (0, OUT), (7, FULL)) == 6


def test_days_count_while_the_team_does_not_train():
    # injured Saturday, unfit Sunday and Monday, fit Tuesday, the team trains on Thursday
    assert lost(5, (5, OUT), (8, FULL)) == 2


def test_delayed_absence_counts_four_from_onset_and_three_from_the_first_missed_day():
    # injured Sunday, trains Monday and Tuesday, unable on Wednesday, back the next Sunday:
    # printed as 3, because there the first missed day is day zero
    said = [(6, FULL), (9, OUT), (13, FULL)]
    assert lost(6, *said) == 4
    assert lost(6, *said, day_zero=DayZero.FIRST_MISSED) == 3
    eased = [(6, FULL), (9, OUT), (11, LIMITS), (13, FULL)]
    assert lost(6, *eased, day_zero=DayZero.FIRST_MISSED) == 3


def test_intermittent_absence_counts_every_missed_day():
    # reported Monday, trains Monday, Tuesday, Thursday, misses Wednesday and Friday
    said = [(0, FULL), (2, OUT), (3, FULL), (4, OUT), (5, FULL)]
    assert lost(0, *said) == 2
    assert lost(0, *said, day_zero=DayZero.FIRST_MISSED) == 1


def test_first_missed_day_makes_no_difference_where_onset_was_missed():
    said = [(0, OUT), (7, FULL)]
    assert lost(0, *said) == lost(0, *said, day_zero=DayZero.FIRST_MISSED) == 6


def test_days_with_limits_count_and_are_counted_apart():
    said = [stated(day(0), OUT), stated(day(4), LIMITS), stated(day(10), FULL)]
    assert days_lost(MONDAY, said, day(60)) == DaysLost(lost=9, with_limits=6)


def test_full_training_without_match_availability_is_still_lost():
    said = [stated(day(0), OUT), stated(day(2), (Training.FULL, Match.UNDECIDED))]
    assert days_lost(MONDAY, said, day(4)) == DaysLost(lost=4, with_limits=3)


def test_an_open_case_counts_up_to_today():
    assert days_lost(MONDAY, [stated(MONDAY, OUT)], day(5)).lost == 5


def test_a_case_nobody_spoke_of_counts_as_out():
    assert days_lost(MONDAY, [], day(3)) == DaysLost(lost=3, with_limits=0)


def test_a_closed_case_stops_counting_on_the_day_it_was_closed():
    assert days_lost(MONDAY, [stated(MONDAY, OUT)], day(60), until=day(4)).lost == 3


def test_of_two_versions_of_one_day_the_more_restrictive_counts():
    both = [stated(day(0), OUT), stated(day(3), FULL), stated(day(3), LIMITS)]
    assert days_lost(MONDAY, both, day(5)) == DaysLost(lost=5, with_limits=3)
    undecided = [stated(day(0), FULL), stated(day(0), (Training.FULL, Match.UNDECIDED))]
    assert days_lost(MONDAY, undecided, day(5)).lost == 5


@pytest.mark.parametrize("today", [day(-3), day(0)])
def test_nothing_is_lost_before_the_day_after_onset(today):
    assert days_lost(MONDAY, [stated(MONDAY, OUT)], today).lost == 0


answers = st.sampled_from([FULL, LIMITS, OUT])


@given(said=st.lists(st.tuples(st.integers(-2, 40), answers), max_size=8))
def test_days_lost_equal_a_count_day_by_day(said):
    def answer_on(number: int) -> tuple[Training, Match]:
        newest = max((n for n, _ in said if n <= number), default=None)
        together = [a for n, a in said if n == newest]
        return max(together, key=[FULL, LIMITS, OUT].index, default=OUT)

    expected = sum(answer_on(number) != FULL for number in range(1, 31))
    with_limits = sum(answer_on(number) == LIMITS for number in range(1, 31))
    counted = days_lost(MONDAY, [stated(day(n), a) for n, a in said], day(30))
    assert counted == DaysLost(lost=expected, with_limits=with_limits)
