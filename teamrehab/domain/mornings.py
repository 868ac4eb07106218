"""The morning after: how the leg answered, and what it says about a move up.

The 24-hour rule - what was done is judged by the next morning too - is common practice; a
similar rule is used for tendons (Am J Sports Med 2007;35:897, doi 10.1177/0363546506298279).
"""

from collections.abc import Iterator
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.measures import Feeling, MorningResponse, SessionEntry, Symptom
from teamrehab.domain.safety import why_asked
from teamrehab.domain.situation import felt

Moved = StageMoved | LevelMoved


def morning_of(history: History, day: date) -> MorningResponse | None:
    """Return the response of the morning of ``day``; of several the worst, sharp above all."""
    return max(_on(history, day), key=lambda response: _badness(response.symptom), default=None)


def morning_rise(history: History, day: date) -> tuple[int, int] | None:
    """Return the symptom of the morning before and of that of ``day``, None if either lacks.

    Like with like: the morning before is the last one before the latest session, so that a
    second bad morning is not held against the first. Where none was noted before that
    session, it is the last one before ``day``.
    """
    now = _worst(history, day)
    earlier = [response.on for response in history.of(MorningResponse) if response.on < day]
    last = max((s.on for s in history.of(SessionEntry) if s.on < day), default=day)
    compared = [on for on in earlier if on <= last] or earlier
    before = _worst(history, max(compared)) if compared else None
    return None if before is None or now is None else (before, now)


def morning_troubles(history: History, day: date) -> tuple[str, ...]:
    """Return what is bad about the morning of ``day``: 4 or more, sharp, or a rise of 2."""
    response = morning_of(history, day)
    if response is None:
        return ()
    worst = Symptom(_worst(history, day) or 0, response.symptom.feeling)
    return why_asked(worst, None, None, morning_rise(history, day))


def provisional(history: History, today: date) -> tuple[Moved, ...]:
    """Return the moves up that stand and whose next morning is not in yet, oldest first.

    A response of a later morning settles a move, and so does a symptom noted in a test or a
    session of a later day.
    """
    known = history.as_of(today)
    responses = [response.on for response in known.of(MorningResponse)]
    heard = max([*responses, *(entry.on for entry in felt(known))], default=date.min)
    return tuple(move for move in _moves_up(known) if move.on >= heard)


def turned_out_badly(history: History, today: date) -> tuple[Moved, ...]:
    """Return the moves up that stand and whose first morning after was bad, oldest first.

    A person is offered to take them back, until somebody decides about the same stage or
    ladder again, or the same was done once more and the morning after was good.
    """
    known = history.as_of(today)
    return tuple(move for move in _moves_up(known) if _went_badly(known, move))


def _went_badly(known: History, move: Moved) -> bool:
    mornings = sorted({r.on for r in known.of(MorningResponse) if r.on > move.on})
    if not mornings or not morning_troubles(known, mornings[0]):
        return False
    if any(later.on >= mornings[0] for later in _alike(known, move)):
        return False
    again = min((s.on for s in known.sessions if s.on >= mornings[0]), default=None)
    since = [] if again is None else [on for on in mornings if on > again]
    return all(morning_troubles(known, on) for on in since)


def _moves_up(known: History) -> Iterator[Moved]:
    """Yield the moves above where the day before ended that no later move has taken back."""
    moves = [
        fact.value for fact in known.facts if isinstance(fact.value, StageMoved | LevelMoved)
    ]
    for move in moves:
        alike = _alike(known, move)
        place = next(i for i, other in enumerate(alike) if other is move)
        before = [_height(other) for other in alike if other.on < move.on]
        if (before or [1])[-1] < _height(move) <= min(map(_height, alike[place:])):
            yield move


def _alike(known: History, move: Moved) -> list[Moved]:
    """Return every move of the same stage path or ladder, oldest first."""
    if isinstance(move, StageMoved):
        return list(known.of(StageMoved))
    return [other for other in known.of(LevelMoved) if other.ladder == move.ladder]


def _height(move: Moved) -> int:
    return move.stage if isinstance(move, StageMoved) else move.level


def _on(history: History, day: date) -> list[MorningResponse]:
    return [response for response in history.of(MorningResponse) if response.on == day]


def _worst(history: History, day: date) -> int | None:
    return max((response.symptom.score for response in _on(history, day)), default=None)


def _badness(symptom: Symptom) -> tuple[bool, int]:
    return symptom.feeling is Feeling.SHARP, symptom.score
