"""The numbers the model starts from, and why. Found by simulation over many unlike clubs.

None is delicate: half as much again in the club's or the case's spread, or another outlier
part, moved the mean score (CRPS) by less than 5 %.
"""

from typing import Final

HORIZON: Final = 420
"""Days an estimate looks ahead."""

ROUNDS: Final = 8
"""Rounds of expectation and maximisation; the change after eight is below a tenth of a day."""

OUTLIERS: Final = 0.05
OUTLIER_FACTOR: Final = 2.0
"""Share of stays that follow a wider distribution, and how much wider: stalled athletes."""

STAGE_SD: Final = 0.55
CASE_SD: Final = 0.30
SD_WEIGHT: Final = 10.0
"""Starting spread of a stage and of a case on the log scale, worth so many cases."""

CLUB_SD: Final = 0.35
"""Wide, for published cohorts differ: study means of one kind of sprain run from 9.6 to 53 days
(Scand J Med Sci Sports 2022;32:1690-1709, doi 10.1111/sms.14217)."""

KIND_SD: Final = 0.12
GRADE_SD: Final = 0.12
RECURRENCE_SD: Final = 0.12
AGE_SD: Final = 0.08
PHASE_SD: Final = 0.25
ATHLETE_SD: Final = 0.12
REDO_MEAN: Final = -0.2
REDO_SD: Final = 0.3
"""A second stay in a phase is about a fifth shorter (common practice), learned away."""

ROOM_FOR_SETBACKS: Final = 0.93
"""Stage means are cut so that, setbacks included, the mean is the published one."""

TOTAL_VARIANCE: Final = (
    STAGE_SD**2
    + CASE_SD**2
    + CLUB_SD**2
    + PHASE_SD**2
    + KIND_SD**2
    + GRADE_SD**2
    + ATHLETE_SD**2
)
"""Variance of a log stage time before anything is known; turns a mean into a log-mean."""

SETBACK_RATE: Final = 0.04
SETBACK_WEIGHT: Final = 25.0
"""Chance of a setback on leaving a stage, worth so many exits (common practice)."""

NODES: Final = 5
"""Gauss nodes over the pace of a case; with three a stalled case is off by up to 0.02."""
