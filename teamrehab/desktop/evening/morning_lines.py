"""The morning page as values: one line an open injury, and what its morning settles (pure)."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from teamrehab.domain.history import History, Squad, Standing
from teamrehab.domain.injuries import LevelMoved, Nature, StageMoved
from teamrehab.domain.measures import MorningResponse, SessionMissed, Symptom
from teamrehab.domain.mornings import (
    morning_of,
    morning_rise,
    morning_troubles,
    provisional,
    turned_out_badly,
)
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.safety import why_asked
from teamrehab.language import _
from teamrehab.reports.closing import Proposed, ProposedKind
from teamrehab.reports.wording import day_words

Moved = StageMoved | LevelMoved
_A_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """What a morning says of a move up; ``take_back`` is offered where it turned out badly."""

    words: str
    take_back: Proposed | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MorningLine:
    """One open injury on one morning. ``saved`` is what stands of it, the newest.

    ``evening`` is the symptom of the session of the evening before, ``before`` that of the
    last morning before this one; None where nothing is known.
    """

    history: History
    on: date
    evening: Symptom | None = None
    trained: bool = False
    missed: bool = False
    before: MorningResponse | None = None
    saved: Standing[MorningResponse] | None = None
    several: bool = False
    settled: tuple[Settled, ...] = ()

    @property
    def case_id(self) -> str:
        """Return which case the line is about."""
        return self.history.case.case_id


def morning_lines(
    squad: Squad, protocols: Mapping[str, Protocol | None], on: date
) -> tuple[MorningLine, ...]:
    """Return a line an open injury: those with a session the day before come first.

    ``protocols`` are those the cases follow, by case.
    """
    lines = (
        _line(history.as_of(on), protocols.get(history.case.case_id), on)
        for history in squad.open_cases
        if history.case.nature is Nature.INJURY and history.case.on < on
    )
    return tuple(sorted(lines, key=_place))


def why_questions(line: MorningLine, response: MorningResponse) -> tuple[str, ...]:
    """Return why the four questions are asked before ``response`` is saved, () if silently."""
    noted = [
        fact
        for fact in line.history.facts
        if getattr(fact.value, "response_id", "") != response.response_id
    ]
    at_noon = datetime.combine(response.on, time(12), UTC)  # a day's order plays no part here
    typed: Standing[Any] = Standing(fact_id="", value=response, author="", noted_at=at_noon)
    with_it = replace(line.history, facts=(*noted, typed))
    return why_asked(response.symptom, None, None, morning_rise(with_it, response.on))


def _line(history: History, protocol: Protocol | None, on: date) -> MorningLine:
    yesterday = on - _A_DAY
    sessions = [entry for entry in history.sessions if entry.on == yesterday]
    saved = [f for f in history.standing(MorningResponse) if f.value.on == on]
    earlier = [response for response in history.of(MorningResponse) if response.on < on]
    return MorningLine(
        history=history,
        on=on,
        evening=_worst([s.symptom for s in sessions if s.symptom is not None]),
        trained=bool(sessions),
        missed=any(entry.on == yesterday for entry in history.of(SessionMissed)),
        before=morning_of(history, earlier[-1].on) if earlier else None,
        saved=saved[-1] if saved else None,
        several=len(saved) > 1,
        settled=tuple(_settled(history, protocol, on)) if saved else (),
    )


def _worst(symptoms: list[Symptom]) -> Symptom | None:
    return max(symptoms, key=lambda one: one.score, default=None)


def _place(line: MorningLine) -> tuple[bool, bool, int, str]:
    athlete = line.history.athlete
    return not line.trained, athlete.number is None, athlete.number or 0, athlete.surname


def _settled(history: History, protocol: Protocol | None, on: date) -> Iterator[Settled]:
    """Yield what the morning of ``on`` says of the moves up that waited for it."""
    before = replace(history, facts=tuple(f for f in history.facts if f.value.on < on))
    badly, waits = turned_out_badly(history, on), provisional(history, on)
    for move in provisional(before, on - _A_DAY):
        name = _name_of(move, protocol, on)
        if move in badly:
            yield Settled(
                words=_("{move}: turned out badly. Take it back? A, then Y").format(move=name),
                take_back=_take_back(history, move, name, on),
            )
        elif any(_undoes(fact.value, move, on) for fact in history.facts):
            yield Settled(words=_("{move}: taken back").format(move=name))
        elif move in waits:
            words = _("{move}: still provisional, a painkiller can hide a symptom")
            yield Settled(words=words.format(move=name))
        else:
            yield Settled(words=_("{move}: settled").format(move=name))


def _undoes(later: Any, move: Moved, on: date) -> bool:
    """Return whether a value of this day or after goes below where ``move`` went."""
    if isinstance(move, StageMoved):
        return isinstance(later, StageMoved) and later.on >= on and later.stage < move.stage
    alike = isinstance(later, LevelMoved) and later.ladder == move.ladder
    return alike and later.on >= on and later.level < move.level


def _name_of(move: Moved, protocol: Protocol | None, on: date) -> str:
    """Return what was opened and when, in the words of the protocol."""
    name = _opened_words(move, protocol)
    if on - move.on == _A_DAY:
        return _("{move}, opened yesterday").format(move=name)
    return _("{move}, opened {day}").format(move=name, day=day_words(move.on))


def _opened_words(move: Moved, protocol: Protocol | None) -> str:
    if isinstance(move, StageMoved):
        stages = () if protocol is None else protocol.stages
        if 0 < move.stage <= len(stages):
            return stages[move.stage - 1].name
        return _("Stage {number}").format(number=move.stage)
    ladders = () if protocol is None else protocol.ladders
    named = next((one.name for one in ladders if one.key == move.ladder), move.ladder)
    return _("{ladder} level {level}").format(ladder=named, level=move.level)


def _take_back(history: History, move: Moved, name: str, on: date) -> Proposed:
    why = " ".join(morning_troubles(history, on))
    reason = _("The morning after was bad. {why}").format(why=why)
    value = _lowered(history, move, on, reason)
    stage = isinstance(move, StageMoved)
    return Proposed(
        athlete_id=history.athlete.athlete_id,
        case_id=history.case.case_id,
        name=history.athlete.name,
        kind=ProposedKind.STAGE if stage else ProposedKind.LEVEL,
        words=_("Take back {move}").format(move=name),
        reason=reason,
        moves=True,
        value=value,
    )


def _lowered(history: History, move: Moved, on: date, why: str) -> Moved:
    """Return the move back to where the athlete was before ``move``."""
    if isinstance(move, StageMoved):
        stages = [m.stage for m in history.of(StageMoved) if m.on <= move.on and m != move]
        to = min(stages[-1] if stages else 1, move.stage - 1)
        return replace(move, on=on, stage=to, proposed=to, why=why)
    levels = [
        m.level
        for m in history.of(LevelMoved)
        if m.ladder == move.ladder and m.on <= move.on and m != move
    ]
    to = min(levels[-1] if levels else 1, move.level - 1)
    return replace(move, on=on, level=to, proposed=to, why=why)
