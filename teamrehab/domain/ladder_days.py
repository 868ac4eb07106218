"""The sessions of a case day by day: which ladders were open, what was done, what it passed."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from typing import Any

from teamrehab.domain.easier import WayIn, ways_in
from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.guidance import KindOfWork
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.measures import SessionEntry, SessionMissed
from teamrehab.domain.protocol import Ladder, Level, Passed, Protocol
from teamrehab.domain.symptom_rules import allowed
from teamrehab.domain.work import Work, hurts, passes, work_of

A_DAY = timedelta(days=1)

REST_BETWEEN = frozenset((KindOfWork.QUICK, KindOfWork.RUNNING))
"""Kinds of work that are not planned on consecutive days (common practice)."""

Order = tuple[date, str, datetime, str]
_Done = tuple[Ladder, Work]


@dataclass(slots=True, kw_only=True)
class Place:
    """Where a case stands on the ladders of its protocol; ``walk`` makes it.

    ``passed`` and ``decided`` are the highest level of each ladder by key, ``since`` the day
    its level was decided or it was opened, ``works`` what its sessions did, ``passing`` what
    of it passed the level it was at; oldest first.
    """

    protocol: Protocol
    onset: date
    stage: int = 1
    levels: dict[str, int] = field(default_factory=dict)
    decided: dict[str, int] = field(default_factory=dict)
    passed: dict[str, int] = field(default_factory=dict)
    since: dict[str, date] = field(default_factory=dict)
    works: dict[str, list[Work]] = field(default_factory=lambda: defaultdict(list))
    passing: dict[str, list[Work]] = field(default_factory=lambda: defaultdict(list))
    last: dict[KindOfWork | None, date] = field(default_factory=dict)
    ways: tuple[WayIn, ...] = ()

    def look(self, found: Examination) -> None:
        """Take an examination: it says which of the easier work comes first."""
        self.ways = tuple(_as_examined(way, found) for way in self.ways)

    def level(self, ladder: Ladder) -> int:
        """Return the level that was decided last, 1 before any decision."""
        return min(max(self.levels.get(ladder.key, 1), 1), len(ladder.levels))

    def has_passed(self, asked: Passed) -> bool:
        """Return whether a level was passed in a session, or one above it was decided."""
        key, level = asked.ladder, asked.level
        return self.passed.get(key, 0) >= level or self.decided.get(key, 0) > level

    def waits_for(self, level: Level) -> tuple[Passed, ...]:
        """Return the levels of other ladders that a level asks for and nobody passed yet."""
        return tuple(asked for asked in level.after if not self.has_passed(asked))

    def begun(self, ladder: Ladder) -> bool:
        """Return whether a ladder may be worked at: what it asks for, or a person decided."""
        return ladder.key in self.decided or not self.waits_for(ladder.levels[0])

    def name(self, key: str) -> str:
        """Return the name of a ladder, its key where the protocol lacks it."""
        return next((one.name for one in self.protocol.ladders if one.key == key), key)

    def rests(self, work: KindOfWork | None, on: date) -> bool:
        """Return whether work of a kind was done the day before, and rests on a day."""
        return work in REST_BETWEEN and self.last.get(work) == on - A_DAY

    def open(self, on: date | None = None) -> tuple[Ladder, ...]:
        """Return the ladders worked at, in the protocol's order; ``on`` a day: without rest."""
        way = next((way for way in self.ways if way.back(self.stage)), None)
        ladders = [one for one in self.protocol.ladders if one.open_at(self.stage)]
        if way is not None:
            return tuple(one for one in ladders if one.key in way.now)
        ended = {key for way in self.ways for key in way.ended}
        return tuple(
            one
            for one in ladders
            if one.key not in ended
            and self.begun(one)
            and not (on is not None and self.rests(one.work, on))
        )

    def decide(self, moved: LevelMoved | StageMoved) -> None:
        """Take in a person's decision about a level or the stage."""
        if isinstance(moved, StageMoved):
            self._stage(moved)
            return
        key = moved.ladder
        self.levels[key] = moved.level
        self.decided[key] = max(self.decided.get(key, 0), moved.level)
        self.since[key] = moved.on
        self.ways = tuple(_decided(way, moved) for way in self.ways)

    def take(self, on: date, sessions: Sequence[SessionEntry]) -> None:
        """Take in what the sessions of a day did at the ladders."""
        planned = {one.key: self.level(one) for one in self.open(on)}
        done = [
            (ladder, work)
            for session in sessions
            for ladder in self.protocol.ladders
            if (work := work_of(ladder, session, planned.get(ladder.key))) is not None
        ]
        for ladder, work in done:
            self.works[ladder.key].append(work)
            self.last[ladder.work] = on
            if self._passes(ladder, work):
                self.passing[ladder.key].append(work)
                best = self.passed.get(ladder.key, 0)
                self.passed[ladder.key] = max(best, work.level)
        self.ways = tuple(self._after(way, done) for way in self.ways)

    def _stage(self, moved: StageMoved) -> None:
        self.stage = min(max(moved.stage, 1), len(self.protocol.stages))
        for ladder in self.protocol.ladders:
            level = self.levels.get(ladder.key, 1)
            self.levels[ladder.key] = min(level, ladder.opened_by(moved.stage))
            if ladder.stage <= moved.stage:
                self.since.setdefault(ladder.key, moved.on)

    def _passes(self, ladder: Ladder, work: Work) -> bool:
        return passes(work, ladder, allowed(self.protocol, ladder, self.stage))

    def _after(self, way: WayIn, done: Sequence[_Done]) -> WayIn:
        """Return the easier way in after a day's work at its ladders, the hardest first."""
        if not way.open_at(self.stage):
            return way
        here = [
            (place, ladder, work)
            for ladder, work in done
            if (place := way.place_of(ladder.key)) is not None
        ]
        here.sort(key=lambda each: each[0])
        for place, ladder, work in reversed(here):
            most = allowed(self.protocol, ladder, self.stage)
            if work.level == 1 and hurts(work.session.symptom, most):
                return way.hurt(place)
        for place, ladder, work in here:
            if self._passes(ladder, work):
                way = way.passed(place)
        return way


def walk(history: History, protocol: Protocol) -> Place:
    """Return where a case stands after all that is known; the order of the facts is no matter.

    What is decided once a day's session is first noted holds from the next day on; an
    examination of a day comes before its session.
    """
    place = Place(protocol=protocol, onset=history.case.on, ways=ways_in(protocol.ladders))
    place.since.update((one.key, place.onset) for one in protocol.ladders if one.stage == 1)
    moves = _moves(history)
    looks = sorted(history.of(Examination), key=lambda found: found.on, reverse=True)
    for first, on, sessions in _session_days(history):
        while moves and moves[-1][0] < first:
            place.decide(moves.pop()[1])
        while looks and looks[-1].on <= on:
            place.look(looks.pop())
        place.take(on, sessions)
    while moves:
        place.decide(moves.pop()[1])
    while looks:
        place.look(looks.pop())
    return place


def _as_examined(way: WayIn, found: Examination) -> WayIn:
    """Return the way in as an examination leaves it.

    Who cannot walk or take stairs begins with the easiest work, who limps before the goal:
    nobody has to try what is too much first. One that walks cleanly tries the goal.
    """
    gaits = (found.walking, found.stairs)
    if Gait.UNABLE in gaits:
        return way.hurt(1)
    if Gait.LIMPS in gaits:
        return way.hurt(way.goal)
    return replace(way, top=way.goal) if Gait.CLEAN in gaits else way


def order_of(fact: Standing[Any], stamp: str) -> Order:
    """Return what facts are ordered by, those of hand-made histories without stamps too."""
    return fact.value.on, stamp or fact.stamp, fact.noted_at, fact.fact_id


def is_session_of(value: object, on: date) -> bool:
    """Return whether a fact says of a day's session that it was done or missed."""
    return isinstance(value, SessionEntry | SessionMissed) and value.on == on


def _moves(history: History) -> list[tuple[Order, LevelMoved | StageMoved]]:
    """Return the decisions, the newest first."""
    found = [
        (order_of(fact, fact.stamp), fact.value)
        for fact in history.facts
        if isinstance(fact.value, LevelMoved | StageMoved)
    ]
    return sorted(found, key=lambda each: each[0], reverse=True)


def _session_days(history: History) -> Iterator[tuple[Order, date, list[SessionEntry]]]:
    """Yield each day with a session, oldest first, with where it stands among the decisions."""
    facts = [f for f in history.facts if isinstance(f.value, SessionEntry | SessionMissed)]
    days = defaultdict(list)
    for fact in sorted(facts, key=lambda one: order_of(one, one.stamp)):
        days[fact.value.on].append(fact)
    for on, same in sorted(days.items()):
        sessions = [fact.value for fact in same if isinstance(fact.value, SessionEntry)]
        yield min(order_of(fact, fact.began) for fact in same), on, sessions


def _decided(way: WayIn, moved: LevelMoved) -> WayIn:
    place = way.place_of(moved.ladder)
    return way if place is None else way.decided(place, moved.level)
