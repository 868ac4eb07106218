import csv
import shutil
from collections import Counter
from datetime import date, timedelta
from itertools import pairwise
from statistics import median

import pytest

from demo_roster.generate import files
from demo_roster.people import ANCHOR as GENERATED
from demo_roster.people import squad as people
from teamrehab.domain.athletes import Athlete, StaffMember, Team
from teamrehab.domain.availability import AvailabilityStated, Training
from teamrehab.domain.combining import availability_on
from teamrehab.domain.days import Exposure, Fixture, week_of
from teamrehab.domain.days_lost import days_lost
from teamrehab.domain.deciding import decide, situation_of
from teamrehab.domain.decision import Proposal
from teamrehab.domain.history import History
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Certainty,
    LevelMoved,
    Nature,
    ProtocolChosen,
    Scope,
    StageMoved,
)
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import HeelRaiseTest, HopTest, MorningResponse
from teamrehab.domain.plausibility import check
from teamrehab.domain.protocol import Protocol, followed
from teamrehab.domain.signs import signs_due
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.forecast import course_of, fit, published_figures
from teamrehab.locations import DEMO_ROSTER
from teamrehab.protocols import load_protocols
from teamrehab.records import (
    Casebook,
    CasebookOpenElsewhereError,
    create_casebook,
    is_protected,
)
from teamrehab.tasks.demo import demo_folder, facts_for, make_demo
from teamrehab.tasks.demo_files import ANCHOR
from teamrehab.tasks.refusals import RefusedError
from tests.builders import clock, history
from tests.records.books import CHEAP

PROTOCOLS = load_protocols()
WEEK = [ANCHOR + timedelta(days=days) for days in range(7)]


def protocol_of(case: History) -> Protocol:
    """Return the protocol a case of the demo follows: each follows one."""
    protocol = followed(case, PROTOCOLS).protocol
    assert protocol is not None
    return protocol


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """The demo on its anchor Monday, read once: (squad, every case, the casebook's facts)."""
    with make_demo(tmp_path_factory.mktemp("anchor") / "demo", clock(ANCHOR)) as casebook:
        ids = [past.case.case_id for past in casebook.past_cases()]
        cases = [case for athlete in people() for case in casebook.cases_of(athlete.athlete_id)]
        assert sorted(ids) == sorted(case.case.case_id for case in cases)
        facts = {
            kind: [fact.value for fact in casebook.all_of(kind)]
            for kind in (Exposure, Fixture, StaffMember)
        }
        return casebook.squad(ANCHOR), cases, facts


def closed(demo, nature=Nature.INJURY):
    return [c for c in demo[1] if c.closed is not None and c.case.nature is nature]


def open_(demo, nature=Nature.INJURY):
    return [c for c in demo[0].open_cases if c.case.nature is nature]


def absence(case):
    said = case.of(AvailabilityStated)
    return days_lost(case.case.on, said, ANCHOR, case.closed and case.closed.on).lost


# --- the files


def test_generating_again_gives_the_committed_bytes():
    assert GENERATED == ANCHOR
    for name, content in files().items():
        assert (DEMO_ROSTER / name).read_bytes() == content, name


def test_the_folder_says_that_everything_is_invented():
    assert "invented" in (DEMO_ROSTER / "README.txt").read_text(encoding="utf-8")


def test_every_table_names_only_athletes_and_cases_that_exist():
    known = {athlete.athlete_id for athlete in people()}
    with (DEMO_ROSTER / "cases.csv").open(encoding="utf-8", newline="") as file:
        cases = {row["case_id"]: row["athlete_id"] for row in csv.DictReader(file)}
    for path in DEMO_ROSTER.glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                assert row.get("athlete_id", "athlete-01") in known, path.name
                if row.get("case_id"):
                    assert cases[row["case_id"]] == row["athlete_id"], path.name


# --- the squad


def test_thirty_two_athletes_three_of_them_minors(demo):
    athletes = demo[0].athletes
    assert len(athletes) == 32
    assert sum(a.age_on(ANCHOR) < 18 for a in athletes) == 3


def test_names_are_of_many_scripts_one_very_long_and_two_alike(demo):
    names = [athlete.name for athlete in demo[0].athletes]
    assert max(map(len, names)) > 60
    assert any("\u0600" <= letter <= "\u06ff" for name in names for letter in name)
    assert {"Lindqvist", "Lindquist"} <= {a.surname for a in demo[0].athletes}
    for athlete in demo[0].athletes:
        latin = all(
            letter < "\u0370" or "\u1e00" <= letter < "\u2000" for letter in athlete.name
        )
        assert latin or athlete.printed_name.isascii()


def test_seven_injuries_and_two_illnesses_are_open(demo):
    assert len(open_(demo)) == 7
    assert len(open_(demo, Nature.ILLNESS)) == 2
    kinds = Counter(case.diagnosis.muscle or case.diagnosis.injury for case in open_(demo))
    assert kinds.keys() >= {
        "soleus",
        "gastrocnemius",
        "biceps_femoris",
        "ankle_sprain",
        "adductor_longus",
    }


def test_three_athletes_train_with_limits_and_six_do_not_train(demo):
    stands = Counter(
        availability_on(ANCHOR, demo[0].cases_of(a.athlete_id)).training
        for a in demo[0].athletes
    )
    assert stands[Training.WITH_LIMITS] == 3
    assert stands[Training.NONE] == 6


def test_one_open_case_is_a_recurrence_of_an_earlier_one_of_the_same_site_and_side(demo):
    (again,) = [case for case in open_(demo) if case.case.recurrence_of]
    (first,) = [c for c in demo[1] if c.case.case_id == again.case.recurrence_of]
    assert first.closed.on < again.case.on
    assert (first.athlete, first.case.side) == (again.athlete, again.case.side)
    assert first.diagnosis.muscle == again.diagnosis.muscle


def test_one_open_case_had_a_setback(demo):
    def setbacks(case):
        stages = [move.stage for move in case.of(StageMoved)]
        return sum(later < earlier for earlier, later in pairwise(stages))

    assert sum(setbacks(case) > 0 for case in open_(demo)) == 1


def test_one_open_case_is_ready_for_sign_off_and_one_is_two_days_old_and_suspected(demo):
    decisions = [
        decide(case, protocol_of(case), ANCHOR) for case in open_(demo) if case.protocol
    ]
    assert sum(d.proposal is Proposal.READY_FOR_SIGN_OFF for d in decisions) == 1
    (fresh,) = [c for c in open_(demo) if c.case.on == ANCHOR - timedelta(days=2)]
    assert fresh.diagnosis.certainty is Certainty.SUSPECTED
    assert fresh.case.reassess_on.date() > ANCHOR


# --- what stands behind it


def test_about_a_hundred_and_twenty_cases_are_closed(demo):
    assert 110 <= len(closed(demo)) + len(closed(demo, Nature.ILLNESS)) <= 130


def test_nobody_has_two_of_the_closed_cases_at_once(demo):
    for one in demo[1]:
        for other in demo[1]:
            if one is not other and one.athlete == other.athlete and one.closed:
                assert not one.case.on <= other.case.on < one.closed.on


def test_every_stage_was_opened_as_the_protocol_asks_or_says_why(demo):
    moves, unasked = 0, 0
    for case in demo[1]:
        told = case.of(StageMoved)
        for index, move in enumerate(told):
            before = without(case, set(told[index:]))
            found = decide(before, protocol_of(case), move.on)
            assert found.proposed_stage == move.proposed
            assert (move.stage == move.proposed) != bool(move.why)
            moves, unasked = moves + 1, unasked + bool(move.why)
    assert moves > 150
    assert unasked / moves < 0.1


def without(case, moves):
    from dataclasses import replace

    return replace(case, facts=tuple(f for f in case.facts if f.value not in moves))


def test_every_level_was_accepted_as_the_program_proposed_it_that_evening(demo):
    accepted = 0
    for case in demo[1]:
        told = case.of(LevelMoved)
        for index, move in enumerate(told):
            before = without(case, set(told[index:]))
            protocol = protocol_of(case)
            found = level_proposals(before, protocol, move.on)
            proposed = {each.ladder.key: each.proposed for each in found}
            assert proposed[move.ladder] == move.proposed == move.level
            accepted += 1
    assert accepted > 15


def test_open_calf_cases_have_levels_and_calm_mornings_and_nothing_stops_them(demo):
    calves = [c for c in open_(demo) if c.diagnosis.injury == "calf_strain"]
    assert len(calves) == 2
    for case in calves:
        assert len(case.of(LevelMoved)) >= 3
        mornings = case.of(MorningResponse)
        assert max(response.on for response in mornings) == ANCHOR
        felt: dict[date, int] = {}
        for session in case.sessions:
            felt[session.on] = max(felt.get(session.on, 0), session.symptom.score)
        for response in mornings:
            before = felt.get(response.on - timedelta(days=1))
            assert before is None or response.symptom.score <= before
        assert decide(case, load_protocols()["calf_strain"], ANCHOR).proposal is Proposal.STAY


def test_in_the_anchor_week_a_step_is_left_to_be_accepted():
    left = 0
    for today in WEEK[:5]:
        for case in histories(today):
            protocol = protocol_of(case)
            ups = level_proposals(case, protocol, today)
            left += any(each.proposed > each.level for each in ups)
    assert left >= 3


def histories(today):
    """Return the open cases that follow a protocol, from the facts of the demo."""
    facts = facts_for(ANCHOR, today, Team(name="Velmarsh Harriers"))
    athletes = {f.athlete_id: f for f in facts if isinstance(f, Athlete)}
    ended = {f.case_id for f in facts if isinstance(f, CaseClosed)}
    for case in (f for f in facts if isinstance(f, Case) and f.case_id not in ended):
        own = [f for f in facts if getattr(f, "case_id", "") == case.case_id]
        if any(isinstance(f, ProtocolChosen) for f in own):
            yield history(*own, of=case, by=athletes[case.athlete_id])


def test_the_red_flags_were_asked_for_whenever_they_were_due_and_none_was_seen():
    asked = 0
    for today in WEEK:
        for case in histories(today):
            protocol, told = protocol_of(case), case.of(SignsAsked)
            asked += len(told)
            assert not any(one.seen for one in told)
            keys = {sign.key for sign in protocol.guidance.signs}
            assert all(set(one.asked) == keys for one in told)
            seen = any(fact.value.on == today for fact in case.facts)
            due = signs_due(situation_of(case, protocol, today), protocol)
            assert not due or not seen
    assert asked


def test_the_fit_learns_from_the_demos_own_courses(demo):
    courses = [
        course_of(c, protocol_of(c).phases, last_seen=ANCHOR) for c in demo[1] if c.protocol
    ]
    model = fit(tuple(courses), published_figures())
    assert len(model.cleared) >= 35


def test_calf_cases_get_better_from_test_to_test(demo):
    for case in open_(demo):
        if case.protocol and case.protocol.protocol == "calf_strain":
            counts = [
                t.of(case.case.side).repetitions
                for t in case.of(HeelRaiseTest)
                if t.knee == "straight"
            ]
            hops = [t.of(case.case.side).hops for t in case.of(HopTest)]
            assert len(counts) >= 4
            assert len(hops) >= 2
            assert counts == sorted(counts)
            assert hops == sorted(hops)


def test_every_athlete_has_healthy_values_of_the_pre_season():
    with (DEMO_ROSTER / "tests.csv").open(encoding="utf-8", newline="") as file:
        healthy = Counter(r["athlete_id"] for r in csv.DictReader(file) if not r["case_id"])
    assert set(healthy.values()) == {2}
    assert len(healthy) == 32


def test_every_fact_of_the_demo_would_be_accepted_from_a_form(demo):
    for case in demo[1]:
        for fact in case.facts:
            assert check(fact.value, ANCHOR, case) == ()
    for kind in demo[2].values():
        for value in kind:
            assert check(value, ANCHOR) == ()


def test_every_closed_case_was_signed_for_matches_on_its_last_day(demo):
    for case in closed(demo) + closed(demo, Nature.ILLNESS):
        signed = [c for c in case.clearances if c.scope is Scope.MATCH]
        assert [c.on for c in signed] == [case.closed.on]
        assert availability_on(case.closed.on, [case]).training is Training.FULL


# --- against the published figures


def test_incidence_and_burden_lie_between_the_published_seasons(demo):
    # women's elite 6.7 injuries/1000 h: Br J Sports Med 2024;58:128,
    # doi 10.1136/bjsports-2023-107133; men's elite 7.7 and 130 days/1000 h:
    # Br J Sports Med 2013;47:738, doi 10.1136/bjsports-2013-092215; seven seasons 8.0:
    # Br J Sports Med 2011, doi 10.1136/bjsm.2009.060582
    hours = sum(e.minutes for e in demo[2][Exposure]) / 60
    injuries = closed(demo)
    assert 6.4 <= len(injuries) / hours * 1000 <= 8.0
    assert 100 <= sum(map(absence, injuries)) / hours * 1000 <= 145


def test_match_and_training_are_as_far_apart_as_published(demo):
    # rate ratio 3.8 (women's elite, as above) to 27.5/4.1 = 6.7 (men's, as above)
    in_matches = [c for c in closed(demo) if "in the match" in c.case.what]
    hours = [
        sum(e.minutes for e in demo[2][Exposure] if e.match is m) / 60 for m in (True, False)
    ]
    ratio = (len(in_matches) / hours[0]) / ((len(closed(demo)) - len(in_matches)) / hours[1])
    assert 3.0 <= ratio <= 6.7


def test_the_severity_split_is_near_the_published_one(demo):
    # up to 3, 7, 28 days and longer: 30.1/27.1/32.8/10.0 % and 36.2/28.1/24.7/11.1 %,
    # Br J Sports Med 2006;40:767, two seasons; ten points of slack for a hundred cases
    lost = [absence(case) for case in closed(demo)]
    limits = ((0, 3), (3, 7), (7, 28), (28, 999))
    share = [sum(low < days <= high for days in lost) / len(lost) * 100 for low, high in limits]
    published = ((30.1, 36.2), (27.1, 28.1), (24.7, 32.8), (10.0, 11.1))
    for found, (low, high) in zip(share, published, strict=True):
        assert low - 10 <= found <= high + 10


def test_one_in_nine_injuries_is_a_re_injury(demo):
    # 10 %: Br J Sports Med 2021;55:1084, doi 10.1136/bjsports-2020-103159;
    # 12 %: Br J Sports Med 2011, doi 10.1136/bjsm.2009.060582
    again = [case for case in closed(demo) if case.case.recurrence_of]
    assert 0.10 <= len(again) / len(closed(demo)) <= 0.12


@pytest.mark.parametrize(
    ("injury", "which", "low", "high"),
    [
        # J Sports Sci 2014;32:1229, doi 10.1080/02640414.2014.905695: medians 13, 12, 9
        ("hamstring_strain", "torn", 10, 17),
        ("quadriceps_strain", "torn", 9, 16),
        ("adductor_strain", "torn", 7, 13),
        # without a tear: Br J Sports Med 2020;54:421, doi 10.1136/bjsports-2019-100666: 5, 4, 4
        ("hamstring_strain", "not torn", 4, 6),
        ("quadriceps_strain", "not torn", 3, 5),
        ("calf_strain", "not torn", 3, 5),
        # log-normal medians of 25.4 (16.2) and 19.1 (14.1):
        # Scand J Med Sci Sports 2020;30:174, doi 10.1111/sms.13552
        ("calf_strain", "soleus", 17, 27),
        ("calf_strain", "gastrocnemius", 12, 20),
        # Br J Sports Med 2020;54:421, doi 10.1136/bjsports-2019-100666: 4 and 4
        ("contusion", "", 3, 6),
        ("low_back_pain", "", 3, 6),
        # doi 10.1136/bjsports-2021-105238: 11 (6-27.3), 10 (6-14)
        ("ankle_sprain", "", 8, 16),
        ("concussion", "", 7, 13),
    ],
)
def test_median_absence_by_injury_is_near_the_published_one(demo, injury, which, low, high):
    lost = [
        absence(case)
        for case in closed(demo)
        if case.diagnosis.injury == injury and which in _words(case.diagnosis)
    ]
    assert low <= median(lost) <= high


def _words(diagnosis):
    torn = "not torn" if diagnosis.grade == 0 else "torn"
    return {"", torn, diagnosis.muscle if torn == "torn" else ""}


def test_illness_lasts_a_median_of_three_days(demo):
    # professional football, median 3 days: Scand J Med Sci Sports 2016 (volume from memory)
    assert 2 <= median(map(absence, closed(demo, Nature.ILLNESS))) <= 4


# --- making it


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A closed demo of the anchor week, to be copied: making one takes a second."""
    folder = tmp_path_factory.mktemp("made") / "demo"
    make_demo(folder, clock(ANCHOR)).close()
    return folder


@pytest.fixture
def place(tmp_path, made):
    folder = tmp_path / "data" / "demo"
    shutil.copytree(made, folder)
    return folder


@pytest.mark.parametrize("today", [*WEEK, date(2027, 3, 17), date(2024, 2, 29)])
def test_on_every_weekday_the_demo_is_as_designed(today):
    facts = facts_for(week_of(today)[0], today, Team(name="Velmarsh Harriers"))
    athletes = [fact for fact in facts if isinstance(fact, Athlete)]
    assert sum((athlete.age_on(today) or 99) < 18 for athlete in athletes) == 3
    ended = {fact.case_id for fact in facts if isinstance(fact, CaseClosed)}
    running = [f for f in facts if isinstance(f, Case) and f.case_id not in ended]
    assert len(running) == 9
    assert 2 <= min((today - case.on).days for case in running) <= 8
    assert 30 <= max((today - case.on).days for case in running) <= 36
    coming = min(f.on for f in facts if isinstance(f, Fixture) and f.on >= today)
    assert (coming - today).days <= 6
    noted = [fact.on for fact in facts if not isinstance(fact, Athlete | Fixture)]
    assert today - timedelta(days=3) <= max(noted) <= today


@pytest.mark.parametrize("today", [*WEEK, date(2027, 3, 17)])
def test_of_every_case_that_does_not_train_the_coach_can_read_when_more_is_said(today):
    facts = facts_for(week_of(today)[0], today, Team(name="Velmarsh Harriers"))
    said = [fact for fact in facts if isinstance(fact, AvailabilityStated)]
    newest = {one.case_id: one for one in sorted(said, key=lambda one: one.on)}
    ended = {fact.case_id for fact in facts if isinstance(fact, CaseClosed)}
    out = [
        one
        for case_id, one in newest.items()
        if case_id not in ended and one.training is Training.NONE
    ]
    assert len(out) == 6
    silent = [o.case_id for o in out if o.next_update is None or o.next_update.date() <= today]
    assert silent == []


def test_the_demo_is_not_protected_and_says_so(place):
    with make_demo(place, clock()) as casebook:
        assert not casebook.protected
        assert casebook.me.name.startswith("Dr.")
        assert len(casebook.all_of(StaffMember)) == 3
    assert not is_protected(place)
    assert "invented" in (place / "demo.txt").read_text(encoding="utf-8")


def test_within_a_week_the_demo_is_opened_as_it_was_left(place):
    with make_demo(place, clock(WEEK[0])) as casebook:
        casebook.note(Athlete(athlete_id="new", surname="New", first_name=""))
    with make_demo(place, clock(WEEK[6])) as casebook:
        assert "new" in {fact.value.athlete_id for fact in casebook.all_of(Athlete)}


def test_in_another_week_the_demo_is_made_anew(place):
    with make_demo(place, clock(WEEK[0])) as casebook:
        casebook.note(Athlete(athlete_id="new", surname="New", first_name=""))
    with make_demo(place, clock(WEEK[0] + timedelta(days=7))) as casebook:
        assert len(casebook.all_of(Athlete)) == 32


def test_a_demo_that_was_not_finished_is_made_anew(place):
    (place / "demo.txt").unlink()
    (place / "casebook.db").write_bytes(b"half")
    with make_demo(place, clock()) as casebook:
        assert len(casebook.all_of(Athlete)) == 32


def test_an_open_demo_of_another_week_is_left_alone(place):
    with make_demo(place, clock(WEEK[0])), pytest.raises(CasebookOpenElsewhereError):
        make_demo(place, clock(WEEK[0] + timedelta(days=7)))
    assert (place / "casebook.db").exists()


def other_casebook(folder, **options) -> Casebook:
    return create_casebook(
        folder,
        team=Team(name="Mine"),
        founder=StaffMember(staff_id="s1", name="Ines Duarte"),
        clock=clock(),
        cost=CHEAP,
        **options,
    )


def test_nothing_but_an_own_demo_is_touched(place, made):
    def own_file():
        place.mkdir()
        (place / "notes.txt").write_text("mine", encoding="utf-8")

    def own_casebook():
        other_casebook(place, passphrase="secret").close()

    def other_demo():
        other_casebook(place, passphrase="", protected=False).close()

    def file_in_the_way():
        place.write_text("mine", encoding="utf-8")

    def file_in_a_demo():
        shutil.copytree(made, place)
        (place / "notes.txt").write_text("mine", encoding="utf-8")

    for lay in (own_file, own_casebook, other_demo, file_in_the_way, file_in_a_demo):
        shutil.rmtree(place) if place.is_dir() else place.unlink()
        lay()
        before = sorted((p, p.read_bytes()) for p in [place, *place.rglob("*")] if p.is_file())
        with pytest.raises(RefusedError, match="not touched"):
            make_demo(place, clock(WEEK[0] + timedelta(days=7)))
        after = sorted((p, p.read_bytes()) for p in [place, *place.rglob("*")] if p.is_file())
        assert before == after


def test_the_demo_lies_in_the_users_own_data_folder():
    assert demo_folder().name == "demo"
    assert "teamrehab" in demo_folder().parts
