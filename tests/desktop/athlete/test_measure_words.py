"""What follows from a test, in the words of the list, checked against worked figures."""

from typing import Any

import pytest

from teamrehab.desktop.athlete.entry_words import result_words
from teamrehab.domain.measures import (
    HeelRaiseTest,
    Hops,
    HopTest,
    Raises,
    SessionEntry,
    SessionKind,
)
from tests.builders import day

IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1", "on": day(9)}


def raises(left, right=None):
    return HeelRaiseTest(test_id="h", left=left, right=right, **IDS)


def hops(left, right=None):
    return HopTest(test_id="p", left=left, right=right, **IDS)


def test_work_is_told_where_height_and_weight_are_known():
    # mass x gravity x height x repetitions (physics): 80 x 9.81 x 0.1 x 25 = 1962
    told = result_words(raises(Raises(25, 100), Raises(30)), weight_g=80_000)
    assert "work 1962 J left" in told
    assert "J right" not in told


@pytest.mark.parametrize(("height", "weight"), [(None, 80_000), (100, None)])
def test_no_work_is_guessed_at(height, weight):
    assert "work" not in result_words(raises(Raises(25, height)), weight)


def test_flight_gives_a_jump_height_and_with_contact_both_reactive_strengths():
    # Am J Phys 2001;69:1198, doi 10.1119/1.1397460: g t^2 / 8 = 9.81 x 0.25 / 8 = 0.3066 m;
    # Sports Med 2022;52:301: height / contact = 1.53 m/s, flight / contact = 2.50
    told = result_words(hops(Hops(20, 200, 500), Hops(20, None, 500)))
    assert "jump 30.7 cm left" in told
    assert "height over contact 1.53 m/s left" in told
    assert "flight over contact 2.50 left" in told
    assert "jump 30.7 cm right" in told
    assert "m/s right" not in told


@pytest.mark.parametrize("times", [(None, None), (200, None)])
def test_without_a_flight_time_nothing_is_said_of_jumping(times):
    told = result_words(hops(Hops(20, *times)))
    assert "jump" not in told
    assert "contact" not in told


def test_a_session_tells_its_load_only_where_effort_and_minutes_were_asked():
    # J Strength Cond Res 2001;15:109: effort x minutes
    done: dict[str, Any] = {"session_id": "s", "kind": SessionKind.REHAB, "minutes": 45, **IDS}
    assert "load 270 (effort x min)" in result_words(SessionEntry(effort=6, **done))
    assert "load" not in result_words(SessionEntry(**done))
