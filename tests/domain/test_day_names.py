"""Days in sentences of the rules are named as everywhere else: never by numbers alone."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from teamrehab.domain.day_names import day_and_year, day_words
from teamrehab.domain.stops import named
from tests.builders import case, history


@pytest.mark.parametrize(
    ("day", "words"),
    [(date(2026, 10, 20), "Tue 20 Oct"), (date(2024, 2, 29), "Thu 29 Feb")],
)
def test_a_day_is_its_weekday_and_its_month_in_letters(day, words):
    """Weekdays of a printed calendar: 29 February 2024 was a Thursday."""
    assert day_words(day) == words
    assert day_and_year(day) == f"{words} {day.year}"


def test_another_case_is_told_apart_by_a_day_with_its_year():
    begun = date(2026, 10, 20)
    other = history(of=replace(case(), on=begun, area="ankle"))
    earlier = history(of=replace(case(), on=begun - timedelta(days=364), area="ankle"))
    assert named(other) == "ankle, left, since Tue 20 Oct 2026"
    assert named(earlier) == "ankle, left, since Tue 21 Oct 2025"
