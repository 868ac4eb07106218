"""The pace of a case: how much slower or faster its finished stages were than expected."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import exp, log

from teamrehab.forecast.courses import Course, End, visits
from teamrehab.forecast.outliers import trust


@dataclass(frozen=True, slots=True)
class Pace:
    """The pace on the log scale, with its variance; exp(mean) is the factor people read."""

    mean: float
    variance: float


def pace_of(
    course: Course, log_means: Sequence[float], sds: Sequence[float], prior: float, redo: float
) -> Pace:
    """Return the pace learned from the finished visits.

    ``log_means`` and ``sds`` are by phase, ``prior`` is the variance of the pace before,
    ``redo`` what a second visit adds. Stays far off weigh less (three passes).
    """
    told = list(_told(course, log_means, redo))
    pace = Pace(0.0, prior)
    for _turn in range(3 if told else 0):
        precision, pull = 1 / prior, 0.0
        for phase, residual, weight in told:
            sd = sds[phase]
            w = weight * float(trust((residual - pace.mean) / sd)) / sd**2
            precision += w
            pull += w * residual
        pace = Pace(pull / precision, 1 / precision)
    return pace


def _told(
    course: Course, log_means: Sequence[float], redo: float
) -> Iterator[tuple[int, float, float]]:
    """Yield phase index, residual and weight of each stage of each finished visit."""
    for visit in visits(course):
        if visit.end is End.OPEN:
            continue
        expected = [
            log_means[phase - 1] + redo * again
            for phase, again in zip(visit.phases, visit.redo, strict=True)
        ]
        whole = sum(exp(e) for e in expected)
        for phase, e in zip(visit.phases, expected, strict=True):
            yield phase - 1, log(visit.days * exp(e) / whole + 1) - e, 1 / len(expected)
