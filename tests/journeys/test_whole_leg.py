"""A leg that is whole from the first day: how long the second calf version takes at the least.

Without a tear on the image athletes were back after 5.6 days on average, 9 in 10 within 12:
Br J Sports Med 2020;54:421. The program may ask for more, for no ladder that nothing needs.
"""

import pytest

from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.measures import HopTest
from tests import builders
from tests.journeys.leg import Leg
from tests.journeys.story import Story
from tests.records import books

pytestmark = pytest.mark.slow


def test_a_whole_leg_is_back_in_the_team_within_20_days_and_no_ladder_delays_it(tmp_path):
    with books.new_book(tmp_path / "club", builders.clock()) as book:
        book.note(builders.athlete())
        s = Story(book, leg=Leg(mended=1, heights=(100, 100)))
        s.day(1).examined().until_ready(within=40)
        known = s.known
    opened = {moved.stage: moved.on for moved in known.of(StageMoved)}
    assert (opened[5] - s.onset).days < 20  # two days of these without a session
    assert s.today < 27
    hop = {m.level: m.on for m in known.of(LevelMoved) if m.ladder == "hop"}
    assert hop[4] < opened[5]
    running = [m for m in known.of(LevelMoved) if opened[4] <= m.on < opened[5]]
    assert {"raise_straight", "raise_bent"} & {m.ladder for m in running if m.on > hop[4]}
    assert min(test.on for test in known.of(HopTest)) > hop[2]
