"""Written cases from the facts to the signature: those whose course is the athlete's own.

The numbers are invented; what each case shows is what a physio would have to defend.
"""

import pytest

from teamrehab.domain.decision import Verdict
from teamrehab.domain.examination import (
    Activity,
    Character,
    Examination,
    Gait,
    OnsetKind,
    Resisted,
)
from teamrehab.domain.injuries import StageMoved
from teamrehab.domain.intake import weigh
from teamrehab.domain.measures import HeelRaiseTest, Raises, Symptom
from tests import builders
from tests.journeys.leg import Leg
from tests.journeys.story import Story
from tests.journeys.telling import per_stage, tells
from tests.records import books

pytestmark = pytest.mark.slow


@pytest.fixture
def book(tmp_path):
    with books.new_book(tmp_path / "club", builders.clock()) as casebook:
        casebook.note(builders.athlete())
        yield casebook


def test_a_fast_healer_takes_every_stage_and_is_warned_of_running_before_day_5(book):
    s = Story(book, leg=Leg(mended=3, heights=(100, 100)))
    s.day(1).examined(muscle="gastrocnemius", grade=0, character=Character.SHARP)
    s.until(3)
    assert s.today < 5
    assert any("before day 5" in said for said in s.decision.cautions)
    s.until_ready()
    opened = [moved.stage for moved in s.known.of(StageMoved)]
    assert opened == [2, 3, 4, 5]
    tells(s, "fast healer", range(14, 28))


def test_a_soleus_runner_is_pointed_to_and_weighs_the_whole_distance_at_the_end(book):
    s = Story(book, leg=Leg(mended=30))
    s.day(2).examined(
        muscle="soleus",
        onset=OnsetKind.GRADUAL,
        character=Character.DIFFUSE,
        activity=Activity.LONG_RUN,
        resisted_bent=Resisted.WEAK,
    )
    (found,) = s.known.of(Examination)
    first, *_others = weigh(found, s.protocol.intake)
    assert (first.muscle, first.weight) == ("soleus", 5)
    s.until(5)
    assert any("whole running distance" in said for said in s.decision.cautions)
    assert not any("top speed" in said for said in s.decision.cautions)
    s.until_ready()
    tells(s, "soleus runner", range(35, 65))


def test_a_severe_strain_starts_without_weight_and_takes_it_on_as_it_is_tolerated(book):
    s = Story(book, leg=Leg(mended=45, start=0.05))
    s.day(2)
    s.examined(
        muscle="soleus",
        grade=3,
        walking=Gait.UNABLE,
        stairs=Gait.UNABLE,
        resisted_straight=Resisted.UNABLE,
        beside=(s.four(can_push_off=False),),
    )
    (flag,) = s.known.open_red_flags
    assert "rupture" in flag.what
    assert s.steps.plan is None
    s.doctor_closes()
    assert s.result("walks").verdict is Verdict.NOT_MET
    for on in (3, 4):
        s.day(on).ordinary(symptom=Symptom(3), limp=True)
    assert s.day(5).planned() == ["before_weight"]
    s.ordinary(symptom=Symptom(1))
    assert "holds" in s.day(6).planned()
    s.ordinary(symptom=Symptom(1))
    s.day(7).ordinary(symptom=Symptom(1))
    assert "raise_straight" in s.day(8).planned()
    assert s.stage == 1
    s.until_ready()
    assert per_stage(s)["Settle"] > 14
    tells(s, "severe, no weight at first", range(50, 90))


def test_a_recurrence_is_held_against_the_own_healthy_value_of_before(book):
    healthy = HeelRaiseTest(
        test_id="healthy",
        case_id="",
        athlete_id="a1",
        on=builders.day(-60),
        left=Raises(36),
        right=Raises(35),
    )
    book.note(healthy)
    s = Story(book, recurrence_of="an earlier case", leg=Leg(mended=28, best=36))
    s.day(2).examined(muscle="soleus").until(3)
    s.days(4)
    short = s.result("raises_target")
    assert short.verdict is Verdict.NOT_MET
    assert "90 % of the own healthy 36" in short.evidence[1].measure
    assert (short.evidence[0].value or 0) < 33 == short.evidence[1].value
    s.until(4)
    assert s.leg.raises(s.today) >= 33
    s.until_ready()
    tells(s, "recurrence", range(35, 65))
