"""Fit a club's stages to the published figures by expectation and maximisation.

log(days + 1) of a stay = published log-mean + corrections + the case's own pace + noise.
Open stays are completed to their expectation (as in survival regression), days of a span are
shared out, stays far off weigh less. Set OPENBLAS_NUM_THREADS=1 before numpy is imported:
the matrices are small and threads only cost time.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from teamrehab.forecast import assumptions as known
from teamrehab.forecast.columns import Array, Columns, columns_of
from teamrehab.forecast.courses import PHASES, Course, Status
from teamrehab.forecast.model import ClubModel, OwnRows
from teamrehab.forecast.outliers import trust
from teamrehab.forecast.published import Published
from teamrehab.forecast.rows import Rows, rows_of, setback_rates
from teamrehab.forecast.tails import completed_tail


@dataclass(frozen=True, slots=True, eq=False)
class _State:
    """Where the rounds stand. ``pace`` is by case, ``target`` and ``precision`` by row.

    The squares are what each case and each row (weight included) gave to the spreads.
    """

    theta: Array
    covariance: Array
    pace: Array
    stage_sd: Array
    case_sd: float
    target: Array
    precision: Array
    case_sd_used: float
    pace_squares: Array
    row_squares: Array


@dataclass(frozen=True, slots=True, eq=False)
class _Completed:
    """Rows with the open stays filled in: value, variance of what was filled in, trust."""

    value: Array
    extra: Array
    trust: Array


def fit(past: Sequence[Course], published: Published) -> ClubModel:
    """Return the model of a club from its cases, closed and open.

    Cases of an injury without a published figure teach nothing and are passed over.
    """
    courses = [course for course in past if course.injury in published.injuries]
    columns = columns_of(courses, published)
    rows = rows_of(courses, columns, published) if courses else None
    state = _start(columns, rows)
    if rows is not None:
        for turn in range(known.ROUNDS):
            state = _round(rows, columns, state, weigh=turn > 0)
    return ClubModel(
        published=published,
        columns=columns,
        theta=state.theta,
        covariance=state.covariance,
        stage_sd=state.stage_sd,
        stage_weights=_by_phase(rows, rows.weight) if rows is not None else np.zeros(5),
        case_sd=state.case_sd,
        setbacks=setback_rates(courses, known.SETBACK_RATE, known.SETBACK_WEIGHT),
        own=_own_rows(courses, rows, state) if rows is not None else {},
        cleared={c.case_id: c.injury for c in courses if c.status is Status.CLEARED},
    )


def _start(columns: Columns, rows: Rows | None) -> _State:
    mean, sd = columns.prior()
    count = 0 if rows is None else len(rows.case)
    return _State(
        theta=mean,
        covariance=np.diag(sd**2),
        pace=np.zeros(0 if rows is None else len(rows.starts)),
        stage_sd=np.full(len(PHASES), known.STAGE_SD),
        case_sd=known.CASE_SD,
        target=np.zeros(count),
        precision=np.ones(count),
        case_sd_used=known.CASE_SD,
        pace_squares=np.zeros(0),
        row_squares=np.zeros(0),
    )


def _round(rows: Rows, columns: Columns, state: _State, *, weigh: bool) -> _State:
    eta = rows.offset + rows.x @ state.theta + state.pace[rows.case]
    sd = state.stage_sd[rows.phase]
    done = _complete(rows, eta, sd, weigh=weigh)
    precision = rows.weight * done.trust / sd**2
    solved = _solve(rows, columns, done.value - rows.offset, precision, state)
    return _spreads(rows, done, solved)


def _complete(rows: Rows, eta: Array, sd: Array, *, weigh: bool) -> _Completed:
    value, extra = np.log(rows.days + 1), np.zeros_like(eta)
    alone = rows.open & (rows.span < 0)
    limit = np.log(rows.days[alone] + 1.5)
    value[alone], extra[alone] = completed_tail(limit, eta[alone], sd[alone])
    _share_spans(rows, eta, sd, value, extra)
    ones = np.ones_like(eta)
    weights = np.where(rows.open, ones, trust((value - eta) / sd)) if weigh else ones
    return _Completed(value=value, extra=extra, trust=weights)


def _share_spans(rows: Rows, eta: Array, sd: Array, value: Array, extra: Array) -> None:
    """Share the days of each span over its stages in proportion to what was expected.

    The total of an open span is completed first, as a log-normal with the sum's mean and
    variance (moment matching).
    """
    inside = rows.span >= 0
    if not inside.any():
        return
    span, e, s = rows.span[inside], eta[inside], sd[inside]
    means = np.exp(e + s**2 / 2)
    mean = np.bincount(span, means)
    spread = np.log1p(np.bincount(span, means**2 * np.expm1(s**2)) / mean**2)
    limit = np.log(rows.days[inside] + 1.5)
    centre = (np.log(mean) - spread / 2)[span]
    total, variance = completed_tail(limit, centre, np.sqrt(spread)[span])
    still_open = rows.open[inside]
    days = np.where(still_open, np.expm1(total), rows.days[inside])
    share = np.exp(e) / np.bincount(span, np.exp(e))[span]
    value[inside] = np.log1p(days * share)
    extra[inside] = np.where(still_open, variance, 0)


def _solve(
    rows: Rows, columns: Columns, target: Array, precision: Array, state: _State
) -> _State:
    """Return the posterior of the corrections with each case's pace integrated out."""
    mean, sd = columns.prior()
    weighted = rows.x * precision[:, None]
    a = np.add.reduceat(weighted, rows.starts)
    b = np.add.reduceat(precision * target, rows.starts)
    d = 1 / state.case_sd**2 + np.add.reduceat(precision, rows.starts)
    information = np.diag(sd**-2) + weighted.T @ rows.x - a.T @ (a / d[:, None])
    right = mean / sd**2 + weighted.T @ target - a.T @ (b / d)
    covariance = np.linalg.inv(information)
    theta = covariance @ right
    return replace(
        state,
        theta=theta,
        covariance=(covariance + covariance.T) / 2,
        pace=(b - a @ theta) / d,
        target=target,
        precision=precision,
        case_sd_used=state.case_sd,
    )


def _spreads(rows: Rows, done: _Completed, state: _State) -> _State:
    """Return the state with its spreads estimated anew, uncertainty of the rest included."""
    weighted = rows.x * state.precision[:, None]
    d = 1 / state.case_sd**2 + np.add.reduceat(state.precision, rows.starts)
    leverage = np.add.reduceat(weighted, rows.starts) / d[:, None]
    of_pace = np.einsum("ij,jk,ik->i", leverage, state.covariance, leverage, optimize=True)
    cases = state.pace**2 + 1 / d + of_pace
    case_variance = known.SD_WEIGHT * known.CASE_SD**2 + cases.sum()
    apart = rows.x - leverage[rows.case]
    of_row = np.einsum("ij,jk,ik->i", apart, state.covariance, apart, optimize=True)
    residual = state.target - rows.x @ state.theta - state.pace[rows.case]
    square = done.trust * residual**2 + done.extra + of_row + 1 / d[rows.case]
    squares = rows.weight * square
    stage_variance = known.SD_WEIGHT * known.STAGE_SD**2 + _by_phase(rows, squares)
    seen = _by_phase(rows, rows.weight)
    return replace(
        state,
        case_sd=float(np.sqrt(case_variance / (known.SD_WEIGHT + len(cases)))),
        stage_sd=np.sqrt(stage_variance / (known.SD_WEIGHT + seen)),
        pace_squares=cases,
        row_squares=squares,
    )


def _by_phase(rows: Rows, values: Array, part: slice = slice(None)) -> Array:
    """Return the sums of ``values`` (of those rows) by phase, shape (5,)."""
    return np.asarray(np.bincount(rows.phase[part], values[part], len(PHASES)), np.float64)


def _own_rows(courses: Sequence[Course], rows: Rows, state: _State) -> dict[str, OwnRows]:
    residual = state.target - rows.x @ state.theta
    ends = [*rows.starts[1:], len(rows.case)]
    own = {}
    for i, (course, start, end) in enumerate(zip(courses, rows.starts, ends, strict=True)):
        part = slice(start, end)
        own[course.case_id] = OwnRows(
            x=rows.x[part],
            residual=residual[part],
            covariance=np.diag(1 / state.precision[part]) + state.case_sd_used**2,
            pace_square=float(state.pace_squares[i]),
            stage_squares=_by_phase(rows, state.row_squares, part),
            stage_weights=_by_phase(rows, rows.weight, part),
        )
    return own
