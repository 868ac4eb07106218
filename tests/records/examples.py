"""One value of every kind, and another that a person might correct it to."""

from dataclasses import replace
from datetime import datetime, time
from typing import Any

from teamrehab.domain import (
    athletes,
    availability,
    days,
    evenings,
    examination,
    injuries,
    measures,
    settings,
    sheets,
    signs_asked,
)
from tests.builders import ONSET, athlete, case, day

CASE: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1", "on": day(3)}
TEST = {"test_id": "t1"} | CASE
SYMPTOM = measures.Symptom(2, measures.Feeling.TIGHTNESS)
EXERCISES = (measures.ExerciseDone(exercise="raise", level=2, sets=2, faults=("drops",)),)
LIMITS = (availability.Limit(availability.Activity.PACE, 80),)

PAIRS: list[tuple[Any, dict[str, Any]]] = [
    (athletes.Team(name="Riverside", zone="Europe/Rome"), {"sport": "rugby"}),
    (athletes.StaffMember(staff_id="s9", name="Łucja"), {"role": athletes.Role.DOCTOR}),
    (athlete(joined=ONSET, weight_g=81_500), {"printed_name": "Okafor"}),
    (case(reassess_on=datetime.combine(day(1), time(12))), {"sensitive": True}),
    (injuries.Diagnosis(injury="calf", muscle="soleus", grade=2, **CASE), {"grade": None}),
    (injuries.ProtocolChosen(protocol="calf", version="1", **CASE), {"version": "2"}),
    (injuries.LevelMoved(ladder="raise", level=2, proposed=2, **CASE), {"why": "seen by two"}),
    (injuries.StageMoved(stage=2, proposed=2, **CASE), {"why": "tested with the doctor"}),
    (
        injuries.RedFlag(
            flag_id="r1", what="night pain", urgency=injuries.Urgency.SAME_DAY, **CASE
        ),
        {"closed_on": day(4), "closed_by": "s9"},
    ),
    (
        injuries.ReturnDecision(ruled_out=("f1",), **CASE),
        {"not_before": day(20), "expected": day(30)},
    ),
    (
        injuries.Clearance(scope=injuries.Scope.MATCH_WITH_LIMIT, signed_by="s1", **CASE),
        {"limit": "30 minutes"},
    ),
    (injuries.CaseClosed(**CASE), {"outcome": injuries.Outcome.LEFT_CLUB}),
    (injuries.Remark(remark_id="n1", text="slept badly", **CASE), {"text": "slept well"}),
    (
        measures.HeelRaiseTest(left=measures.Raises(12, 90), symptom=SYMPTOM, **TEST),
        {"right": measures.Raises(25)},
    ),
    (measures.HopTest(left=measures.Hops(20, 210, 150), **TEST), {"painkiller": True}),
    (measures.FunctionCheck(walks_clean=True, **TEST), {"no_signs": False}),
    (measures.RunTest(percent_of_own=88, **TEST), {"percent_of_own": 91}),
    (
        measures.SessionEntry(
            session_id="e1", kind=measures.SessionKind.REHAB, effort=4, **CASE
        ),
        {"limp": True, "done": measures.Done.PARTLY, "exercises": EXERCISES},
    ),
    (measures.JumpTest(left_mm=182, **TEST), {"right_mm": 210}),
    (measures.KneeToWallTest(left_mm=95, right_mm=110, **TEST), {"left_mm": 105}),
    (
        measures.LoadedRaiseTest(left=measures.Loaded(7, 42_500), **TEST),
        {"right": measures.Loaded(6, 45_000)},
    ),
    (
        measures.SessionMissed(session_id="e2", reason=measures.Missed.OTHER, **CASE),
        {"text": "bus broke down"},
    ),
    (measures.MorningResponse(response_id="m1", symptom=SYMPTOM, **CASE), {"painkiller": True}),
    (
        measures.SafetyCheck(
            check_id="q1",
            same_spot=True,
            swollen_or_warm=False,
            can_push_off=True,
            chest_or_breath=False,
            **CASE,
        ),
        {"swollen_or_warm": True},
    ),
    (
        signs_asked.SignsAsked(asked_id="w1", asked=("chest", "clot"), **CASE),
        {"seen": ("clot",)},
    ),
    (
        examination.Examination(
            examination_id="x2", onset=examination.OnsetKind.SUDDEN, tender_mm=40, **CASE
        ),
        {"walking": examination.Gait.LIMPS, "more_load": True},
    ),
    (
        examination.EarlierInjury(
            earlier_id="y1",
            athlete_id="a1",
            on=ONSET,
            side=injuries.Side.RIGHT,
            area="lower leg",
        ),
        {"days_out": 21},
    ),
    (
        evenings.EveningSigned(on=ONSET, signed_by="Kim Vale", entered=4, missed=1, open=0),
        {"entered": 5},
    ),
    (
        availability.AvailabilityStated(
            training=availability.Training.WITH_LIMITS,
            match=availability.Match.UNDECIDED,
            limits=LIMITS,
            next_update=datetime.combine(day(4), time(11)),
            **CASE,
        ),
        {"training": availability.Training.NONE, "limits": ()},
    ),
    (
        availability.Absence(
            absence_id="x1",
            athlete_id="a1",
            on=ONSET,
            reason=availability.AbsenceReason.PERSONAL,
        ),
        {"until": day(5)},
    ),
    (
        days.Fixture(fixture_id="f1", on=day(5), opponent="Århus"),
        {"kick_off": datetime.combine(day(5), time(18, 30)), "revision": 1},
    ),
    (
        days.Exposure(athlete_id="a1", on=ONSET, match=True, minutes=63),
        {"minutes": 70, "effort": 6},
    ),
    (settings.ClubSettings(), {"retest_days": 10}),
    (
        injuries.ProtocolAdopted(key="finger", version="1", on=ONSET, text="format = 1"),
        {"text": "format = 1  # reviewed"},
    ),
    (
        sheets.SheetIssued(
            number=1,
            on=ONSET,
            signed="Kim Vale",
            lines=(
                sheets.SheetLine(
                    "a1", availability.Training.NONE, availability.Match.NOT_AVAILABLE
                ),
            ),
        ),
        {"signed": "K. Vale"},
    ),
    (
        sheets.Disclosed(
            athlete_id="a1",
            on=ONSET,
            until=day(7),
            sentence="away until Friday",
            consent_taken_by="s1",
        ),
        {"until": day(8)},
    ),
]
EXAMPLES = {type(value): (value, replace(value, **change)) for value, change in PAIRS}
