"""Add up the rest of a stage and the stages after it, setbacks included, on a grid of days.

Whole days; times are added in the frequency domain. What lies beyond the grid is left out
rather than heaped on its last day: no sum within the horizon can contain it.
"""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from teamrehab.forecast import assumptions as known
from teamrehab.forecast.columns import Array

_Transform = npt.NDArray[np.complex128]
_FLOOR = 1e-280


def survival(days: Array, log_means: Array, sds: Array) -> Array:
    """Return the chance that a stage lasts longer than ``days`` (whole, 0 allowed).

    All three broadcast; the time is log-normal in days + 1, with the outlier part.
    """
    above = (log_means - np.log(days + 1.5)) / sds
    p, f = known.OUTLIERS, known.OUTLIER_FACTOR
    return np.asarray((1 - p) * ndtr(above) + p * ndtr(above / f))


def remaining(
    phase: int, days: Array, log_means: Array, sds: Array, weights: Array, setbacks: Array
) -> Array:
    """Return the chance of clearance by each of the next HORIZON days, shape (cases, HORIZON).

    For cases all in ``phase`` (1-5) for ``days`` (cases,). log_means: (cases, nodes, 5);
    sds: (cases, 5); weights: (cases, nodes) of the pace; setbacks: (5,).
    """
    grid = known.HORIZON + 1
    onward = _Onward(log_means, sds, setbacks, grid)
    now = (log_means[:, :, phase - 1, None], sds[:, None, phase - 1, None])
    left = survival((days[:, None] + np.arange(grid))[:, None, :], *now)
    rest = np.concatenate((np.zeros_like(left[..., :1]), -np.diff(left)), axis=-1)
    total = onward.transformed(rest) * onward.after(phase)
    chance = onward.days(np.einsum("ci,cif->cf", weights, total))
    still = np.maximum(np.einsum("ci,ci->c", weights, left[..., 0]), _FLOOR)
    return np.asarray(np.minimum(np.cumsum(chance[:, 1:], axis=1) / still[:, None], 1))


def remaining_in_all(
    days: Array, log_means: Array, sds: Array, weights: Array, setbacks: Array
) -> Array:
    """Return the same for cases whose stages are unknown, ``days`` after the injury.

    The whole way is added up and then cut off at today: P(T <= a + r | T > a).
    """
    start = days.astype(np.int64)
    grid = int(start.max()) + known.HORIZON + 1
    onward = _Onward(log_means, sds, setbacks, grid)
    chance = onward.days(np.einsum("ci,cif->cf", weights, onward.from_phase(1)))
    by = np.cumsum(chance, axis=1)
    ahead = start[:, None] + np.arange(known.HORIZON + 1)
    seen = np.take_along_axis(by, ahead, axis=1)
    still = np.maximum(weights.sum(axis=1, keepdims=True) - seen[:, :1], 1e-12)
    return np.asarray(np.minimum((seen[:, 1:] - seen[:, :1]) / still, 1))


class _Onward:
    """The way from each phase to clearance, transformed: R_s = D_s [(1-q) R_s+1 + q R_s-1].

    al_s is the way from phase s to s + 1 with every setback between; |D q al| <= q < 1.
    """

    def __init__(self, log_means: Array, sds: Array, setbacks: Array, grid: int) -> None:
        self.grid = grid
        self.length = 1 << (2 * grid - 1).bit_length()
        self.setbacks = setbacks
        left = survival(np.arange(float(grid)), log_means[..., None], sds[:, None, :, None])
        stay = self.transformed(-np.diff(left, axis=-1, prepend=1.0))
        ups: list[_Transform] = []
        for s, q in enumerate(setbacks):
            whole = stay[:, :, s]
            ups.append(whole * (1 - q) / (1 - whole * q * ups[-1]) if s else whole)
        self.ups: Sequence[_Transform] = ups

    def transformed(self, chances: Array) -> _Transform:
        """Return the transform, long enough that no two whole grids wrap around."""
        return np.fft.rfft(chances, self.length, axis=-1)

    def from_phase(self, phase: int) -> _Transform:
        """Return the transform of the way from the start of ``phase``."""
        way: _Transform = np.ones_like(self.ups[0])
        for up in self.ups[phase - 1 :]:
            way = way * up
        return way

    def after(self, phase: int) -> _Transform:
        """Return the transform of the way after a stay in ``phase`` ends, up or back."""
        q = self.setbacks[phase - 1]
        up = self.from_phase(phase + 1)
        return up * (1 - q) + self.from_phase(phase - 1) * q if q else up

    def days(self, transform: _Transform) -> Array:
        """Return the chances on the grid; ripple below zero is rounding and is cut off."""
        return np.maximum(np.fft.irfft(transform, self.length, axis=-1)[:, : self.grid], 0)
