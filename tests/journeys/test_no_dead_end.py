"""Whatever the first weeks bring, ordinary days after them end with a signature.

The courses are drawn at random: symptoms, limps, painkillers, red flags, days nobody noted.
What is held on the way stands in ``evening_end``: nothing goes up beside a stop.
"""

from random import Random

import pytest

from teamrehab.domain.measures import Done, Feeling, Symptom
from teamrehab.tasks.refusals import RefusedError
from tests import builders
from tests.journeys.leg import Leg
from tests.journeys.story import Story
from tests.journeys.telling import tells
from tests.records import books

pytestmark = pytest.mark.slow

TROUBLED = 10


def draws(chance: Random) -> dict[str, object]:
    """Return a session of any kind: calm or not, whole or not, some of it not asked."""
    kind = chance.choice((*[Feeling.PAIN] * 5, Feeling.SHARP))
    felt = Symptom(chance.choice((0, 0, 1, 1, 2, 3, 4, 6)), kind)
    return {
        "symptom": chance.choice((felt, felt, felt, None)),
        "limp": chance.choice((False, False, False, None, True)),
        "painkiller": chance.choice((False, False, None, True)),
        "done": chance.choice((Done.AS_PLANNED, Done.AS_PLANNED, Done.PARTLY, Done.MORE)),
    }


def lives_a_troubled_day(story: Story, chance: Random) -> None:
    story.day(story.today + chance.choice((1, 1, 1, 2, 4)))
    if story.stops:
        if chance.random() < 0.6:
            story.doctor_closes().looked_at()
        return
    more, tested = draws(chance), chance.random() < 0.6
    missing = story.decision.missing if tested else ()
    tests = story.leg.tests(missing, story.known, story.today)
    swollen, pushes = chance.random() < 0.2, chance.random() < 0.9
    try:
        story.session(*tests, **more)
    except RefusedError:
        asked = story.four(swollen_or_warm=swollen, can_push_off=pushes)
        story.session(*tests, asked, **more)
    story.evening()


@pytest.mark.parametrize("seed", range(3))
def test_a_troubled_start_leads_to_a_signature_all_the_same(tmp_path, seed):
    chance = Random(seed)
    with books.new_book(tmp_path / "club", builders.clock()) as book:
        book.note(builders.athlete())
        s = Story(book, leg=Leg(mended=chance.choice((8, 20, 30))))
        s.day(2).examined()
        for _nth in range(TROUBLED):
            lives_a_troubled_day(s, chance)
        s.day(s.today + 1).doctor_closes().looked_at()
        s.until_ready(within=s.today + 90)
        tells(s, f"troubled start {seed}", range(28, 120))
