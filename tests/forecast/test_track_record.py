"""Forecasts of many invented clubs, scored: honest ranges that beat the published figures."""

import warnings
from dataclasses import dataclass

import numpy as np
import pytest
from lifelines import KaplanMeierFitter
from scipy.stats import lognorm

from teamrehab.forecast import Course, Status, estimates, fit
from tests.forecast.clubs import PUBLISHED, TODAY, Club, as_known

CLUBS, CASES, EVERY, GRID = 20, 20, 7, 420


@dataclass
class Scores:
    """Mid-PIT and CRPS (days) of the model, CRPS of the references, Brier parts at 14 days."""

    pit: list
    ours: list
    published: list
    curve: list
    brier: list
    brier_published: list

    def skill(self, ours: str, reference: str):
        return 1 - np.mean(getattr(self, ours)) / np.mean(getattr(self, reference))

    @property
    def coverage(self) -> float:
        pit = np.array(self.pit)
        return float(np.mean((pit >= 0.1) & (pit <= 0.9)))


def crps(cdf, days: int) -> float:
    """Sum over whole days of (F(d) - 1[d >= y])^2 (J Am Stat Assoc 2007;102:359-378)."""
    reached = np.arange(1, GRID + 1) >= days
    return float(np.sum((np.asarray(cdf) - reached) ** 2))


def mid_pit(cdf, days: int):
    before = cdf[days - 2] if days > 1 else 0.0
    return (before + cdf[days - 1]) / 2


def published_cdf(case: Course, day: int):
    mu, sigma = PUBLISHED.figure(case.injury, case.muscle).log_normal
    total = lognorm(sigma, scale=np.exp(mu))
    return 1 - total.sf(day + np.arange(1, GRID + 1)) / total.sf(day)


def curve_cdf(curve: KaplanMeierFitter | None, case: Course, day: int):
    if curve is None or curve.predict(day) <= 0:
        return published_cdf(case, day)
    ahead = curve.predict(day + np.arange(1, GRID + 1)).to_numpy()
    return 1 - ahead / curve.predict(day)


def score(past_cases: int, seed: int) -> Scores:
    scores = Scores([], [], [], [], [], [])
    for number in range(CLUBS):
        rng = np.random.default_rng((seed, number))
        club = Club(rng, slow=float(np.exp(rng.normal(0, 0.25))))
        past = club.cases(past_cases)
        score_club(scores, past, club.cases(CASES, "now"))
    return scores


def score_club(scores: Scores, past: list[Course], now: list[Course]) -> None:
    model = fit(past, PUBLISHED)
    curve = None
    if past:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            seen = [case.status is Status.CLEARED for case in past]
            curve = KaplanMeierFitter().fit([case.until for case in past], seen)
    asked = [
        (case, day)
        for case in now
        if case.status is Status.CLEARED
        for day in range(2, case.until, EVERY)
    ]
    found = estimates(model, [as_known(case, day) for case, day in asked], TODAY)
    for (case, day), estimate in zip(asked, found, strict=True):
        y = case.until - day
        reference = published_cdf(case, day)
        scores.pit.append(mid_pit(estimate.cdf, y))
        scores.ours.append(crps(estimate.cdf, y))
        scores.published.append(crps(reference, y))
        scores.curve.append(crps(curve_cdf(curve, case, day), y))
        scores.brier.append((estimate.cdf[13] - (y <= 14)) ** 2)
        scores.brier_published.append((reference[13] - (y <= 14)) ** 2)


def report(scores: Scores) -> str:
    return (
        f"{len(scores.pit)} snapshots: coverage {scores.coverage:.3f}, "
        f"skill against the published prior {scores.skill('ours', 'published'):.3f}, "
        f"against the curve {scores.skill('ours', 'curve'):.3f}, "
        f"Brier at 14 days {scores.skill('brier', 'brier_published'):.3f}"
    )


@pytest.mark.slow
def test_without_a_past_case_the_range_is_honest_and_beats_the_published_figure():
    scores = score(0, seed=1)
    print(report(scores))
    assert 0.74 <= scores.coverage <= 0.93
    assert scores.skill("ours", "published") >= 0.15


@pytest.mark.slow
def test_with_fifty_past_cases_the_range_is_honest_and_beats_figure_and_curve():
    scores = score(50, seed=2)
    print(report(scores))
    assert 0.75 <= scores.coverage <= 0.87
    assert scores.skill("ours", "published") >= 0.28
    assert scores.skill("ours", "curve") >= 0.30
    assert scores.skill("brier", "brier_published") >= 0.32
