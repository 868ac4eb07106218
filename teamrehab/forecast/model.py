"""What the club's cases taught: corrections with their covariance, spreads, setback rates."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from teamrehab.forecast.columns import Array, Columns
from teamrehab.forecast.published import Published


@dataclass(frozen=True, slots=True, eq=False)
class OwnRows:
    """What one case gave to the fit: design, residuals, and their covariance given theta."""

    x: Array
    residual: Array
    covariance: Array


@dataclass(frozen=True, slots=True, eq=False)
class ClubModel:
    """A fitted club. ``theta`` and ``covariance`` belong to ``columns``.

    ``stage_sd`` (5,) and ``case_sd`` are on the log scale; ``setbacks`` (5,) are chances.
    ``own`` holds what each case gave, by case id; ``cleared`` the ids of the cleared ones.
    """

    published: Published
    columns: Columns
    theta: Array
    covariance: Array
    stage_sd: Array
    case_sd: float
    setbacks: Array
    own: Mapping[str, OwnRows]
    cleared: frozenset[str]

    def without(self, case_id: str) -> tuple[Array, Array]:
        """Return theta and covariance as if this case had not been in the fit.

        Exact for the weights and completed values of the last round: what a Bayesian
        regression gives when rows A with covariance R are removed,
        V + VA'(R - AVA')^-1 AV (Woodbury's identity), so that no case is counted twice.
        """
        own = self.own.get(case_id)
        if own is None:
            return self.theta, self.covariance
        gain = self.covariance @ own.x.T
        left = own.covariance - own.x @ gain
        solved = np.linalg.solve(left, np.column_stack((own.residual, gain.T)))
        return self.theta - gain @ solved[:, 0], self.covariance + gain @ solved[:, 1:]

    def cases_behind(self, case_id: str) -> int:
        """Return how many cleared club cases an estimate of this case rests on."""
        return len(self.cleared - {case_id})
