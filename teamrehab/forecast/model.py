"""What the club's cases taught: corrections with their covariance, spreads, setback rates."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from teamrehab.forecast.assumptions import SD_WEIGHT
from teamrehab.forecast.columns import Array, Columns
from teamrehab.forecast.published import Published


@dataclass(frozen=True, slots=True, eq=False)
class OwnRows:
    """What one case gave to the fit.

    x, residual and their covariance given theta: its rows. pace_square: its part of the
    case variance. stage_squares and stage_weights, (5,): its parts of the stage variances.
    """

    x: Array
    residual: Array
    covariance: Array
    pace_square: float
    stage_squares: Array
    stage_weights: Array


@dataclass(frozen=True, slots=True, eq=False)
class ClubModel:
    """A fitted club. ``theta`` and ``covariance`` belong to ``columns``.

    ``stage_sd`` (5,) and ``case_sd`` are on the log scale, ``stage_weights`` (5,) the stays
    behind them; ``setbacks`` (5,) are chances. ``own`` holds what each case gave, by case id;
    ``cleared`` the injuries of the cleared ones, by case id.
    """

    published: Published
    columns: Columns
    theta: Array
    covariance: Array
    stage_sd: Array
    stage_weights: Array
    case_sd: float
    setbacks: Array
    own: Mapping[str, OwnRows]
    cleared: Mapping[str, str]

    def cleared_of(self, injury: str) -> int:
        """Return how many of the cleared cases were of one injury."""
        return sum(found == injury for found in self.cleared.values())

    def without(self, case_id: str) -> "ClubModel":
        """Return the model as if this case had not been in the fit: it must not count twice.

        Exact for the weights and completed values of the last round: what a Bayesian
        regression gives when rows A with covariance R are removed,
        V + VA'(R - AVA')^-1 AV (Woodbury's identity). Setback rates stay as they are.
        """
        own = self.own.get(case_id)
        if own is None:
            return self
        gain = self.covariance @ own.x.T
        left = own.covariance - own.x @ gain
        solved = np.linalg.solve(left, np.column_stack((own.residual, gain.T)))
        stages = SD_WEIGHT + self.stage_weights
        stage_variance = self.stage_sd**2 * stages - own.stage_squares
        cases = SD_WEIGHT + len(self.own)
        case_variance = self.case_sd**2 * cases - own.pace_square
        return replace(
            self,
            theta=self.theta - gain @ solved[:, 0],
            covariance=self.covariance + gain @ solved[:, 1:],
            stage_sd=np.sqrt(stage_variance / (stages - own.stage_weights)),
            stage_weights=self.stage_weights - own.stage_weights,
            case_sd=float(np.sqrt(case_variance / (cases - 1))),
            own={other: rows for other, rows in self.own.items() if other != case_id},
            cleared={c: injury for c, injury in self.cleared.items() if c != case_id},
        )
