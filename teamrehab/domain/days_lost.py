"""Days lost, counted from what was stated about availability and never from stages.

Source: Br J Sports Med 2020;54:372, doi 10.1136/bjsports-2019-101969.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from itertools import groupby, pairwise

from teamrehab.domain.availability import AvailabilityStated, Match, Training

_DAY = timedelta(days=1)


class DayZero(StrEnum):
    """Which day is not counted.

    The consensus counts from onset, but prints 3 for an athlete who went on training for two
    days and then missed four: there the first missed day is day zero. Both are offered, and
    the onset is what counts everywhere unless a report says otherwise.
    """

    ONSET = "day of onset"
    FIRST_MISSED = "first missed day"


@dataclass(frozen=True, slots=True)
class DaysLost:
    """Days without full training and match availability.

    ``with_limits`` of the ``lost`` days were spent training with limits, or training in full
    without being available for a match.
    """

    lost: int
    with_limits: int


def days_lost(
    onset: date,
    statements: Iterable[AvailabilityStated],
    today: date,
    until: date | None = None,
    day_zero: DayZero = DayZero.ONSET,
) -> DaysLost:
    """Return the days lost by one case.

    Every day counts from the day after onset on which the athlete was not fully available,
    whether or not the team trained. The day of full return does not count. ``until`` is the
    day the case was closed (not counted); an open case counts up to and including ``today``.
    A day nobody has spoken of yet is a day out.
    """
    end = until if until is not None else today + _DAY
    stretches = _stretches(onset, statements, end)
    if day_zero is DayZero.FIRST_MISSED:
        stretches = _without_first_missed(stretches)
    missed = [s for s in stretches if s.lost]
    return DaysLost(
        lost=sum(s.days for s in missed),
        with_limits=sum(s.days for s in missed if s.training is not Training.NONE),
    )


@dataclass(frozen=True, slots=True)
class _Stretch:
    """So many days in a row under one statement."""

    days: int
    training: Training
    match: Match

    @property
    def lost(self) -> bool:
        return (self.training, self.match) != (Training.FULL, Match.AVAILABLE)


def _stretches(
    onset: date, statements: Iterable[AvailabilityStated], end: date
) -> list[_Stretch]:
    """Return what held from the day after onset to the day before ``end``."""
    first = onset + _DAY
    changes = [(first, Training.NONE, Match.NOT_AVAILABLE)]
    by_day = sorted(statements, key=lambda s: s.on)
    for on, said in groupby(by_day, key=lambda s: s.on):
        together = list(said)
        changes.append(
            (
                max(on, first),
                max((s.training for s in together), key=list(Training).index),
                max((s.match for s in together), key=list(Match).index),
            )
        )
    changes.append((end, Training.FULL, Match.AVAILABLE))
    return [
        _Stretch(max((min(after, end) - start).days, 0), training, match)
        for (start, training, match), (after, _t, _m) in pairwise(changes)
    ]


def _without_first_missed(stretches: list[_Stretch]) -> list[_Stretch]:
    """Return the stretches with the first missed day taken away.

    Where the very day of onset was missed already (the first stretch), it was day zero.
    """
    found = next((i for i, s in enumerate(stretches) if s.lost and s.days), None)
    if found is None or not any(s.days for s in stretches[:found]):
        return stretches
    late = stretches[found]
    shorter = _Stretch(late.days - 1, late.training, late.match)
    return [*stretches[:found], shorter, *stretches[found + 1 :]]
