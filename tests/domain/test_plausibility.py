"""What is refused on entry, and in which words."""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    Activity,
    AvailabilityStated,
    Limit,
    Match,
    Training,
)
from teamrehab.domain.days import Exposure
from teamrehab.domain.injuries import (
    Clearance,
    Diagnosis,
    RedFlag,
    Remark,
    ReturnDecision,
    Scope,
    StageMoved,
    Urgency,
)
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    Hops,
    HopTest,
    Raises,
    RunTest,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.plausibility import check
from teamrehab.domain.sheets import Disclosed
from tests.builders import athlete, case, day, history

TODAY = day(10)
OURS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1", "on": day(5)}


def raises(**more):
    return HeelRaiseTest(**({**OURS, "test_id": "t1", "left": Raises(20)} | more))


def hopping(**more):
    return HopTest(**({**OURS, "test_id": "t1", "left": Hops(20)} | more))


def looked(**more):
    return FunctionCheck(**({**OURS, "test_id": "t1", "walks_clean": True} | more))


def ran(percent, **more):
    return RunTest(**({**OURS, "test_id": "t1", "percent_of_own": percent} | more))


def session(**more):
    return SessionEntry(**({**OURS, "session_id": "e1", "kind": SessionKind.REHAB} | more))


def stated(**more):
    values = {"training": Training.FULL, "match": Match.AVAILABLE, **OURS} | more
    return AvailabilityStated(**values)


def flag(**more):
    return RedFlag(
        **({**OURS, "flag_id": "r", "what": "?", "urgency": Urgency.SAME_DAY} | more)
    )


def signed(**more):
    return Clearance(**({**OURS, "scope": Scope.MATCH, "signed_by": "s1"} | more))


def moved(**more):
    return StageMoved(**({**OURS, "stage": 2, "proposed": 2} | more))


def disclosed(**more):
    values: dict[str, Any] = {
        "athlete_id": "a1",
        "on": day(5),
        "until": day(9),
        "sentence": "Back soon.",
    }
    return Disclosed(**(values | {"consent_taken_by": "s1"} | more))


IN_ORDER = [
    athlete(),
    athlete(first_name="", born=None, number=None),
    case(),
    raises(left=Raises(200, 250), right=Raises(0, 0), beat=60, symptom=Symptom(10)),
    hopping(left=Hops(20, 50, 1000)),
    looked(),
    ran(110),
    session(minutes=300, effort=10, symptom=Symptom(0)),
    stated(on=day(12), until=day(12)),
    stated(match=Match.LIMITED, match_minutes=30),
    stated(next_update=datetime.combine(day(5), time(8))),
    flag(closed_on=day(6), closed_by="s2"),
    signed(),
    moved(),
    moved(stage=3, why="Strong enough in the gym."),
    ReturnDecision(**OURS, not_before=TODAY),
    disclosed(),
    Remark(**OURS, remark_id="n1", text="Two lines\nof a note."),
    Absence(absence_id="x", athlete_id="a1", on=day(20), reason=AbsenceReason.OTHER),
]


@pytest.mark.parametrize("value", IN_ORDER, ids=lambda value: type(value).__name__)
def test_what_can_be_true_passes(value):
    assert check(value, TODAY, history()) == ()


YESTERDAY = datetime.combine(day(4), time(23, 59))
"""The evening before what is stated counts."""

REFUSED = [
    (raises(left=Raises(201)), "Heel raises", "left 201"),
    (raises(left=None, right=Raises(-1)), "Heel raises", "right -1"),
    (raises(left=Raises(20, 251)), "Mean height of a raise", "left 251"),
    (raises(left=None), "Heel raises", "at least one side"),
    (raises(beat=5), "Beat", "5"),
    (raises(on=day(11)), "Day", day(10).isoformat()),
    (raises(on=day(-1)), "Day", day(0).isoformat()),
    (raises(symptom=Symptom(11)), "Symptom in heel raises", "11"),
    (raises(surface="floor\x00"), "Surface", "floor"),
    (hopping(left=None), "Hops", "at least one side"),
    (hopping(left=Hops(501)), "Hops", "left 501"),
    (hopping(left=Hops(20, 49, 300)), "Ground contact of a hop", "49"),
    (hopping(left=Hops(20, 200, 1001)), "Flight of a hop", "1001"),
    (looked(walks_clean=None), "What was looked at", "at least one"),
    (ran(0), "Fastest run, of own speed", "0"),
    (ran(111), "Fastest run, of own speed", "111"),
    (session(symptom=Symptom(-1)), "Symptom", "-1"),
    (session(effort=11), "Effort (RPE)", "11"),
    (session(minutes=301), "Minutes", "301"),
    (athlete(surname=" \u200b"), "Surname", "needed"),
    (athlete(surname="x" * 10_000), "Surname", "10000 characters"),
    (athlete(surname="Oka\nfor"), "Surname", "control characters"),
    (athlete(first_name="\u202eSam"), "First name", "control characters"),
    (athlete(born=day(9)), "Born", day(9).isoformat()),
    (athlete(born=day(-40_000)), "Born", day(-40_000).isoformat()),
    (athlete(number=1000), "Number", "1000"),
    (athlete(weight_g=5_000), "Weight (kg)", "5"),
    (athlete(joined=day(3), left=day(2)), "Left", day(3).isoformat()),
    (StaffMember(staff_id="s1", name=""), "Name", "needed"),
    (Team(name=""), "Name", "needed"),
    (case(on=day(11)), "Day of onset", day(11).isoformat()),
    (case(reassess_on=datetime.combine(day(-1), time(9))), "Reassess on", day(-1).isoformat()),
    (Diagnosis(**OURS, injury="x", grade=4), "Grade", "4"),
    (stated(until=day(4)), "Until", day(5).isoformat()),
    (stated(match=Match.LIMITED), "Role in the match", "minutes or a role"),
    (stated(match=Match.UNDECIDED), "Next update", "needed"),
    (stated(next_update=YESTERDAY), "Next update", day(5).isoformat()),
    (stated(match=Match.UNDECIDED, next_update=YESTERDAY), "Next update", day(5).isoformat()),
    (stated(match_minutes=301), "Minutes in the match", "301"),
    (
        Absence(
            absence_id="x", athlete_id="a1", on=day(3), reason=AbsenceReason.OTHER, until=day(2)
        ),
        "Until",
        day(3).isoformat(),
    ),
    (Exposure(athlete_id="a1", on=day(3), match=True, minutes=301), "Minutes", "301"),
    (ReturnDecision(**OURS, not_before=day(9)), "Not before", "has passed"),
    (signed(signed_by=" "), "Signed by", "somebody must sign"),
    (signed(scope=Scope.MATCH_WITH_LIMIT), "Limit", "minutes or a role"),
    (moved(stage=3), "Reason", "against the proposal"),
    (moved(stage=0, proposed=0), "Stage", "0"),
    (flag(closed_on=day(6)), "Closed by", "doctor"),
    (flag(closed_on=day(11), closed_by="s2"), "Closed on", day(11).isoformat()),
    (flag(what=""), "What was seen", "needed"),
    (disclosed(consent_taken_by=""), "Consent taken by", "needed"),
    (disclosed(until=day(4)), "Until", day(5).isoformat()),
    (Remark(**OURS, remark_id="n1", text="x" * 4001), "Note", "4000 characters"),
]


@pytest.mark.parametrize(("value", "field", "said"), REFUSED, ids=lambda part: str(part)[:24])
def test_what_cannot_be_true_is_refused_by_field_value_and_remedy(value, field, said):
    (found,) = check(value, TODAY, history())
    assert found.field == field
    assert said in str(found)
    assert found.value
    assert found.remedy.endswith(".")


def test_a_healthy_value_may_lie_before_the_injury():
    assert check(raises(case_id="", on=day(-30)), TODAY, history()) == ()


def test_an_age_is_judged_on_a_leap_day_too():
    leap = case(on=day(0)).on.replace(year=2028, month=2, day=29)
    assert check(athlete(born=leap - timedelta(days=366)), leap) != ()
    assert check(athlete(), leap) == ()


@given(name=st.text(st.characters(exclude_categories=()), max_size=400))
def test_no_message_repeats_a_hidden_sign_or_more_than_a_line(name):
    for found in check(athlete(surname=name), TODAY):
        assert len(str(found)) < 250
        assert not set(str(found)) & set("\x00\n\u202e")


def test_limits_that_nobody_named_are_no_limits():
    free = stated(training=Training.WITH_LIMITS)
    (found,) = check(free, TODAY, history())
    assert found.field == "Limits"
    assert check(replace(free, limits=(Limit(Activity.CONTACT),)), TODAY, history()) == ()
