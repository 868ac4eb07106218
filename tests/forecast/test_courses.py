"""How a case's facts become a course, and a course becomes visits."""

from datetime import date
from typing import Any

import pytest

from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Certainty,
    Clearance,
    Diagnosis,
    Outcome,
    Scope,
    StageMoved,
)
from teamrehab.forecast import Course, Status, course_of
from teamrehab.forecast.courses import End, visits
from tests.builders import ONSET, athlete, case, day, history
from tests.forecast.clubs import course, through

FIVE = (1, 2, 3, 4, 5)
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}


def moved(on: int, stage: int) -> StageMoved:
    return StageMoved(**IDS, on=day(on), stage=stage, proposed=stage)


def cleared(on: int, scope: Scope = Scope.MATCH) -> Clearance:
    return Clearance(**IDS, on=day(on), scope=scope, signed_by="s1")


def closed(on: int, outcome: Outcome) -> CaseClosed:
    return CaseClosed(**IDS, on=day(on), outcome=outcome)


def course_from(*facts, phases=FIVE, seen=40, **changes) -> Course:
    return course_of(history(*facts, **changes), phases, last_seen=day(seen))


def told(course: Course) -> list[tuple]:
    return [(v.phases, v.days, v.end) for v in visits(course)]


def test_a_course_holds_what_the_case_says():
    known = Diagnosis(
        **IDS, on=day(2), injury="calf_strain", muscle="soleus", grade=2,
        certainty=Certainty.CONFIRMED,
    )  # fmt: skip
    found = course_from(
        known, by=athlete(born=date(1996, 10, 6)), of=case(recurrence_of="earlier")
    )
    assert found == Course(
        **IDS, injury="calf_strain", muscle="soleus", grade=2, age=29, recurrence=True,
        injured_on=ONSET, until=40,
    )  # fmt: skip


def test_an_open_case_ends_with_the_day_it_was_last_seen():
    found = course_from(moved(4, 2), seen=10)
    assert (found.status, found.until) == (Status.OPEN, 10)
    assert told(found) == [((1,), 4, End.UP), ((2,), 6, End.OPEN)]


def test_clearance_for_matches_ends_the_course_and_lesser_ones_do_not():
    early = course_from(moved(4, 2), cleared(8, Scope.TEAM_TRAINING), seen=9)
    assert early.status is Status.OPEN
    found = course_from(*(moved(4 * i, i) for i in FIVE[1:]), cleared(30))
    assert (found.status, found.until) == (Status.CLEARED, 30)
    assert told(found)[-1] == ((5,), 10, End.UP)


def test_a_move_after_a_clearance_reopens_the_case():
    back = course_from(moved(5, 5), cleared(9), moved(12, 4), seen=15)
    assert (back.status, back.until) == (Status.OPEN, 15)
    again = course_from(moved(5, 5), cleared(9), moved(12, 4), cleared(20))
    assert (again.status, again.until) == (Status.CLEARED, 20)


@pytest.mark.parametrize(
    ("outcome", "status"),
    [
        (Outcome.LEFT_CLUB, Status.LEFT),
        (Outcome.OTHER, Status.LEFT),
        (Outcome.CLEARED, Status.CLEARED),
    ],
)
def test_a_closed_case_without_signature_ends_as_it_was_closed(outcome, status):
    found = course_from(moved(4, 2), closed(11, outcome))
    assert (found.status, found.until) == (status, 11)


def test_a_setback_is_a_lower_stage_later_and_the_way_up_is_walked_again():
    found = course_from(moved(3, 2), moved(9, 3), moved(12, 2), moved(15, 3), seen=20)
    assert [v.end for v in visits(found)] == [End.UP, End.UP, End.BACK, End.UP, End.OPEN]
    assert [v.redo for v in visits(found)] == [(False,), (False,), (False,), (True,), (True,)]


def test_missing_entries_make_one_visit_over_several_phases():
    found = course_from(moved(12, 4), seen=14)
    assert told(found) == [((1, 2, 3), 12, End.UP), ((4,), 2, End.OPEN)]


def test_stages_of_one_phase_are_one_stay():
    found = course_from(moved(3, 2), moved(6, 3), moved(9, 4), phases=(1, 2, 2, 4), seen=9)
    assert found.entries == ((0, 1), (3, 2), (9, 4))


def test_a_move_taken_back_the_same_day_never_happened():
    assert course_from(moved(4, 2), moved(8, 3), moved(8, 2)).entries == ((0, 1), (4, 2))
    up = course_from(moved(4, 2), moved(8, 1), moved(8, 2))
    assert up.entries == ((0, 1), (4, 2))
    assert course_from(moved(4, 2), moved(4, 3)).entries == ((0, 1), (4, 2), (4, 3))


def test_a_move_dated_before_the_onset_counts_from_the_onset():
    found = history(moved(-2, 2), of=Case(**IDS, on=ONSET))
    assert course_of(found, FIVE, last_seen=ONSET).entries == ((0, 1), (0, 2))


def test_without_protocol_only_the_whole_time_is_known():
    open_case = course_from(moved(3, 2), phases=())
    assert not open_case.staged
    assert told(open_case) == [(FIVE, 40, End.OPEN)]
    done = course_from(cleared(21), phases=())
    assert told(done) == [(FIVE, 21, End.UP)]


def test_a_course_cleared_on_the_day_of_injury_lasted_no_day():
    assert told(course(status=Status.CLEARED)) == [(FIVE, 0, End.UP)]
    assert [v.days for v in visits(through(0, 0, 0, 0, 0))] == [0, 0, 0, 0, 0]
