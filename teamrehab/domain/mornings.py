"""The morning after: how the leg answered, and what it says about a move up.

The 24-hour rule - what was done is judged by the next morning too - is common practice; a
similar rule is used for tendons (Am J Sports Med 2007;35:897, doi 10.1177/0363546506298279).
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.measures import Feeling, MorningResponse, SessionEntry, Symptom
from teamrehab.domain.safety import HIGH, is_too_much, too_much, why_asked
from teamrehab.domain.situation import Felt, felt

Moved = StageMoved | LevelMoved


@dataclass(frozen=True, slots=True)
class Morning:
    """The worst of one morning, and the score it is held against (None: nothing to hold).

    ``high`` is the symptom from which on it is too much, whatever it was before.
    """

    on: date
    before: int | None
    felt: Symptom
    high: int = HIGH

    @property
    def rise(self) -> tuple[int, int] | None:
        """Return the score before and now."""
        return None if self.before is None else (self.before, self.felt.score)

    @property
    def troubles(self) -> tuple[str, ...]:
        """Return what is bad about it: too much (4 or more), sharp, or a rise of 2."""
        return why_asked(self.felt, None, None, self.rise, high=self.high)


def mornings_of(history: History, high: int = HIGH) -> dict[date, Morning]:
    """Return every morning noted, oldest first; of several responses the worst counts.

    Like with like: a morning is held against the newest good one before the latest session, so
    that a bad one is nothing to be held against, beside which any would look calm. Where there
    is none, the worst symptom of the last day of training that was not too much counts: an
    athlete who trained without a symptom and wakes with one is asked about. Without a session
    before it, it is held against the last good morning first. ``high`` is what a protocol
    that allows more than usual sets as too much (``Situation.alarm``).
    """
    worst = worst_by_day(history.of(MorningResponse))
    trained = worst_by_day(felt(history))
    loads = sorted({session.on for session in history.sessions})
    found: dict[date, Morning] = {}
    good: dict[date, int] = {}
    for day in sorted(worst):
        before = _held_against(day, good, loads, trained)
        found[day] = Morning(day, before, worst[day], high)
        if not found[day].troubles:
            good[day] = worst[day].score
    return found


def _held_against(
    day: date,
    good: Mapping[date, int],
    loads: Sequence[date],
    trained: Mapping[date, Symptom],
) -> int | None:
    last = max((on for on in loads if on < day), default=date.min)
    compared = [on for on in good if on <= last]
    if compared:
        return good[max(compared)]
    calm = [on for on in trained if on < day and not is_too_much(trained[on])]
    if good and (last not in calm):
        return good[max(good)]
    return trained[max(calm)].score if calm else None


def worst_by_day(entries: Iterable[Felt | MorningResponse]) -> dict[date, Symptom]:
    """Return the worst symptom of each day: the highest score, sharp if one of them was."""
    found: dict[date, Symptom] = {}
    for entry in entries:
        if entry.symptom is not None:
            found[entry.on] = _worse(entry.symptom, found.get(entry.on))
    return found


def _worse(one: Symptom, other: Symptom | None) -> Symptom:
    if other is None:
        return one
    score = max(one.score, other.score)
    if Feeling.SHARP in (one.feeling, other.feeling):
        return Symptom(score, Feeling.SHARP)
    return one if one.score >= other.score else other


def morning_of(history: History, day: date) -> MorningResponse | None:
    """Return the response of the morning of ``day``; of several the worst, sharp above all."""
    told = [response for response in history.of(MorningResponse) if response.on == day]
    return max(told, key=lambda response: _badness(response.symptom), default=None)


def morning_rise(history: History, day: date) -> tuple[int, int] | None:
    """Return what the morning of ``day`` is held against, and its symptom, if both exist."""
    morning = mornings_of(history).get(day)
    return None if morning is None else morning.rise


def morning_troubles(history: History, day: date) -> tuple[str, ...]:
    """Return what is bad about the morning of ``day``: 4 or more, sharp, or a rise of 2."""
    morning = mornings_of(history).get(day)
    return () if morning is None else morning.troubles


def _settling_mornings(history: History, high: int) -> dict[date, bool]:
    """Return the mornings that say how the leg answered, and whether that was bad.

    A calm response under a painkiller says nothing; a bad one is bad all the same.
    """
    told = history.of(MorningResponse)
    bad = {day: bool(morning.troubles) for day, morning in mornings_of(history, high).items()}
    unmasked = {response.on for response in told if not response.painkiller}
    return {day: bad[day] for day in sorted(bad) if bad[day] or day in unmasked}


def provisional(history: History, today: date, high: int = HIGH) -> tuple[Moved, ...]:
    """Return the moves up that stand and that nothing has judged yet, oldest first.

    The response of a later morning judges a move; a test or a session does only if it was
    too much. Calm under a painkiller judges nothing. On a later day a person may decide about
    the same stage or ladder again: then that decision is what waits.
    """
    known = history.as_of(today)
    mornings = _settling_mornings(known, high)
    return tuple(
        move for move in _moves_up(known) if _judged(known, mornings, move, high) is None
    )


def turned_out_badly(history: History, today: date, high: int = HIGH) -> tuple[Moved, ...]:
    """Return the moves up that stand and whose first answer after was bad, oldest first.

    A person is offered to take them back, until somebody decides about the same stage or
    ladder again, or the same was done once more and the morning after was good.
    """
    known = history.as_of(today)
    mornings = _settling_mornings(known, high)
    return tuple(move for move in _moves_up(known) if _went_badly(known, mornings, move, high))


def _judged(known: History, mornings: dict[date, bool], move: Moved, high: int) -> date | None:
    """Return the day that first judged a move: by its morning, else by too much in training."""
    bad = [entry.on for entry in felt(known) if too_much(entry.symptom, high)]
    return min((day for day in (*mornings, *bad) if day > move.on), default=None)


def _went_badly(known: History, mornings: dict[date, bool], move: Moved, high: int) -> bool:
    judged = _judged(known, mornings, move, high)
    if judged is None or not mornings.get(judged, True):
        return False
    by_morning = judged in mornings
    done = [session for session in known.sessions if _calm(session, high)]
    days = [s.on for s in done if s.on > judged or (by_morning and s.on == judged)]
    since = [day for day in mornings if days and day > min(days)]
    return all(mornings[day] for day in since)


def _calm(session: SessionEntry, high: int) -> bool:
    return not session.painkiller and not too_much(session.symptom, high)


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


def _badness(symptom: Symptom) -> tuple[bool, int]:
    return symptom.feeling is Feeling.SHARP, symptom.score
