"""Who is stopped while the coach's sheet would still let them train or play."""

from dataclasses import replace
from typing import Any

import pytest

from teamrehab.domain.athletes import Team
from teamrehab.domain.availability import Match, Training
from teamrehab.domain.history import Squad
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.measures import SessionEntry, SessionKind, Symptom
from teamrehab.reports.stopped import misled, stopped_unstated
from tests.builders import athlete, case, day, history, stated

TODAY = day(20)
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
LIMITS: dict[str, Any] = {"training": Training.WITH_LIMITS, "match": Match.NOT_AVAILABLE}


def felt(score):
    return SessionEntry(
        session_id="s1",
        on=TODAY,
        kind=SessionKind.REHAB,
        effort=4,
        symptom=Symptom(score),
        **IDS,
    )


def flag(urgency=Urgency.SAME_DAY):
    return RedFlag(flag_id="f1", on=TODAY, urgency=urgency, what="swollen", **IDS)


def found(*values):
    squad = Squad(
        day=TODAY,
        team=Team(name="Harbour Rovers"),
        athletes=(athlete(),),
        open_cases=(history(*values),),
    )
    return stopped_unstated(squad, {})


def test_a_high_symptom_after_limits_were_stated_is_named_with_what_the_coach_reads():
    (one,) = found(stated(case(), 5, **LIMITS), felt(6))
    assert (one.case_id, one.coach) == ("c1", "training with limits, match not available")
    assert misled([one]) == (athlete().name,)


@pytest.mark.parametrize(
    ("score", "day_stated", "training"),
    [
        (2, 5, Training.WITH_LIMITS),  # nothing stops
        (6, 20, Training.NONE),  # stated tonight
        (6, 21, Training.NONE),  # accepted tonight for tomorrow
    ],
)
def test_nobody_is_named_without_a_stop_or_once_no_training_is_stated(
    score, day_stated, training
):
    said = stated(case(), day_stated, training=training, match=Match.NOT_AVAILABLE)
    assert found(said, felt(score)) == ()


def test_no_training_today_but_limits_from_tomorrow_is_named():
    today = stated(case(), 20, training=Training.NONE, match=Match.NOT_AVAILABLE)
    assert len(found(today, stated(case(), 21, **LIMITS), felt(6))) == 1


def test_a_match_that_is_still_open_to_a_stopped_athlete_is_named():
    plays = stated(case(), 20, training=Training.NONE, match=Match.AVAILABLE)
    assert len(found(plays, felt(6))) == 1


def test_a_red_flag_speaks_on_the_sheet_by_itself_but_waits_for_a_statement():
    (one,) = found(stated(case(), 5, **LIMITS), flag())
    assert not one.misleads
    assert misled([one]) == ()
    assert one.coach == "training none, match not available"
    closed = replace(flag(), closed_on=TODAY, closed_by="Dr. Ines Duarte")
    assert found(stated(case(), 5, **LIMITS), closed) == ()
