"""Formulas of rehab measures, each with its source; a ratio without a base answers None."""

from math import sqrt

GRAVITY = 9.81
"""Metres per second squared."""

_BOTH_TESTS = sqrt(2)
"""Both the first and the second test carry the error of measurement."""


def symmetry_index(involved: float, other: float, *, timed: bool = False) -> float | None:
    """Return the limb symmetry index in percent: the involved side against the other.

    For timed tests, where less is better, the ratio is turned over, so that under 100 always
    means that the involved side is behind. None where there is nothing to divide by (0 of 0).
    Source: Knee Surg Sports Traumatol Arthrosc 2010;18:258, doi 10.1007/s00167-009-0889-7;
    turned over for timed tests: from memory.
    """
    above, below = (other, involved) if timed else (involved, other)
    return 100 * above / below if below else None


def percent_difference(one: float, another: float) -> float | None:
    """Return how far the lower side lies under the higher, in percent (0 means equal).

    It has no direction: say beside it which side is lower. None for 0 and 0.
    Source: Strength Cond J 2018;40(4):1, doi 10.1519/SSC.0000000000000371.
    """
    highest = max(one, another)
    return 100 - 100 * min(one, another) / highest if highest else None


def percent_of_healthy(involved_now: float, healthy: float) -> float | None:
    """Return the involved side today in percent of the athlete's own healthy value.

    ``healthy`` is the value from before the injury or the other side at the first test, so
    that it cannot flatter when the other side loses strength in the meantime.
    Source: J Orthop Sports Phys Ther 2017;47:334.
    """
    return 100 * involved_now / healthy if healthy else None


def jump_height(flight: float, gravity: float = GRAVITY) -> float:
    """Return the height in metres of a jump that flew for ``flight`` seconds.

    True for the same posture at take-off and landing; bent landings are flattered, by
    0.025 m on average (Appl Sci 2020;10:776).
    Source: Am J Phys 2001;69:1198, doi 10.1119/1.1397460.
    """
    return gravity * flight**2 / 8


def reactive_strength_by_height(flight: float, contact: float) -> float | None:
    """Return jump height over ground contact in metres per second; both times in seconds.

    About half the figure of the other definition: never compare the two.
    Source: Sports Med 2022;52:301.
    """
    return jump_height(flight) / contact if contact else None


def reactive_strength_by_flight(flight: float, contact: float) -> float | None:
    """Return flight time over ground contact, a number without a unit.

    Source: Sports Med 2022;52:301.
    """
    return flight / contact if contact else None


def heel_raise_work(mass: float, height: float, repetitions: int) -> float:
    """Return the work in joules of raising ``mass`` kg by ``height`` m so many times.

    Heights from different marker places are not comparable.
    Source: mass x gravity x sum of heights (physics).
    """
    return mass * GRAVITY * height * repetitions


def error_from_reliability(deviation: float, icc: float) -> float:
    """Return the standard error of measurement from a spread and its reliability (ICC).

    Source: SD x sqrt(1 - ICC), the standard definition (from memory).
    """
    return deviation * sqrt(1 - icc)


def detectable_change_95(standard_error: float) -> float:
    """Return the smallest change that is not measurement error, 95 % sure.

    Source: 1.96 x sqrt(2) x SEM, the standard definition (from memory).
    """
    return 1.96 * _BOTH_TESTS * standard_error


def detectable_change_90(standard_error: float) -> float:
    """Return the smallest change that is not measurement error, 90 % sure.

    Source: 1.645 x sqrt(2) x SEM, the standard definition (from memory).
    """
    return 1.645 * _BOTH_TESTS * standard_error


def detectable_change_from_limits(lower: float, upper: float) -> float:
    """Return the smallest detectable change (95 %) from limits of agreement.

    Source: half their width, which is 1.96 x the spread of the differences (from memory).
    """
    return (upper - lower) / 2


def error_from_limits(lower: float, upper: float) -> float:
    """Return the standard error of measurement from limits of agreement.

    Source: half their width / 1.96 / sqrt(2) (from memory).
    """
    return detectable_change_from_limits(lower, upper) / 1.96 / _BOTH_TESTS
