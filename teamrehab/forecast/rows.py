"""The courses of a club as arrays: one row for each stage a visit tells something about."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from teamrehab.forecast.columns import REDO, Array, Columns, offsets
from teamrehab.forecast.courses import PHASES, Course, End, Visit, visits
from teamrehab.forecast.published import Published

Indices = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Rows:
    """n rows, sorted by case.

    offset: published log-mean. x: design, (n, columns). phase: 0-4. case: index of the case.
    starts: first row of each case. weight: 1, or 1/length in a span. days: of the visit.
    open: the visit had not ended. span: index of the visit for rows that share one, else -1.
    """

    offset: Array
    x: Array
    phase: Indices
    case: Indices
    starts: Indices
    weight: Array
    days: Array
    open: npt.NDArray[np.bool_]
    span: Indices


def rows_of(courses: Sequence[Course], columns: Columns, published: Published) -> Rows:
    """Return the rows of at least one course."""
    met = [visits(course) for course in courses]
    flat = list(_flat(met))
    case = np.array([row[0] for row in flat], dtype=np.int64)
    phase = np.array([row[2] for row in flat], dtype=np.int64)
    every = [row[3] for row in flat]
    x = np.stack([columns.of_case(course) for course in courses])[case, phase]
    x[:, REDO] = [row[4] for row in flat]
    return Rows(
        offset=np.stack([offsets(course, published) for course in courses])[case, phase],
        x=x,
        phase=phase,
        case=case,
        starts=np.searchsorted(case, np.arange(len(courses))),
        weight=np.array([1 / len(visit.phases) for visit in every]),
        days=np.array([float(visit.days) for visit in every]),
        open=np.array([visit.end is End.OPEN for visit in every]),
        span=np.array([row[1] for row in flat], dtype=np.int64),
    )


def _flat(met: Sequence[Sequence[Visit]]) -> Iterator[tuple[int, int, int, Visit, bool]]:
    """Yield case, span (-1 if none), phase index, visit and redo of each row."""
    spans = 0
    for case, of_case in enumerate(met):
        for visit in of_case:
            span = spans if len(visit.phases) > 1 else -1
            spans += span >= 0
            for phase, redo in zip(visit.phases, visit.redo, strict=True):
                yield case, span, phase - 1, visit, redo


def setback_rates(courses: Sequence[Course], rate: float, weight: float) -> Array:
    """Return the chance of a setback on leaving each phase, shape (5,).

    ``rate`` is worth ``weight`` exits; the first phase has no way back, the second half of it.
    """
    ends = [
        visit for course in courses for visit in visits(course) if visit.end is not End.OPEN
    ]
    left = np.zeros(len(PHASES))
    back = np.zeros(len(PHASES))
    for visit in ends:
        left[visit.phases[-1] - 1] += 1
        back[visit.phases[-1] - 1] += visit.end is End.BACK
    return np.asarray((rate * weight + back) / (weight + left) * (0, 0.5, 1, 1, 1))
