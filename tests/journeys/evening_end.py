"""The end of an evening as a physio lives it: what is proposed is looked at and accepted.

Held each time: nothing goes up beside a stop, levels go one by one as the protocol opens them,
every proposal has its reason, and the coach reads nothing clinical.
"""

from datetime import date, timedelta
from typing import Any

from teamrehab.domain.availability import Activity, AvailabilityStated, Limit, Match, Training
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.ladders import level_of
from teamrehab.domain.stops import stop_reasons
from teamrehab.records import Casebook
from teamrehab.reports.closing import Proposed, ProposedKind
from teamrehab.reports.disclosure import check_free_words
from teamrehab.tasks import cases, closing
from teamrehab.tasks.board import protocol_of, squad_board
from tests.builders import clock

LIMITS = (Limit(Activity.PACE, 80), Limit(Activity.CONTACT))
AT_MOST = 9
"""More decisions about one case in an evening would be a dead end."""


def closed_evening(book: Casebook, case_id: str, on: date) -> list[Proposed]:
    """Accept what is proposed for a case until nothing is; return the last list."""
    for _nth in range(AT_MOST):
        said = proposed(book, case_id, on)
        moving = [one for one in said if one.moves and _takes_no_signature(one)]
        if not moving:
            return said
        _decide(book, moving[0], on)
    raise AssertionError("an evening does not come to an end")


def proposed(book: Casebook, case_id: str, on: date) -> list[Proposed]:
    """Return what is proposed for a case on a day, once it was looked at."""
    found, _count = closing.evening_end(squad_board(book, on), on)
    ours = [one for one in found if one.case_id == case_id]
    known = book.case(case_id)
    stopped = bool(stop_reasons(situation_of(known, protocol_of(known), on)))
    assert stopped == any(one.stopped for one in ours), ours
    for one in ours:
        assert one.reason.strip(), one.words
        assert not check_free_words(f"{one.coach_before} {one.coach_after}"), one
        assert not (stopped and _goes_up(known, one.value)), one
    return ours


def _takes_no_signature(one: Proposed) -> bool:
    return one.value is not None or one.kind is ProposedKind.AVAILABILITY


def _decide(book: Casebook, one: Proposed, on: date) -> None:
    known = book.case(one.case_id)
    if isinstance(one.value, LevelMoved):
        _goes_by_the_protocol(known, one.value)
    if one.value is not None:
        closing.accept(book, known, one, one.name)
    else:
        _fill_in(book, known, one, on)


def _fill_in(book: Casebook, known: History, one: Proposed, on: date) -> None:
    """State what a form asks for: nothing beside a stop, training with limits otherwise."""
    tomorrow = on + timedelta(days=1)
    noon = clock(tomorrow, 12).local().replace(tzinfo=None)
    stated = AvailabilityStated(
        case_id=one.case_id,
        athlete_id=one.athlete_id,
        on=tomorrow,
        training=Training.NONE if one.stopped else Training.WITH_LIMITS,
        match=Match.NOT_AVAILABLE,
        limits=() if one.stopped else LIMITS,
        next_update=noon if one.stopped else None,
    )
    cases.state_availability(book, known, stated, holds=one.stopped)


def _goes_by_the_protocol(known: History, moved: LevelMoved) -> None:
    """Hold that levels go one by one, and none before its stage or what it asks for."""
    protocol = protocol_of(known)
    assert protocol is not None
    ladder = next(one for one in protocol.ladders if one.key == moved.ladder)
    by_key = {one.key: one for one in protocol.ladders}
    assert moved.level <= level_of(known, ladder) + 1
    assert moved.level <= ladder.opened_by(known.stage or 1)
    for asked in ladder.levels[moved.level - 1].after:
        assert level_of(known, by_key[asked.ladder]) >= asked.level


def _goes_up(known: History, value: Any) -> bool:
    if isinstance(value, StageMoved):
        return value.stage > (known.stage or 1)
    protocol = protocol_of(known)
    if protocol is None or not isinstance(value, LevelMoved):
        return False
    ladder = next(one for one in protocol.ladders if one.key == value.ladder)
    return value.level > level_of(known, ladder)
