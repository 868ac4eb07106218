"""Normal tails and sums of log-normals: what is known of a time that has not ended yet."""

import numpy as np
from scipy.special import log_ndtr

from teamrehab.forecast.columns import Array


def completed_tail(limit: Array, centre: Array, sd: Array) -> tuple[Array, Array]:
    """Return mean and variance of a normal known to lie above ``limit``.

    With h the standardised limit, L = phi(h)/Phi(-h): mean = centre + sd L,
    variance = sd^2 (1 + hL - L^2), computed in logs so that far tails stay exact.
    """
    h = (limit - centre) / sd
    ratio = np.exp(-(h**2) / 2 - 0.5 * np.log(2 * np.pi) - log_ndtr(-h))
    return centre + sd * ratio, sd**2 * np.maximum(1 + h * ratio - ratio**2, 0)


def log_normal_sum(log_means: Array, sds: Array) -> tuple[Array, Array]:
    """Return log-mean and SD of the log-normal with mean and variance of a sum (last axis)."""
    means = np.exp(log_means + sds**2 / 2)
    mean = means.sum(axis=-1)
    variance = np.log1p((means**2 * np.expm1(sds**2)).sum(axis=-1) / mean**2)
    return np.log(mean) - variance / 2, np.sqrt(variance)
