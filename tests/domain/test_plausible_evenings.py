"""What is refused of an evening, a morning, an examination and the new tests."""

from dataclasses import replace
from typing import Any

import pytest

from teamrehab.domain.days import Exposure
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.examination import EarlierInjury, Examination, Gait
from teamrehab.domain.injuries import (
    CaseClosed,
    Clearance,
    LevelMoved,
    ReturnDecision,
    Scope,
    Side,
)
from teamrehab.domain.measures import ExerciseDone, Missed, SessionMissed, Symptom
from teamrehab.domain.plausibility import check, check_levels
from teamrehab.domain.protocol import Ladder, Level
from tests.builders import day, history
from tests.domain.evenings import CALF, four, jump, level, morning, moved, session, to_wall

TODAY = day(10)
OURS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1", "on": day(5)}
SIGNED = EveningSigned(on=day(9), signed_by="Kim Vale", entered=4, missed=1, open=0)


def missed(reason=Missed.ILL, text="", **more):
    return SessionMissed(
        **({**OURS, "session_id": "e1", "reason": reason, "text": text} | more)
    )


def changed(to, proposed, why="", **more):
    values = {**OURS, "ladder": "raise", "level": to, "proposed": proposed, "why": why}
    return LevelMoved(**(values | more))


def examined(**more):
    return Examination(**({**OURS, "examination_id": "x"} | more))


def earlier(**more):
    values: dict[str, Any] = {"earlier_id": "y", "athlete_id": "a1", "on": day(-400)}
    return EarlierInjury(**(values | {"side": Side.LEFT, "area": "knee"} | more))


def took_part(**more):
    values: dict[str, Any] = {"athlete_id": "a1", "on": day(9), "match": False, "minutes": 60}
    return Exposure(**(values | more))


def did(*exercises, on=5):
    return session(on, exercises=exercises)


IN_ORDER = [
    session(10, minutes=0, effort=10),
    did(ExerciseDone(exercise="raise", level=1, sets=20)),
    missed(),
    missed(Missed.OTHER, "The bus broke down."),
    morning(10, 10),
    morning(0),
    four(10),
    changed(2, 2),
    changed(3, 2, "Two sets in reserve."),
    SIGNED,
    examined(walking=Gait.LIMPS, tender_mm=300),
    examined(more_load=False),
    earlier(days_out=2000),
    took_part(effort=0, session=5),
    jump(5, 700, None),
    to_wall(5, 0, 250),
    ReturnDecision(**OURS, expected=day(30)),
]


@pytest.mark.parametrize("value", IN_ORDER, ids=lambda value: type(value).__name__)
def test_what_can_be_true_passes(value):
    assert check(value, TODAY, history()) == ()


REFUSED = [
    (session(11), "Day", day(10).isoformat()),
    (session(-1), "Day", day(0).isoformat()),
    (did(ExerciseDone(exercise="raise", level=0)), "Level", "0"),
    (did(ExerciseDone(exercise="raise", level=1, sets=21)), "Sets", "21"),
    (missed(on=day(11)), "Day", day(10).isoformat()),
    (missed(Missed.OTHER, " "), "Reason", "words are needed"),
    (missed(text="a\x00"), "Note", "control characters"),
    (morning(11), "Morning", day(10).isoformat()),
    (morning(-1), "Morning", day(0).isoformat()),
    (morning(5, 11), "Symptom in the morning", "11"),
    (four(11), "Day", day(10).isoformat()),
    (four(-1), "Day", day(0).isoformat()),
    (changed(2, 1), "Reason", "against the proposal"),
    (changed(31, 31), "Level", "31"),
    (changed(2, 2, on=day(11)), "Day", day(10).isoformat()),
    (replace(SIGNED, signed_by=""), "Signed by", "somebody must sign"),
    (replace(SIGNED, on=day(11)), "Evening", day(10).isoformat()),
    (replace(SIGNED, entered=-1), "Rows entered", "-1"),
    (examined(), "What was examined", "at least one"),
    (examined(tender_mm=301), "Length that is tender", "301"),
    (examined(walking=Gait.CLEAN, on=day(-1)), "Day", day(0).isoformat()),
    (examined(site="x" * 201), "Site", "200 characters"),
    (earlier(on=day(11)), "Day of the earlier injury", day(10).isoformat()),
    (earlier(days_out=2001), "Days out", "2001"),
    (earlier(days_out=-1), "Days out", "-1"),
    (earlier(area=""), "Part of the body", "needed"),
    (took_part(effort=11), "Effort (RPE)", "11"),
    (took_part(session=0), "Session of the day", "0"),
    (took_part(session=6), "Session of the day", "6"),
    (jump(5, 701, None), "Single-leg jump", "70.1"),
    (jump(5, None, None), "Single-leg jump", "at least one side"),
    (to_wall(5, 100, 251), "Knee to wall", "25.1"),
    (to_wall(5, symptom=Symptom(11)), "Symptom, knee to wall", "11"),
    (ReturnDecision(**OURS, expected=day(4)), "Expected back", day(4).isoformat()),
]


@pytest.mark.parametrize(("value", "field", "said"), REFUSED, ids=lambda part: str(part)[:24])
def test_what_cannot_be_true_is_refused_by_field_value_and_remedy(value, field, said):
    (found,) = check(value, TODAY, history())
    assert found.field == field
    assert said in str(found)
    assert found.value
    assert found.remedy.endswith(".")


def cleared(on, scope=Scope.MATCH):
    return Clearance(**{**OURS, "on": day(on)}, scope=scope, signed_by="s1")


@pytest.mark.parametrize(
    ("ends", "said"),
    [
        ([CaseClosed(**{**OURS, "on": day(6)})], f"closed on {day(6).isoformat()}"),
        ([cleared(6)], f"cleared for matches on {day(6).isoformat()}"),
        ([cleared(6), CaseClosed(**{**OURS, "on": day(6)})], "closed on"),
    ],
)
def test_no_session_comes_after_the_end_of_its_case_and_the_remedy_is_named(ends, said):
    ended = history(*ends)
    for value in (session(7), missed(on=day(7))):
        (found,) = check(value, TODAY, ended)
        assert (found.field, said in str(found)) == ("Day", True)
        assert "new case" in found.remedy
    assert check(session(6), TODAY, ended) == ()


@pytest.mark.parametrize("scope", [Scope.TEAM_TRAINING, Scope.MATCH_WITH_LIMIT])
def test_rehab_goes_on_after_a_clearance_that_is_not_for_whole_matches(scope):
    assert check(session(7), TODAY, history(cleared(6, scope))) == ()


LEVELS = tuple(Level(name=f"step {n}", sets=3, dose="12") for n in range(4))
LADDER = Ladder(
    key="raise", name="Raise", stage=2, levels=LEVELS, symptom=3, source="common practice"
)
WITH_LADDER = replace(CALF, ladders=(LADDER,))


@pytest.mark.parametrize(
    ("decided", "done", "said"),
    [
        ([moved(2, 2)], 1, ""),
        ([moved(2, 2), level(4, 3)], 3, ""),
        # reached once, taken back since: it may have been tried again
        ([moved(2, 2), level(3, 3), level(4, 2)], 3, ""),
        ([moved(2, 2), level(4, 3)], 4, "level 3 is the highest reached"),
        ([moved(2, 2), level(6, 3)], 3, "level 1 is the highest reached"),
        ([], 1, "not opened yet"),
    ],
)
def test_an_exercise_at_a_level_never_reached_by_its_day_is_named(decided, done, said):
    entry = did(ExerciseDone(exercise="raise", level=done))
    found = check_levels(entry, history(*decided), WITH_LADDER)
    assert len(found) == bool(said)
    assert all(said in str(one) and f"Raise, level {done}" in one.value for one in found)


def test_an_exercise_the_protocol_does_not_have_is_named():
    entry = did(ExerciseDone(exercise="swim", level=1))
    (found,) = check_levels(entry, history(), WITH_LADDER)
    assert (found.field, found.value) == ("Exercise", "swim")
