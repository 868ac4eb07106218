"""After a return: the watch, and how soon the same injury came again."""

from dataclasses import replace
from typing import Any

import pytest

from teamrehab.domain.injuries import CaseClosed, Clearance, Outcome, ProtocolChosen, Scope
from teamrehab.reports.returning import again_words, returned_on, watch_words, watched
from tests.builders import case, day, history
from tests.domain.evenings import CALF

OURS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
CLEARED = Clearance(**OURS, on=day(30), scope=Scope.MATCH, signed_by="Ines Duarte")
CLOSED = CaseClosed(**OURS, on=day(32))
CHOSEN = ProtocolChosen(**OURS, on=day(1), protocol=CALF.key, version=CALF.version)


def earlier(*facts):
    return history(*facts, of=case())


def again(on):
    return history(of=replace(case(), case_id="c2", on=day(on), recurrence_of="c1"))


def test_the_return_is_the_day_of_the_signature_for_matches_and_no_other_end():
    team = replace(CLEARED, on=day(29), scope=Scope.TEAM_TRAINING)
    assert returned_on(earlier(team)) is None
    assert returned_on(earlier(team, CLEARED, CLOSED)) == day(30)
    assert returned_on(earlier(CLOSED)) == day(32)
    assert returned_on(earlier(replace(CLOSED, outcome=Outcome.LEFT_CLUB))) is None


@pytest.mark.parametrize(
    ("onset", "words"),
    [
        (31, "early recurrence, 1 day after the return"),
        (90, "early recurrence, 60 days after the return"),
        (91, "late recurrence, 61 days after the return"),
        (396, "delayed recurrence, 366 days after the return"),
        (29, "recurrence"),
    ],
)
def test_a_recurrence_says_how_soon_it_came(onset, words):
    """Within two months, twelve months, later: Br J Sports Med 2006;40:193."""
    assert again_words(again(onset), (earlier(CLEARED, CLOSED),)) == words


def test_a_recurrence_of_a_case_nobody_knows_is_one_all_the_same():
    assert again_words(again(50), ()) == "recurrence"
    assert again_words(history(of=case()), (earlier(CLEARED),)) == ""


def test_who_is_back_is_watched_as_long_as_the_protocol_says():
    known = earlier(CHOSEN, CLEARED, CLOSED)
    assert CALF.guidance.watch is not None
    last = CALF.guidance.watch.days
    assert f"until day {last}." in watch_words(known, CALF, day(30 + last))
    assert watch_words(known, CALF, day(31 + last)) == ""
    assert watch_words(earlier(), CALF, day(40)) == ""
    (said,) = watched((known, earlier(CLEARED)), {CALF.key: CALF}, day(40))
    assert said.startswith(CALF.name)
    assert "Day 10 after the return" in said
