"""Written cases from the facts to the signature: those in which something goes wrong."""

from dataclasses import replace

import pytest

from teamrehab.domain.availability import Training
from teamrehab.domain.decision import Proposal, Verdict
from teamrehab.domain.injuries import Outcome, StageMoved, Urgency
from teamrehab.domain.measures import Done, Feeling, HeelRaiseTest, Raises, RunTest, Symptom
from teamrehab.reports.next_steps import Lift
from teamrehab.tasks import cases
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
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


def test_a_symptom_flare_takes_the_athlete_out_until_the_leg_was_calm_twice(book):
    s = Story(book, leg=Leg(mended=14))
    s.day(2).examined(muscle="gastrocnemius").until(5).days(4)
    assert s.row.training == Training.FULL
    flare = s.day(s.today + 1).morning().today
    with pytest.raises(RefusedError, match="four questions"):
        s.session(symptom=Symptom(5))
    s.session(s.four(), symptom=Symptom(5), done=Done.PARTLY).evening()
    assert s.decision.proposal is Proposal.STOP_AND_REVIEW
    assert any("Symptom 5" in said for said in s.decision.cautions)
    (stop,) = s.said
    assert stop.stopped
    assert stop.coach_after.startswith("Not training")
    s.day(flare + 1)
    assert any(f"Stopped on day {flare}" in said for said in s.stops)
    assert s.row.training == Training.NONE
    s.morning(1).looked_at().session(symptom=Symptom(1)).evening()
    assert any("repeat it once more" in said for said in s.decision.held)
    assert not s.ups() & {flare, flare + 1}
    s.until_ready()
    assert s.result("full_sessions").evidence[0].value in (3, 6)
    tells(s, "symptom flare", range(30, 60))


def test_a_setback_in_running_goes_back_a_stage_and_climbs_again(book):
    s = Story(book, leg=Leg(mended=18))
    s.day(2).examined(muscle="soleus").until(4)
    s.days(3).day(s.today + 1).morning()
    tore = s.today
    sharp = Symptom(6, Feeling.SHARP)
    s.session(s.four(), symptom=sharp, limp=True, done=Done.PARTLY).evening()
    with pytest.raises(RefusedError, match="stopped"):
        s.moves(5, "seen on the field")
    s.moves(2, "a setback")
    s.leg = replace(s.leg, mended=tore + 20)
    s.day(tore + 2).looked_at().ordinary()
    assert s.stage == 2
    assert "hop" not in s.planned()
    s.until_ready(within=150)
    assert [m.stage for m in s.known.of(StageMoved)] == [2, 3, 4, 2, 3, 4, 5]
    tells(s, "setback", range(40, 90))


def test_the_good_leg_losing_strength_makes_no_symmetry(book):
    healthy = HeelRaiseTest(
        test_id="healthy",
        case_id="",
        athlete_id="a1",
        on=builders.day(-40),
        left=Raises(34),
        right=Raises(34),
    )
    book.note(healthy)
    weak = Leg(mended=12, best=24)
    s = Story(book, leg=weak)
    s.day(2).examined(muscle="soleus").until(3)
    s.days(12)
    assert s.stage == 3
    target = s.result("raises_target")
    assert target.verdict is Verdict.NOT_MET
    assert [e.value for e in target.evidence] == [24, 31, 24, 31]
    s.leg = Leg(mended=12, best=34)
    s.until_ready()
    tells(s, "good leg detrained", range(35, 70))


def test_equal_counts_with_less_height_are_not_symmetric(book):
    s = Story(book, leg=Leg(mended=16, heights=(80, 100)))
    s.day(2).examined(muscle="gastrocnemius").until(3)
    s.days(12)
    assert s.stage == 3
    bent = s.result("bent_within_10")
    assert bent.verdict is Verdict.NOT_MET
    assert bent.evidence[0].value == 0
    assert "work of the legs differs by 20 %" in bent.remark
    s.leg = replace(s.leg, heights=(98, 100))
    s.until_ready()
    tells(s, "equal counts, unequal height", range(35, 70))


def test_tests_that_nobody_did_open_nothing_and_are_named(book):
    s = Story(book, leg=Leg(mended=12))
    s.day(2).examined(muscle="gastrocnemius").until(3)
    since = s.today
    for on in range(since + 1, since + 15):
        s.day(on).ordinary(tests=False)
    assert s.stage == 3
    verdicts = {r.criterion.key: r.verdict for r in s.decision.missing}
    assert verdicts["hops_20"] is Verdict.NEVER_TESTED
    assert {"loaded_bent", "brisk_walk"} <= set(verdicts)
    s.until_ready()
    tells(s, "missing tests", range(35, 70))


def test_a_painkiller_day_opens_no_gate(book):
    s = Story(book, leg=Leg(mended=12))
    s.day(2).examined(muscle="gastrocnemius").until(2)
    s.day(s.today + 1).morning()
    while s.leg.raises(s.today) < 15:
        s.day(s.today + 1).morning()
    tests = s.leg.tests(s.decision.missing, s.known, s.today)
    s.session(*tests, painkiller=True).evening()
    assert s.stage == 2
    assert s.today not in s.ups()
    assert all("painkiller" in result.remark for result in s.decision.missing)
    s.until(3)
    assert s.date > tests[0].on
    s.until_ready()
    tells(s, "painkiller day", range(28, 60))


def test_an_override_keeps_who_and_why_and_what_is_still_open(book):
    s = Story(book, leg=Leg(mended=20))
    s.day(2).examined(muscle="soleus").until(2)
    s.day(s.today + 1).morning().session()
    with pytest.raises(ImplausibleError, match="against the proposal"):
        s.moves(3)
    s.moves(5, "a final in ten days")
    said = " ".join(s.decision.cautions)
    assert "against the proposal" in said
    assert "a final in ten days" in said
    assert "15 single-leg raises, knee straight" in said
    (kept,) = s.steps.overrides
    assert (kept.number, kept.author, kept.why) == (5, book.me.staff_id, "a final in ten days")
    s.until_ready()
    assert (s.level("hop"), len({run.on for run in s.known.of(RunTest)}) >= 3) == (4, True)
    tells(s, "override", range(20, 60))


def test_a_clot_suspected_by_the_list_of_red_flags_stops_as_well(book):
    s = Story(book, leg=Leg(mended=24))
    s.day(2).examined(muscle="soleus").days(11)
    s.day(14).morning(0).asked("clot").evening()
    (flag,) = s.known.open_red_flags
    assert flag.urgency is Urgency.SAME_DAY
    nothing_goes_on(s)


def test_a_suspected_clot_on_day_14_stops_everything_until_a_doctor_closed_it(book):
    s = Story(book, leg=Leg(mended=24))
    s.day(2).examined(muscle="soleus").days(11)
    before = s.stage
    s.day(14).morning(1).session(
        s.four(swollen_or_warm=True), symptom=Symptom(5), done=Done.PARTLY
    ).evening()
    (flag,) = s.known.open_red_flags
    assert flag.urgency is Urgency.SAME_DAY
    assert "clot" in flag.what
    s.day(15).morning(0)
    assert s.row.training is Training.NONE
    nothing_goes_on(s)
    with pytest.raises(RefusedError, match="doctor"):
        cases.close_red_flag(book, flag, "  ")
    s.day(17).doctor_closes().looked_at().morning(0)
    assert s.stops == ()
    s.session().evening()
    assert any("repeat it once more" in said for said in s.decision.held)
    assert s.stage == before
    assert not s.ups() & {14, 15, 16, 17}
    s.until_ready()
    tells(s, "suspected clot on day 14", range(35, 70))


def nothing_goes_on(story):
    """Hold that no way leads on beside an open red flag."""
    assert story.decision.proposal is Proposal.STOP_AND_REVIEW
    assert story.steps.plan is None
    assert Lift.DOCTOR in story.steps.lifts
    book, level = story.book, story.level("raise_straight") + 1
    for act in (
        lambda: story.moves(story.stage + 1, "fine"),
        lambda: story.levels("raise_straight", level, "fine"),
        lambda: story.signs(why="feels fine"),
        lambda: cases.close_case(book, story.known, story.date, Outcome.OTHER, why="over"),
    ):
        with pytest.raises(RefusedError, match="red flag"):
            act()
