"""Written cases from the facts to the signature: another version, another injury, once more."""

from datetime import timedelta

import pytest

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.decision import Proposal, Verdict
from teamrehab.domain.measures import Symptom
from teamrehab.protocols import load_protocols
from teamrehab.tasks import cases
from teamrehab.tasks.protocol_versions import move_to_version
from teamrehab.tasks.refusals import RefusedError
from tests import builders
from tests.journeys.leg import Leg
from tests.journeys.story import Story
from tests.journeys.telling import tells
from tests.records import books

pytestmark = pytest.mark.slow


@pytest.fixture
def book(tmp_path):
    with books.new_book(tmp_path / "club", builders.clock()) as casebook:
        casebook.note(builders.athlete())
        yield casebook


def test_a_case_stays_on_its_version_until_a_person_moves_it_and_goes_no_higher(book):
    s = Story(book, leg=Leg(mended=20))
    s.day(2).examined(muscle="gastrocnemius", version="1").until(4)
    assert s.protocol.version == "1"
    first = {result.criterion.key for result in s.decision.criteria}
    assert first == {"speed_90", "calm_to_train"}
    s.days(1)
    moves = (s.stage, s.level("hop"))
    with pytest.raises(RefusedError, match="Type why"):
        move_to_version(book, s.known, "2", " ", load_protocols())
    move_to_version(book, s.known, "2", "the club works by it now", load_protocols())
    assert s.protocol.version == "2"
    assert s.stage <= moves[0]
    assert s.level("hop") <= moves[1]
    assert {"hop_forward", "clean_runs_3"} <= {r.criterion.key for r in s.decision.missing}
    s.until_ready()
    assert s.protocol.version == "2"
    tells(s, "swap of version", range(25, 60))


def test_a_tendon_is_loaded_up_to_5_that_settles_while_the_athlete_is_available(book):
    s = Story(book, leg=Leg(mended=40, start=0.5, symptom=2))
    s.day(1).examined("achilles_tendinopathy")
    free = AvailabilityStated(**s.of_today(), training=Training.FULL, match=Match.AVAILABLE)
    cases.state_availability(book, s.known, free)
    s.day(2).ordinary(symptom=Symptom(5))
    assert s.stops == ()
    assert s.ups() == {2}
    assert (s.row.training, s.row.match, s.row.case_id) == (
        Training.FULL,
        Match.AVAILABLE,
        "c1",
    )
    s.day(3)
    with pytest.raises(RefusedError, match="rose from"):
        s.morning(3).morning(6)
    s.until(5, within=120)
    assert s.row.training is Training.FULL
    for on in range(s.today + 1, s.today + 9):
        s.day(on).ordinary(symptom=Symptom(4))
    calm = s.result("calm_to_close")
    assert (calm.verdict, calm.evidence[0].value) == (Verdict.NOT_MET, 4)
    s.until_ready()
    tells(s, "tendinopathy", range(30, 90))


def test_a_re_injury_within_weeks_is_a_case_of_its_own_beside_another_site(book):
    first = Story(book, leg=Leg(mended=8, heights=(100, 100)))
    first.day(1).examined(muscle="soleus").until_ready()
    tells(first, "first injury", range(20, 40))
    again = first.date + timedelta(days=18)
    s = Story(book, case_id="c2", onset=again, recurrence_of="c1", leg=Leg(mended=20))
    s.day(2).examined(muscle="soleus")
    assert (s.stage, s.level("hop"), s.ups()) == (1, 1, set())
    s.until(3)
    other = Story(book, case_id="c3", onset=s.date, leg=Leg(mended=6, start=0.5))
    assert s.row.training is Training.NONE
    other.day(1).examined("hamstring_strain")
    while other.decision.proposal is not Proposal.READY_FOR_SIGN_OFF:
        s.day(s.today + 1).ordinary()
        other.day(other.today + 1).ordinary()
    tells(other, "another site meanwhile", range(20, 60))
    assert s.known.closed is None
    assert s.row.match is Match.NOT_AVAILABLE
    s.until_ready()
    tells(s, "re-injury within weeks", range(35, 80))
