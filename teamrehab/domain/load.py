"""Training load as description: no number here says what an athlete may do.

Loads come one a day, oldest first, in arbitrary units. 0 is a day of rest and None a day of
which nothing is known: the two are never mixed up, and whatever would rest on an unknown day
is None. The ratio of short to long load is not supported as a limit (Int J Sports Physiol
Perform 2020;15:907; Sports Med 2021;51:581).
"""

from collections.abc import Sequence
from statistics import fmean, pstdev, stdev

WEEK = 7
MONTH = 28
"""Days of the short and of the long average (Br J Sports Med 2017;51:209)."""

Loads = Sequence[float | None]


def session_load(effort: int | None, minutes: int | None) -> int | None:
    """Return the load of a session: effort (RPE 0-10) x minutes, in arbitrary units.

    None where either was not asked.
    Source: J Strength Cond Res 2001;15:109.
    """
    return None if effort is None or minutes is None else effort * minutes


def ewma(loads: Loads, days: int) -> float | None:
    """Return the exponentially weighted average of the last day, seeded with the first.

    Each day counts 2 / (days + 1), all before it the rest. The seed fades slowly: of the
    28-day average it is still 14.5 % after 28 days.
    Source: Br J Sports Med 2017;51:209, doi 10.1136/bjsports-2016-096589.
    """
    known = _known(loads)
    if not known:
        return None
    weight, average = 2 / (days + 1), known[0]
    for load in known[1:]:
        average = weight * load + (1 - weight) * average
    return average


def weighted_ratio(loads: Loads) -> float | None:
    """Return the 7-day over the 28-day weighted average; None before 28 known days.

    Source: Br J Sports Med 2017;51:209, doi 10.1136/bjsports-2016-096589.
    """
    if len(loads) < MONTH:
        return None
    return _ratio(ewma(loads, WEEK), ewma(loads, MONTH))


def rolling_ratio(loads: Loads, *, coupled: bool) -> float | None:
    """Return the mean of the last 7 days over a longer one; None before 28 known days.

    Coupled, over all 28 days, the last 7 among them, which can never exceed 4; uncoupled,
    over the 21 days before. With U the uncoupled, the coupled is 4 U / (U + 3).
    Source: Br J Sports Med 2019;53:988, doi 10.1136/bjsports-2017-098925.
    """
    if len(loads) < MONTH:
        return None
    month = loads[-MONTH:]
    return _ratio(_mean(month[-WEEK:]), _mean(month if coupled else month[:-WEEK]))


def monotony(week: Loads, *, population: bool = False) -> float | None:
    """Return the mean of seven daily loads over their standard deviation.

    The deviation is that of a sample (over 6) unless ``population`` (over 7), which gives
    8 % more: say which beside the number. None unless all seven days are known, and where
    every day was alike.
    Source: J Strength Cond Res 2001;15:109 (formula from memory; the divisor is not printed).
    """
    known = _known(week)
    if known is None or len(known) != WEEK:
        return None
    return _ratio(fmean(known), pstdev(known) if population else stdev(known))


def strain(week: Loads, *, population: bool = False) -> float | None:
    """Return the week's whole load x its monotony, None where that is undefined.

    Source: J Strength Cond Res 2001;15:109 (formula from memory).
    """
    found, known = monotony(week, population=population), _known(week)
    return None if found is None or known is None else sum(known) * found


def _known(loads: Loads) -> list[float] | None:
    """Return the loads if every day is known."""
    known = [load for load in loads if load is not None]
    return known if len(known) == len(loads) else None


def _mean(loads: Loads) -> float | None:
    known = _known(loads)
    return fmean(known) if known else None


def _ratio(above: float | None, below: float | None) -> float | None:
    return None if above is None or not below else above / below
