"""The lines of an evening: who stands where, and what the cells say."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from teamrehab.domain.athletes import Team
from teamrehab.domain.availability import Absence, AbsenceReason, Match, Training
from teamrehab.domain.evenings import is_late
from teamrehab.domain.examination import Examination
from teamrehab.domain.history import Squad, Standing
from teamrehab.domain.injuries import (
    Clearance,
    LevelMoved,
    Nature,
    ProtocolChosen,
    RedFlag,
    Scope,
    Urgency,
)
from teamrehab.domain.measures import Done, Feeling, Missed, SessionMissed, Symptom
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.evening import evening_lines
from teamrehab.reports.wording_evening import late_words, missed_words, symptom_words
from tests.builders import athlete, case, day, history, stated
from tests.domain import evenings

TONIGHT = day(10)
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
CALF = ProtocolChosen(**IDS, on=day(0), protocol="calf_strain", version="1")


def squad(*cases, **changes):
    values: dict[str, Any] = {
        "day": TONIGHT,
        "team": Team(name="Harbour Rovers"),
        "athletes": tuple(h.athlete for h in cases),
        "open_cases": cases,
    }
    return Squad(**(values | changes))


def lines(*cases, on=TONIGHT, **changes):
    now = datetime(2026, 10, 15, 21, 40)  # noqa: DTZ001  the club's wall time
    found = squad(*cases, **changes)
    return evening_lines(found, load_protocols(), injury_catalogue(), on, now)


def line(*values, of=None, **changes):
    (found,) = lines(history(*values, of=of), **changes)
    return found


def person(n, surname, *, number=None, **changes):
    """Return the open case of one athlete of many, with nothing in it."""
    who = athlete(athlete_id=f"a{n}", surname=surname, number=number)
    return history(of=case(case_id=f"c{n}", athlete_id=f"a{n}", **changes), by=who)


def missed(on, reason=Missed.NOT_SEEN, **changes):
    values = {"session_id": f"x{on}", "on": day(on), "reason": reason} | IDS
    return SessionMissed(**(values | changes))


def away(n, reason=AbsenceReason.PERSONAL):
    return Absence(absence_id=f"w{n}", athlete_id=f"a{n}", on=TONIGHT, reason=reason)


def test_lines_stand_by_number_then_surname_and_who_is_not_expected_stands_last():
    unseen = replace(
        person(3, "Abara", number=1),
        facts=history(missed(9, case_id="c3", athlete_id="a3")).facts,
    )
    found = lines(
        person(1, "Zubiri"),
        person(2, "Éloi"),
        unseen,
        person(4, "Menon", number=10),
        person(5, "Ngata", number=9),
        person(6, "Vermeer", number=2),
        absences=(away(5), away(6, AbsenceReason.SUSPENDED)),
    )
    order = ["Vermeer", "Menon", "Éloi", "Zubiri", "Abara", "Ngata"]
    assert [one.surname for one in found] == order
    assert [one.away for one in found] == [False] * 5 + [True]
    assert [one.unseen for one in found] == [False] * 4 + [True, False]


def test_who_is_stopped_keeps_the_place_though_nobody_saw_them_last_time():
    flag = RedFlag(
        flag_id="r1",
        case_id="c3",
        athlete_id="a3",
        on=day(9),
        what="calf warm",
        urgency=Urgency.SAME_DAY,
    )
    stopped = replace(
        person(3, "Abara", number=1),
        facts=history(missed(9, case_id="c3", athlete_id="a3"), flag).facts,
    )
    found = lines(person(1, "Zubiri", number=4), stopped)
    assert [(one.surname, one.away) for one in found] == [("Abara", False), ("Zubiri", False)]


def test_an_ill_athlete_who_is_to_rest_has_no_plan_and_an_injured_one_without_protocol_has():
    for nature, stopped in ((Nature.ILLNESS, "Training: none is stated."), (Nature.INJURY, "")):
        of = case(nature=nature)
        (line,) = lines(history(stated(of), of=of))
        assert line.stopped == stopped
    resting = case(nature=Nature.ILLNESS)
    (line,) = lines(history(stated(resting, training=Training.FULL), of=resting))
    assert line.stopped == ""


def test_what_is_noted_tonight_moves_no_line():
    before = [person(1, "Okafor", number=8), person(2, "Menon", number=9)]
    unseen = replace(before[0], facts=history(missed(10)).facts)
    assert [o.case_id for o in lines(*before)] == [o.case_id for o in lines(unseen, before[1])]
    (noted,) = lines(unseen)[0].noted
    assert noted.value == missed(10)


def test_surnames_easily_confused_are_marked_and_an_athletes_own_second_case_is_not():
    found = lines(
        person(1, "Lindqvist"), person(2, "Lindquist"), person(3, "Okafor"),
        history(of=case(case_id="c4", athlete_id="a3"), by=athlete(athlete_id="a3")),
    )  # fmt: skip
    assert {o.surname: o.alike for o in found} == {
        "Lindqvist": True,
        "Lindquist": True,
        "Okafor": False,
    }


def test_cases_of_later_and_cases_cleared_for_matches_are_not_there():
    signed = Clearance(**IDS, on=day(8), scope=Scope.MATCH, signed_by="s1")
    training = replace(signed, scope=Scope.TEAM_TRAINING)
    assert not lines(history(signed))
    assert lines(history(training))
    assert not lines(history(of=case(on=day(11))))


def test_the_plan_is_that_of_the_protocol_and_of_the_levels_decided_before_tonight():
    raised = LevelMoved(**IDS, on=day(8), ladder="raise_straight", level=2, proposed=2)
    later = replace(raised, on=day(10), level=3, proposed=3)
    found = line(CALF, evenings.moved(5, 2), raised, evenings.session(10), later)
    assert "Straight-knee raise, one leg on the floor 3 x 15" in found.plan_words
    assert found.plan_words.endswith("; 45 min")
    assert (found.stage, found.phase) == ("Strength", 2)


def test_a_dose_keeps_its_count_its_unit_and_what_bounds_it():
    found = line(CALF, evenings.moved(5, 3), evenings.level(6, 1, "hop"))
    assert "Hop, both legs on the spot 3 x up to 60 s;" in found.plan_words


def test_illness_and_injury_without_a_protocol_have_a_line_and_no_invented_plan():
    for nature in Nature:
        found = line(of=case(nature=nature))
        assert found.plan_words == "no protocol: as agreed"
        assert (found.stage, found.phase, found.plan.exercises) == ("", None, ())


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (evenings.session(7, symptom=Symptom(1), effort=4, done=Done.AS_PLANNED),
         "Mon: as planned, 1, RPE 4"),
        (evenings.session(2, symptom=Symptom(2, Feeling.TIGHTNESS), limp=True),
         "Wed 7 Oct: 2 tightness, limp"),
        (evenings.session(9, symptom=None), "Wed: done"),
        (missed(9, Missed.ILL), "Wed: not done: ill"),
        (missed(9), "Wed: not seen"),
        (evenings.session(10), ""),
        (evenings.session(11), ""),
    ],
)  # fmt: skip
def test_last_time_is_the_newest_evening_before_tonight(value, words):
    assert line(value).last_words == words


def test_the_morning_is_compared_with_the_one_before_the_last_session():
    calm, worse = evenings.morning(7, 0), evenings.morning(9, 2)
    session = evenings.session(8)
    assert line(calm, session, worse).morning_words == "next morning 2 (+2)"
    today = evenings.morning(10, 1)
    assert line(calm, session, worse, today).morning_words == "this morning 1 (+1)"
    assert line(calm, evenings.session(7), worse).morning_words == "Wed morning 2 (+2)"
    assert line(calm, session).morning_words == ""
    assert line(calm, session, evenings.morning(11, 5)).morning_words == ""


def test_tests_of_the_next_gate_are_due_until_done_and_again_when_old():
    moved = (CALF, evenings.moved(1, 3))
    assert line(*moved, evenings.asked(8)).due == ("heel raises", "hops", "what must be seen")
    fresh = evenings.passing(3, 8)
    assert line(*moved, *fresh, evenings.asked(8)).due == ()
    assert "heel raises" in line(*moved, *evenings.passing(3, 2)).due


def test_an_examination_is_due_from_its_day_on_until_one_stands():
    soon = case(reassess_on=datetime(2026, 10, 15, 9))  # noqa: DTZ001
    found = Examination(examination_id="x", **IDS, on=day(10))
    assert line(of=soon).due == ("examination",)
    assert line(found, of=soon).due == ()
    assert line(of=replace(soon, reassess_on=datetime(2026, 10, 16, 9))).due == ()  # noqa: DTZ001


def test_a_promised_word_and_the_review_of_an_illness_are_due_until_something_is_stated():
    noon = datetime(2026, 10, 15, 12)  # noqa: DTZ001
    said = stated(case(), 3, match=Match.UNDECIDED, next_update=noon)
    assert line(said).due == ("a word on availability",)
    assert line(said, stated(case(), 10)).due == ()
    ill = case(nature=Nature.ILLNESS, reassess_on=noon)
    assert line(of=ill).due == ("a word on availability",)
    assert line(stated(ill, 10), of=ill).due == ()


def test_a_stopped_athlete_has_no_plan_to_load_and_no_test_to_do():
    found = line(CALF, evenings.moved(5, 3), evenings.flag(9))
    assert found.stopped == (
        "Open red flag: seek medical review today, before any further rehab."
    )
    assert found.plan_words == "no loading: review first"
    assert not {"heel raises", "hops", "what must be seen"} & set(found.due)
    assert line(CALF).stopped == ""


def test_a_bad_morning_stops_a_case_without_protocol_too():
    found = line(evenings.morning(9, 0), evenings.session(9), evenings.morning(10, 4))
    assert "This morning" in found.stopped


def test_full_availability_in_the_last_stage_plans_the_team_session():
    free = stated(case(), 6, training=Training.FULL)
    found = line(CALF, evenings.moved(5, 5), free)
    assert found.plan_words.startswith("full team session; ")


@pytest.mark.parametrize(
    ("hours", "late", "words"),
    [
        (4, False, ""),
        (7.9, False, ""),
        (8.1, True, "entered the morning after"),
        (34, True, "entered on Sat 17 Oct"),
    ],
)
def test_an_evening_entered_after_the_day_has_turned_is_late(hours, late, words):
    noted = datetime(2026, 10, 15, 18, tzinfo=UTC) + timedelta(hours=hours)
    fact = Standing(fact_id="f", value=missed(10), author="s1", noted_at=noted)
    assert is_late(fact, "Europe/Rome") is late
    assert late_words(fact, "Europe/Rome") == words


def test_every_reason_and_every_feeling_has_words_of_its_own():
    assert len({missed_words(missed(9, reason, text="bus")) for reason in Missed}) == len(
        Missed
    )
    assert len({symptom_words(Symptom(2, feeling)) for feeling in Feeling}) == len(Feeling)
    assert symptom_words(None) == ""
    assert [symptom_words(Symptom(n, Feeling.PAIN)) for n in (0, 2)] == ["0", "2 pain"]
