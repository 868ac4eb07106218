"""Days, ranges, availability and chances in words."""

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.availability import Activity, Availability, Limit, Match
from teamrehab.domain.days import Fixture
from teamrehab.reports.wording import (
    assessed_words,
    chance_words,
    day_and_year,
    days_words,
    expected_words,
    fixture_words,
    match_day_words,
    match_sentence,
    range_words,
    tenths,
)
from teamrehab.reports.wording_limits import limits_words, may, may_not

SATURDAY = Fixture(fixture_id="m1", on=date(2026, 12, 19), opponent="Harbour United")


def test_a_date_names_its_weekday_and_its_month_in_letters():
    assert day_and_year(date(2026, 12, 14)) == "Mon 14 Dec 2026"


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [
        (date(2026, 12, 14), date(2026, 12, 23), "14–23 Dec (8 in 10)"),
        (date(2026, 11, 28), date(2026, 12, 3), "28 Nov to 3 Dec (8 in 10)"),
        (date(2026, 12, 28), date(2027, 1, 3), "28 Dec to 3 Jan 2027 (8 in 10)"),
        (date(2026, 12, 14), date(2026, 12, 14), "14 Dec (8 in 10)"),
        (date(2026, 12, 14), None, "Mon 14 Dec or later (9 in 10)"),
        (None, None, ""),
    ],
)
def test_a_range_says_its_days_and_how_sure_it_is(first, last, words):
    assert range_words(first, last) == words


@given(st.dates(date(2020, 1, 1), date(2040, 1, 1)), st.integers(0, 400))
def test_two_different_ranges_of_a_season_are_never_said_alike(first, length):
    last = date.fromordinal(first.toordinal() + length)
    longer = date.fromordinal(last.toordinal() + 1)
    assert days_words(first, last) != days_words(first, longer)


@pytest.mark.parametrize(
    ("day", "words"),
    [(17, "MD-2"), (19, "MD"), (20, "MD+1"), (11, "")],
)
def test_a_day_carries_its_distance_to_the_match(day, words):
    assert match_day_words(date(2026, 12, day), [SATURDAY]) == words


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "not expected, under 1 in 10"),
        (0.0999, "not expected, under 1 in 10"),
        (0.1, "unlikely, 1 in 10"),
        (0.1499, "unlikely, 1 in 10"),
        (0.3499, "unlikely, 3 in 10"),
        (0.35, "doubtful, 4 in 10"),
        (0.6499, "doubtful, 6 in 10"),
        (0.65, "likely, 7 in 10"),
        (0.7499, "likely, 7 in 10"),
        (0.75, "likely, 8 in 10"),
        (0.85, "likely, 8 in 10"),
        (0.8999, "likely, 8 in 10"),
        (0.9, "expected, 9 in 10 or more"),
        (1.0, "expected, 9 in 10 or more"),
    ],
)
def test_a_chance_changes_its_word_at_these_boundaries(chance, words):
    assert chance_words(chance) == words


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_higher_chance_never_gets_fewer_tenths_and_nothing_is_certain(one, other):
    low, high = sorted((one, other))
    assert tenths(low) <= tenths(high) <= 9
    assert "0 in 10" not in chance_words(low).replace("10 in 10", "x")
    assert "10 in 10" not in chance_words(high)


def test_a_chance_just_below_a_boundary_by_rounding_noise_reads_as_the_boundary():
    assert chance_words(0.1 - 1e-12) == chance_words(0.1)
    assert chance_words(0.65 - 1e-12) == chance_words(0.65)
    assert chance_words(0.9 - 1e-12) == chance_words(0.9)


@pytest.mark.parametrize(
    ("chance", "words"), [(0.0, "ruled out, decided"), (1.0, "available, decided")]
)
def test_what_a_person_decided_is_said_without_a_number(chance, words):
    assert chance_words(chance, decided=True) == words


@pytest.mark.parametrize(
    ("expected", "words"),
    [
        (0.49, "3 possible (fewer than 1 expected)"),
        (0.5, "3 possible (about 1 expected)"),
        (2.5, "3 possible (about 3 expected)"),
    ],
)
def test_the_possible_come_with_their_expected_number(expected, words):
    assert expected_words(3, expected) == words


def test_where_nobody_is_possible_no_number_is_expected():
    assert expected_words(0, 0.0) == "none possible"


def test_a_match_says_hour_opponent_and_where_it_is_played():
    when = datetime(2026, 12, 19, 15)  # noqa: DTZ001
    away = Fixture(fixture_id="m", on=when.date(), opponent="A", kick_off=when, home=False)
    assert fixture_words(SATURDAY) == "Sat 19 Dec, Harbour United (home)"
    assert fixture_words(away) == "Sat 19 Dec, 15:00, A (away)"


def test_being_assessed_says_when_the_next_word_comes_and_never_why():
    wednesday = datetime(2026, 12, 16, 12)  # noqa: DTZ001
    assert assessed_words(wednesday) == "being assessed, next update Wed 12:00"


def test_a_limited_match_says_minutes_and_role():
    bench = Availability(match=Match.LIMITED, match_minutes=60, match_role="off the bench")
    assert match_sentence(bench) == "available up to 60 minutes, off the bench"


def test_an_open_decision_says_its_day_and_hour():
    friday = datetime(2026, 12, 18, 11)  # noqa: DTZ001
    open_ = Availability(match=Match.UNDECIDED, next_update=friday)
    assert match_sentence(open_) == "decision Fri 18 Dec, 11:00"


def test_limits_are_told_as_what_may_and_what_may_not_be_done():
    limits = (Limit(Activity.PACE, 80), Limit(Activity.CONTACT), Limit(Activity.MINUTES, 60))
    assert may(limits) == (
        "running up to 80 % of own speed",
        "changes of direction",
        "jumps",
        "strikes and throws",
        "gym work",
        "up to 60 minutes",
    )
    assert may_not(limits) == ("contact",)


@given(st.lists(st.builds(Limit, st.sampled_from(Activity), st.none() | st.integers(1, 100))))
def test_nothing_is_both_allowed_and_forbidden_and_the_strictest_cap_counts(limits):
    assert not set(may(limits)) & set(may_not(limits))
    assert limits_words(limits) == limits_words(list(reversed(limits)) + limits)
    forbidden = {limit.activity for limit in limits if limit.at_most is None}
    assert len(may_not(limits)) == len(forbidden)


def test_who_may_not_run_is_not_told_to_change_direction_or_sprint():
    allowed = may([Limit(Activity.PACE)])
    assert "sprints" not in allowed
    assert "changes of direction" not in allowed
