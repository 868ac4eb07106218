"""How soon an injury comes again, and until when the return is watched."""

from datetime import timedelta

import pytest

from teamrehab.domain.recurrence import Again, how_soon, watch_caution
from tests.builders import day
from tests.domain.evenings import CALF

RETURN = day(30)


@pytest.mark.parametrize(
    ("days", "again"),
    # early within 2 months, late within 12, delayed later: Br J Sports Med 2006;40:193,
    # doi 10.1136/bjsm.2005.025270 (from memory)
    [
        (0, Again.EARLY),
        (60, Again.EARLY),
        (61, Again.LATE),
        (365, Again.LATE),
        (366, Again.DELAYED),
    ],
)
def test_a_recurrence_is_early_until_day_60_and_late_until_a_year(days, again):
    assert how_soon(RETURN, RETURN + timedelta(days=days)) is again


@pytest.mark.parametrize(
    ("days", "watched"), [(-1, False), (0, True), (105, True), (106, False)]
)
def test_a_return_is_watched_for_15_weeks(days, watched):
    # the risk was raised for 15 weeks: Br J Sports Med 2020;54:1103,
    # doi 10.1136/bjsports-2019-100755
    said = watch_caution(RETURN, RETURN + timedelta(days=days), CALF.guidance.watch)
    assert bool(said) is watched
    assert watch_caution(RETURN, RETURN, None) == ""
