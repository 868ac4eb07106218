"""Courses for tests, and clubs deliberately unlike the model that forecasts them.

A stay is Weibull, not log-normal; severity is gamma; an athlete is looked at every one or two
days and moves up only when a noisy test is passed; shares of the stages differ from the prior;
some entries are never written down.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import gamma
from typing import Any

import numpy as np

from teamrehab.forecast import Course, Status, published_figures

TODAY = date(2026, 11, 2)
PUBLISHED = published_figures()
MIX = (
    ("calf_strain", "soleus"),
    ("calf_strain", "gastrocnemius"),
    ("hamstring_strain", ""),
    ("ankle_sprain", ""),
    ("adductor_strain", ""),
)
SHARES = (0.15, 0.30, 0.20, 0.15, 0.20)
WEIBULL_SHAPE, SEVERITY = 1.6, 3.5
FAILS, SLIPS, UNWRITTEN, LEAVES = 0.15, 0.05, 0.05, 0.03
GATES = 0.67
"""Waiting for tests and slips add about half: the published mean holds for what is recorded.
Severity is spread so that whole times of many clubs spread by 0.5 on the log scale; published
SDs stand for 0.5 to 0.8."""


def course(**changes) -> Course:
    """Return an open soleus strain of a 25-year-old, injured today."""
    values: dict[str, Any] = {
        "case_id": "c1",
        "athlete_id": "a1",
        "injury": "calf_strain",
        "muscle": "soleus",
        "age": 25,
        "injured_on": TODAY,
    }
    return Course(**(values | changes))


def through(*days: int, **changes) -> Course:
    """Return a course that entered phase 1, 2, ... on these days and was cleared after five."""
    entries = tuple((day, i + 1) for i, day in enumerate((0, *days)))[:5]
    done = Status.CLEARED if len(days) == 5 else Status.OPEN
    until = days[-1] if days else 0
    return course(**({"entries": entries, "status": done, "until": until} | changes))


@dataclass(frozen=True)
class Club:
    """A club whose stays last ``slow`` times the published ones."""

    rng: np.random.Generator
    slow: float = 1.0

    def cases(self, count: int, name: str = "p") -> list[Course]:
        return [self.case(f"{name}{i}") for i in range(count)]

    def case(self, case_id: str) -> Course:
        injury, muscle = MIX[self.rng.integers(len(MIX))]
        age = int(self.rng.integers(19, 34))
        severity = self.rng.gamma(SEVERITY) / SEVERITY
        mean = PUBLISHED.mean(injury, muscle, age=age) * severity * self.slow * GATES
        days, until = self._way(mean)
        left = self.rng.random() < LEAVES
        return Course(
            case_id=case_id,
            athlete_id=f"a{self.rng.integers(30)}",
            injury=injury,
            muscle=muscle,
            age=age,
            injured_on=TODAY - timedelta(days=400),
            entries=days,
            status=Status.LEFT if left else Status.CLEARED,
            until=max(until - 2, days[-1][0]) if left else until,
        )

    def _way(self, mean: float) -> tuple[tuple[tuple[int, int], ...], int]:
        day, phase, best, entries = 0, 1, 1, [(0, 1)]
        while phase < 6:
            day += self._stay(mean * SHARES[phase - 1] * (0.7 if phase < best else 1))
            back = phase > 1 and self.rng.random() < SLIPS
            phase += -1 if back else 1
            best = max(best, phase)
            if phase < 6 and (back or self.rng.random() > UNWRITTEN):
                entries.append((day, phase))
        written = [e for i, e in enumerate(entries) if i == 0 or e[1] != entries[i - 1][1]]
        return tuple(written), day

    def _stay(self, mean: float) -> int:
        ready = self.rng.weibull(WEIBULL_SHAPE) / gamma(1 + 1 / WEIBULL_SHAPE) * mean
        day = 0
        while day < ready or self.rng.random() < FAILS:
            day += int(self.rng.integers(1, 3))
        return day


def as_known(case: Course, day: int) -> Course:
    """Return what was known of a case at the end of ``day``, moved so that this is today."""
    return replace(
        case,
        injured_on=TODAY - timedelta(days=day),
        entries=tuple(entry for entry in case.entries if entry[0] <= day),
        status=Status.OPEN,
        until=day,
    )
