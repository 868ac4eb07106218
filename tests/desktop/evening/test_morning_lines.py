"""What a morning settles, as values: levels too, and only those that waited for it."""

from dataclasses import replace
from typing import Any

import pytest

from teamrehab.desktop.evening.morning_lines import morning_lines, why_questions
from teamrehab.domain.athletes import Team
from teamrehab.domain.history import Squad
from teamrehab.domain.injuries import LevelMoved
from teamrehab.domain.measures import (
    Missed,
    MorningResponse,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.reports.closing import ProposedKind
from tests.builders import case, day, history
from tests.domain.evenings import CALF

IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
LADDER = CALF.ladders[0]


def felt(number, score, response_id=""):
    return MorningResponse(
        response_id=response_id or f"m{number}", on=day(number), symptom=Symptom(score), **IDS
    )


def level(number, to):
    return LevelMoved(on=day(number), ladder=LADDER.key, level=to, proposed=to, why="", **IDS)


def trained(number):
    return SessionEntry(
        session_id=f"s{number}",
        on=day(number),
        kind=SessionKind.REHAB,
        symptom=Symptom(1),
        **IDS,
    )


def line(*values, number=11):
    squad = Squad(
        day=day(number), team=Team(name="X"), open_cases=(history(*values, of=case()),)
    )
    (found,) = morning_lines(squad, {"c1": CALF}, day(number))
    return found


@pytest.mark.parametrize(("score", "bad"), [(1, False), (2, False), (3, True), (4, True)])
def test_a_level_taken_yesterday_settles_unless_the_morning_rose_by_two(score, bad):
    values = [felt(9, 1), level(5, 2), felt(6, 1), level(10, 3), trained(10), felt(11, score)]
    (settled,) = line(*values).settled
    assert settled.words.startswith(f"{LADDER.name} level 3, opened yesterday: ")
    assert (settled.take_back is not None) is bad
    if settled.take_back is not None:
        assert settled.take_back.kind is ProposedKind.LEVEL
        assert (settled.take_back.value.level, settled.take_back.value.on) == (2, day(11))
        assert settled.take_back.value.why


def test_a_calm_morning_under_a_painkiller_settles_nothing():
    moved = [felt(9, 1), level(10, 2), trained(10)]
    (waits,) = line(*moved, replace(felt(11, 0), painkiller=True)).settled
    assert "still provisional" in waits.words
    assert waits.take_back is None
    (bad,) = line(*moved, replace(felt(11, 5), painkiller=True)).settled
    assert bad.take_back is not None


def test_nothing_settles_before_the_morning_is_in_and_nothing_twice():
    moved = [felt(9, 1), level(10, 2), trained(10)]
    assert line(*moved).settled == ()
    assert line(*moved, felt(11, 1), felt(12, 1), number=12).settled == ()


def test_a_correction_is_judged_without_the_morning_it_replaces():
    stands = line(felt(9, 0), trained(10), felt(11, 5))
    assert why_questions(stands, felt(11, 1)) == ()
    assert why_questions(stands, felt(11, 2)) != ()
    assert why_questions(stands, felt(11, 1, response_id="another")) != ()


def test_a_session_that_was_not_done_is_told_from_one_nobody_entered():
    missed = SessionMissed(session_id="s10", on=day(10), reason=Missed.ILL, **IDS)
    assert (line(missed).missed, line(missed).trained) == (Missed.ILL, False)
    assert (line().missed, line().trained) == (None, False)


def test_a_case_that_began_this_morning_has_no_morning_yet():
    began = history(of=case(on=day(11)))
    squad = Squad(day=day(11), team=Team(name="X"), open_cases=(began,))
    assert morning_lines(squad, {}, day(11)) == ()
