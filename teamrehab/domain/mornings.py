"""The morning after: how the leg answered, and what it says about a move up.

The 24-hour rule - what was done is judged by the next morning too - is common practice; a
similar rule is used for tendons (Am J Sports Med 2007;35:897, doi 10.1177/0363546506298279).
"""

from collections.abc import Iterator
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.measures import Feeling, MorningResponse, SessionEntry, Symptom
from teamrehab.domain.safety import is_too_much, too_much, why_asked
from teamrehab.domain.situation import felt

Moved = StageMoved | LevelMoved


def morning_of(history: History, day: date) -> MorningResponse | None:
    """Return the response of the morning of ``day``; of several the worst, sharp above all."""
    return max(_on(history, day), key=lambda response: _badness(response.symptom), default=None)


def morning_rise(history: History, day: date) -> tuple[int, int] | None:
    """Return what the morning of ``day`` is held against, and its symptom; None if one lacks.

    Like with like: the morning before the latest session, so that a second bad morning is not
    held against the first, and not one that was too much, beside which any would look calm.
    Where none was noted before that session, the worst symptom of its day counts: an athlete
    who trained without a symptom and wakes with one is asked about. Where that lacks too, or
    there was no session, it is the last morning before ``day``; without any, the last day on
    which a session or a test noted a symptom.
    """
    before, now = _held_against(history, day), _worst(history, day)
    return None if before is None or now is None else (before, now)


def _held_against(history: History, day: date) -> int | None:
    earlier = [response.on for response in history.of(MorningResponse) if response.on < day]
    last = max((s.on for s in history.of(SessionEntry) if s.on < day), default=date.min)
    calm = [on for on in earlier if on <= last and not _was_too_much(history, on)]
    if calm:
        return _worst(history, max(calm))
    before = _worst_felt(history, last)
    if before is None and earlier:
        return _worst(history, max(earlier))
    days = (entry.on for entry in felt(history) if entry.on < day)
    return _worst_felt(history, max(days, default=date.min)) if before is None else before


def morning_troubles(history: History, day: date) -> tuple[str, ...]:
    """Return what is bad about the morning of ``day``: 4 or more, sharp, or a rise of 2."""
    response = morning_of(history, day)
    if response is None:
        return ()
    worst = Symptom(_worst(history, day) or 0, response.symptom.feeling)
    return why_asked(worst, None, None, morning_rise(history, day))


def _settling_mornings(history: History) -> dict[date, bool]:
    """Return the mornings that say how the leg answered, and whether that was bad.

    A calm response under a painkiller says nothing; a bad one is bad all the same.
    """
    told = history.of(MorningResponse)
    bad = {response.on: bool(morning_troubles(history, response.on)) for response in told}
    unmasked = {response.on for response in told if not response.painkiller}
    return {day: bad[day] for day in sorted(bad) if bad[day] or day in unmasked}


def provisional(history: History, today: date) -> tuple[Moved, ...]:
    """Return the moves up that stand and that nothing has judged yet, oldest first.

    The response of a later morning judges a move; a test or a session does only if it was
    too much. Calm under a painkiller judges nothing. On a later day a person may decide about
    the same stage or ladder again: then that decision is what waits.
    """
    known = history.as_of(today)
    mornings = _settling_mornings(known)
    return tuple(move for move in _moves_up(known) if _judged(known, mornings, move) is None)


def turned_out_badly(history: History, today: date) -> tuple[Moved, ...]:
    """Return the moves up that stand and whose first answer after was bad, oldest first.

    A person is offered to take them back, until somebody decides about the same stage or
    ladder again, or the same was done once more and the morning after was good.
    """
    known = history.as_of(today)
    mornings = _settling_mornings(known)
    return tuple(move for move in _moves_up(known) if _went_badly(known, mornings, move))


def _judged(known: History, mornings: dict[date, bool], move: Moved) -> date | None:
    """Return the day that first judged a move: by its morning, else by too much in training."""
    bad = [entry.on for entry in felt(known) if too_much(entry.symptom)]
    return min((day for day in (*mornings, *bad) if day > move.on), default=None)


def _went_badly(known: History, mornings: dict[date, bool], move: Moved) -> bool:
    judged = _judged(known, mornings, move)
    if judged is None or not mornings.get(judged, True):
        return False
    by_morning = judged in mornings
    done = [session for session in known.sessions if _calm(session)]
    days = [s.on for s in done if s.on > judged or (by_morning and s.on == judged)]
    since = [day for day in mornings if days and day > min(days)]
    return all(mornings[day] for day in since)


def _calm(session: SessionEntry) -> bool:
    return not session.painkiller and not too_much(session.symptom)


def _moves_up(known: History) -> Iterator[Moved]:
    """Yield the moves above where the day before ended that nobody decided about again.

    On the same day a second step stands beside the first, unless it goes back.
    """
    moves = [
        fact.value for fact in known.facts if isinstance(fact.value, StageMoved | LevelMoved)
    ]
    for move in moves:
        alike = _alike(known, move)
        if alike[-1].on > move.on:
            continue
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


def _worst_felt(history: History, day: date) -> int | None:
    """Return the worst symptom of the sessions and tests of a day, None without one."""
    scores = [e.symptom.score for e in felt(history) if e.symptom and e.on == day]
    return max(scores, default=None)


def _was_too_much(history: History, day: date) -> bool:
    return any(is_too_much(response.symptom) for response in _on(history, day))


def _badness(symptom: Symptom) -> tuple[bool, int]:
    return symptom.feeling is Feeling.SHARP, symptom.score
