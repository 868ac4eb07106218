"""Stays that lie far off count less, by one rule wherever something is learned from them."""

import numpy as np

from teamrehab.forecast import assumptions as known
from teamrehab.forecast.columns import Array


def trust(residual: Array | float) -> Array:
    """Return the weight of standardised residuals under the outlier mixture, 1/f^2 to 1."""
    p, f = known.OUTLIERS, known.OUTLIER_FACTOR
    squared = np.square(residual)
    wide = p / f * np.exp(-squared / (2 * f**2))
    chance = wide / (wide + (1 - p) * np.exp(-squared / 2))
    return np.asarray(1 - chance + chance / f**2)
