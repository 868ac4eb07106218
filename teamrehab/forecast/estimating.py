"""The estimate of open cases: the rest of the stage they are in and the stages to come."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import exp

import numpy as np

from teamrehab.domain.estimates import Estimate
from teamrehab.forecast import assumptions as known
from teamrehab.forecast.adding_up import remaining, remaining_in_all
from teamrehab.forecast.columns import REDO, Array, offsets
from teamrehab.forecast.courses import Course, Status, phases_done
from teamrehab.forecast.model import ClubModel
from teamrehab.forecast.nodes import nodes_given_stay
from teamrehab.forecast.pace import Pace, pace_of
from teamrehab.forecast.tails import log_normal_sum


@dataclass(frozen=True, slots=True, eq=False)
class _Position:
    """Where a case stands: phase (0 where stages are unknown), whole days in it, pace."""

    phase: int
    days: int
    log_means: Array
    sds: Array
    pace: Pace


def estimate(model: ClubModel, course: Course, today: date) -> Estimate:
    """Return the estimate of one open case at the end of ``today``."""
    return estimates(model, [course], today)[0]


def estimates(model: ClubModel, courses: Sequence[Course], today: date) -> tuple[Estimate, ...]:
    """Return the estimates of open cases at the end of ``today``, in their order.

    NoPublishedFigureError for an injury without one: ask ``reason_for_none`` first.
    """
    models = [model.without(course.case_id) for course in courses]
    positions = [
        _position(own, course, today) for own, course in zip(models, courses, strict=True)
    ]
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for i, position in enumerate(positions):
        groups[position.phase, _grid_class(position)].append(i)
    found: dict[int, Estimate] = {}
    for members in groups.values():
        chances = _chances(model, [positions[i] for i in members])
        for i, row in zip(members, chances, strict=True):
            found[i] = Estimate(
                today=today,
                cdf=tuple(row.tolist()),
                club_cases=len(models[i].cleared),
                same_injury_cases=models[i].cleared_of(courses[i].injury),
                pace=exp(positions[i].pace.mean),
            )
    return tuple(found[i] for i in range(len(courses)))


def _position(model: ClubModel, course: Course, today: date) -> _Position:
    """Return where a case stands in the eyes of a model that has not seen it."""
    if course.status is not Status.OPEN:
        raise ValueError("only an open case has an estimate")
    published = offsets(course, model.published)
    x = model.columns.of_case(course)
    log_means = published + x @ model.theta
    shared, sds = _uncertainty(model, x @ model.covariance @ x.T)
    if course.athlete_id not in model.columns.athletes:
        shared += known.ATHLETE_SD**2
    redo = float(model.theta[REDO])
    pace = pace_of(course, log_means.tolist(), sds.tolist(), shared, redo)
    entered, phase = course.entries[-1]
    for done in phases_done(course):
        log_means[done - 1] += redo
    days = max((today - course.injured_on).days - entered, 0)
    return _Position(phase if course.staged else 0, days, log_means, sds, pace)


def _uncertainty(model: ClubModel, of_means: Array) -> tuple[float, Array]:
    """Return the variance that all stages share, and each stage's own SD, shape (5,)."""
    off = (of_means.sum() - np.trace(of_means)) / (of_means.size - len(of_means))
    shared = max(float(off), 0.0)
    own = model.stage_sd**2 + np.maximum(np.diag(of_means) - shared, 0)
    return shared + model.case_sd**2, np.sqrt(own)


def _chances(model: ClubModel, positions: Sequence[_Position]) -> Array:
    """Return the chances by day of cases in the same phase, shape (cases, HORIZON)."""
    phase = positions[0].phase
    log_means = np.stack([p.log_means for p in positions])
    sds = np.stack([p.sds for p in positions])
    days = np.array([float(p.days) for p in positions])
    outlasted = _outlasted(phase, log_means, sds)
    mean, variance = np.array([(p.pace.mean, p.pace.variance) for p in positions]).T
    nodes, weights = nodes_given_stay(mean, variance, days, *outlasted)
    paced = log_means[:, None, :] + nodes[:, :, None]
    if phase == 0:
        return remaining_in_all(days, paced, sds, weights, model.setbacks)
    return remaining(phase, days, paced, sds, weights, model.setbacks)


def _outlasted(phase: int, log_means: Array, sds: Array) -> tuple[Array, Array]:
    """Return log-mean and SD of the time a case has been open for: its stage, or all five."""
    if phase == 0:
        return log_normal_sum(log_means, sds)
    return log_means[:, phase - 1], sds[:, phase - 1]


def _grid_class(position: _Position) -> int:
    """Return what keeps cases with alike grids together: long-open ones need a longer grid."""
    return 0 if position.phase else (position.days + known.HORIZON).bit_length()
