"""What is offered on the morning after a move up that turned out badly; a person decides."""

from dataclasses import replace
from datetime import date, timedelta

from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.mornings import Moved, morning_troubles, provisional, turned_out_badly
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _
from teamrehab.reports.closing import Proposed, ProposedKind
from teamrehab.reports.wording import day_words

_A_DAY = timedelta(days=1)


def take_backs(
    history: History, protocol: Protocol | None, on: date
) -> tuple[tuple[Moved, Proposed], ...]:
    """Return each move up that the morning of ``on`` judged badly, and the way back."""
    badly = turned_out_badly(history, on)
    return tuple(
        (move, _take_back(history, protocol, move, on))
        for move in waiting_for(history, on)
        if move in badly
    )


def waiting_for(history: History, on: date) -> tuple[Moved, ...]:
    """Return the moves up that waited for the morning of ``on``, oldest first."""
    before = replace(history, facts=tuple(f for f in history.facts if f.value.on < on))
    return provisional(before, on - _A_DAY)


def moved_words(move: Moved, protocol: Protocol | None, on: date) -> str:
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


def _take_back(history: History, protocol: Protocol | None, move: Moved, on: date) -> Proposed:
    why = " ".join(morning_troubles(history, on))
    reason = _("The morning after was bad. {why}").format(why=why)
    stage = isinstance(move, StageMoved)
    name = moved_words(move, protocol, on)
    return Proposed(
        athlete_id=history.athlete.athlete_id,
        case_id=history.case.case_id,
        name=history.athlete.name,
        kind=ProposedKind.STAGE if stage else ProposedKind.LEVEL,
        words=_("Take back {move}").format(move=name),
        reason=reason,
        moves=True,
        value=_lowered(history, move, on, reason),
        evening=on,
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
