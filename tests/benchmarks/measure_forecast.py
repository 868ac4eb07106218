"""Estimates and refits against the reference survival library on the same cases.

Run with OPENBLAS_NUM_THREADS=1: the matrices are small.
"""

import warnings
from collections.abc import Iterator

import numpy as np
import pandas as pd  # type: ignore[import-untyped]
from lifelines import LogNormalAFTFitter

from teamrehab.forecast import Course, Status, estimates, fit
from tests.benchmarks.figures import Figure, compare
from tests.forecast.clubs import MIX, PUBLISHED, TODAY, Club, as_known

AHEAD = np.arange(1, 421)


def figures() -> Iterator[Figure]:
    """Yield the figures of the forecast: 200 past cases, 60 open ones."""
    club = Club(np.random.default_rng(1))
    past = club.cases(200)
    opened = [case for case in club.cases(80, "now") if case.until > 9]
    still_open = [as_known(case, 9) for case in opened][:60]
    cases = [*past, *still_open]
    model = fit(cases, PUBLISHED)
    yield compare(
        f"refit at 200 past cases / log-normal regression, {len(still_open)} open",
        lambda: fit(cases, PUBLISHED),
        lambda: fitted(cases),
        bound=1,
    )
    yield compare(
        f"{len(still_open)} estimates / regression fitted once, own case counted in",
        lambda: estimates(model, still_open, TODAY),
        lambda: predicted(fitted(cases), still_open),
        bound=0.5,
    )
    few = still_open[:10]
    yield compare(
        "10 estimates / regression fitted without each case in turn",
        lambda: estimates(model, few, TODAY),
        lambda: [predicted(fitted([c for c in cases if c != one]), [one]) for one in few],
        bound=1 / 20,
        rounds=5,
    )


def table(courses: list[Course]) -> pd.DataFrame:
    kinds = {
        " ".join(kind): [float((c.injury, c.muscle) == kind) for c in courses]
        for kind in MIX[1:]
    }
    return pd.DataFrame(kinds).assign(
        age=[float(c.age or 25) for c in courses],
        days=[c.until + 0.5 for c in courses],
        closed=[c.status is Status.CLEARED for c in courses],
    )


def fitted(past: list[Course]) -> LogNormalAFTFitter:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return LogNormalAFTFitter().fit(table(past), "days", "closed")


def predicted(model: LogNormalAFTFitter, still_open: list[Course]) -> pd.DataFrame:
    asked = table(still_open)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return model.predict_survival_function(
            asked, times=AHEAD, conditional_after=asked["days"].to_numpy()
        )
