"""The design: which correction to the published figures belongs in which column."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from teamrehab.forecast import assumptions as known
from teamrehab.forecast.courses import PHASES, Course
from teamrehab.forecast.published import REFERENCE_AGE, Published

Array = npt.NDArray[np.float64]

_CLUB, _GRADE, _RECURRENCE, _AGE, _PHASE = 0, 1, 4, 5, 6
REDO = 11
_KINDS = 12


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """Where each correction stands: ``kinds`` by (injury, muscle), ``athletes`` by id."""

    kinds: Mapping[tuple[str, str], int]
    athletes: Mapping[str, int]

    @property
    def size(self) -> int:
        """Return the number of columns."""
        return _KINDS + len(self.kinds) + len(self.athletes)

    def kind(self, course: Course) -> int:
        """Return the column of the injury and muscle; an unknown muscle counts as none."""
        exact = self.kinds.get((course.injury, course.muscle))
        return self.kinds[(course.injury, "")] if exact is None else exact

    def of_case(self, course: Course) -> Array:
        """Return the five rows (one a phase, no redo) of a case, shape (5, size)."""
        x = np.zeros((len(PHASES), self.size))
        x[:, _CLUB] = 1
        x[:, self.kind(course)] = 1
        if course.grade in (1, 2, 3):
            x[:, _GRADE + course.grade - 1] = 1
        x[:, _RECURRENCE] = course.recurrence
        x[:, _AGE] = 0 if course.age is None else (course.age - REFERENCE_AGE) / 10
        x[range(5), range(_PHASE, _PHASE + 5)] = 1
        if course.athlete_id in self.athletes:
            x[:, self.athletes[course.athlete_id]] = 1
        return x

    def prior(self) -> tuple[Array, Array]:
        """Return mean and SD of each correction before any case of the club."""
        mean = np.zeros(self.size)
        mean[REDO] = known.REDO_MEAN
        sd = np.full(self.size, known.KIND_SD)
        sd[_CLUB] = known.CLUB_SD
        sd[_GRADE : _GRADE + 3] = known.GRADE_SD
        sd[_RECURRENCE] = known.RECURRENCE_SD
        sd[_AGE] = known.AGE_SD
        sd[_PHASE : _PHASE + 5] = known.PHASE_SD
        sd[REDO] = known.REDO_SD
        sd[_KINDS + len(self.kinds) :] = known.ATHLETE_SD
        return mean, sd


def columns_of(courses: Sequence[Course], published: Published) -> Columns:
    """Return the columns: each published kind, and each athlete with more than one case."""
    pairs = [
        (injury, muscle)
        for injury, figures in published.injuries.items()
        for muscle in ("", *figures.muscles)
    ]
    cases = Counter(course.athlete_id for course in courses)
    repeated = sorted(athlete for athlete, count in cases.items() if count > 1)
    first_athlete = _KINDS + len(pairs)
    return Columns(
        kinds={pair: _KINDS + i for i, pair in enumerate(pairs)},
        athletes={athlete: first_athlete + i for i, athlete in enumerate(repeated)},
    )


def offsets(course: Course, published: Published) -> Array:
    """Return the published log-mean of each phase, shape (5,), on the scale log(days + 1)."""
    mean = published.mean(
        course.injury,
        course.muscle,
        grade=course.grade,
        recurrence=course.recurrence,
        age=course.age,
    )
    shares = np.asarray(published.stage_shares)
    room = known.ROOM_FOR_SETBACKS
    return np.asarray(np.log(room * mean * shares + 1) - known.TOTAL_VARIANCE / 2)
