"""The morning page as values: one line an open injury, and what its morning settles (pure)."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from teamrehab.domain.deciding import situation_of
from teamrehab.domain.history import History, Squad, Standing
from teamrehab.domain.injuries import LevelMoved, Nature, StageMoved
from teamrehab.domain.measures import Missed, MorningResponse, SessionMissed, Symptom
from teamrehab.domain.mornings import Moved, morning_of, provisional
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.questions import questions_for
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.stops import stop_reasons
from teamrehab.language import _
from teamrehab.reports.closing import Proposed
from teamrehab.reports.taking_back import moved_words, take_backs, waiting_for

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
    last morning before this one, ``missed`` why there was no session; None where nothing is
    known. ``flagged``: a red flag is open; ``stopped`` says why nothing may be loaded, with
    what this morning and the day before tell, "" where it may.
    """

    history: History
    on: date
    evening: Symptom | None = None
    trained: bool = False
    missed: Missed | None = None
    flagged: bool = False
    stopped: str = ""
    before: MorningResponse | None = None
    saved: Standing[MorningResponse] | None = None
    several: bool = False
    settled: tuple[Settled, ...] = ()

    @property
    def case_id(self) -> str:
        """Return which case the line is about."""
        return self.history.case.case_id

    @property
    def athlete_id(self) -> str:
        """Return whose morning it is."""
        return self.history.athlete.athlete_id


def morning_lines(
    squad: Squad, protocols: Mapping[str, Protocol | None], on: date
) -> tuple[MorningLine, ...]:
    """Return a line an open injury: those with a session the day before come first.

    ``protocols`` are those the cases follow, by case.
    """
    lines = (
        _line(history.as_of(on), protocols.get(history.case.case_id), on, squad.settings)
        for history in squad.open_cases
        if history.case.nature is Nature.INJURY and history.case.on < on
    )
    return tuple(sorted(lines, key=_place))


def why_questions(line: MorningLine, response: MorningResponse) -> tuple[str, ...]:
    """Return why the four questions are asked before ``response`` is saved, () if silently."""
    return questions_for(line.history, None, (response,), response.on)


def _stopped(
    history: History, protocol: Protocol | None, on: date, settings: ClubSettings
) -> str:
    found = stop_reasons(situation_of(history, protocol, on, settings))
    return found[0] if found else ""


def _line(
    history: History, protocol: Protocol | None, on: date, settings: ClubSettings
) -> MorningLine:
    yesterday = on - _A_DAY
    sessions = [entry for entry in history.sessions if entry.on == yesterday]
    saved = [f for f in history.standing(MorningResponse) if f.value.on == on]
    earlier = [response for response in history.of(MorningResponse) if response.on < on]
    return MorningLine(
        history=history,
        on=on,
        evening=_worst([s.symptom for s in sessions if s.symptom is not None]),
        trained=bool(sessions),
        missed=next((m.reason for m in history.of(SessionMissed) if m.on == yesterday), None),
        flagged=bool(history.red_flags_open_on(on)),
        stopped=_stopped(history, protocol, on, settings),
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
    back, waits = dict(take_backs(history, protocol, on)), provisional(history, on)
    for move in waiting_for(history, on):
        name = moved_words(move, protocol, on)
        if move in back:
            words = _("{move}: turned out badly. Take it back? A, then Y").format(move=name)
            yield Settled(words=words, take_back=back[move])
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
