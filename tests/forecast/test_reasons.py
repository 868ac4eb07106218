"""A case that must have no range has none, and says why."""

from dataclasses import replace
from datetime import UTC, date, datetime, time
from typing import Any

import pytest

from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.injuries import Certainty, Diagnosis, Nature, RedFlag, Urgency
from teamrehab.domain.settings import ClubSettings
from teamrehab.forecast import published_figures, reason_for_none
from tests.builders import athlete, case, day, history

PUBLISHED = published_figures()
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
KNOWN = Diagnosis(**IDS, on=day(2), injury="calf_strain", certainty=Certainty.CONFIRMED)
FLAG = RedFlag(**IDS, flag_id="r1", on=day(1), what="x", urgency=Urgency.SAME_DAY)


def reason(*facts, number=10, hour=20, settings=None, **changes) -> NoEstimate | None:
    now = datetime.combine(day(number), time(hour), UTC)
    return reason_for_none(
        history(*facts, **changes), now, PUBLISHED, settings or ClubSettings()
    )


def test_a_confirmed_diagnosis_with_a_published_figure_has_a_range():
    assert reason(KNOWN) is None


@pytest.mark.parametrize(
    ("expected", "facts", "changes"),
    [
        (NoEstimate.RED_FLAG, (KNOWN, FLAG), {}),
        (NoEstimate.SENSITIVE, (KNOWN,), {"of": case(sensitive=True)}),
        (NoEstimate.HEAD_INJURY, (KNOWN,), {"of": case(head_injury=True)}),
        (NoEstimate.ILLNESS, (KNOWN,), {"of": case(nature=Nature.ILLNESS)}),
        (NoEstimate.OPERATION, (KNOWN,), {"of": case(operation=True)}),
        (NoEstimate.MINOR, (KNOWN,), {"by": athlete(born=date(2008, 10, 6))}),
        (NoEstimate.UNCONFIRMED, (), {}),
        (NoEstimate.UNCONFIRMED, (replace(KNOWN, certainty=Certainty.SUSPECTED),), {}),
        (NoEstimate.UNCONFIRMED, (replace(KNOWN, certainty=Certainty.WORKING),), {}),
        (NoEstimate.NO_PRIOR, (replace(KNOWN, injury="toe_bruise"),), {}),
    ],
)
def test_each_reason_alone_is_enough(expected, facts, changes):
    assert reason(*facts, **changes) is expected


def test_a_red_flag_a_doctor_closed_no_longer_stands_in_the_way():
    assert reason(KNOWN, replace(FLAG, closed_on=day(3), closed_by="s1")) is None


def test_the_hours_count_from_the_end_of_the_day_of_onset():
    assert reason(KNOWN, number=3, hour=3) is NoEstimate.TOO_YOUNG
    assert reason(KNOWN, number=3, hour=4) is None
    longer = ClubSettings(assessing_hours=72)
    assert reason(KNOWN, number=4, hour=3, settings=longer) is NoEstimate.TOO_YOUNG
    assert reason(KNOWN, number=4, hour=4, settings=longer) is None


def test_an_athlete_of_eighteen_on_the_day_of_injury_counts_as_adult():
    assert reason(KNOWN, by=athlete(born=date(2008, 10, 5))) is None
    assert reason(KNOWN, by=athlete(born=None)) is None
