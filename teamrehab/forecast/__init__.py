"""Time to clearance: published figures, corrected by the club's own cases, as a distribution.

Five phases in a row, each with a log-normal duration; the published figures are the prior,
the club's finished, open and abandoned stages update it, and the pace of a case, learned
from the stages it has finished, carries over to those to come. Nothing random, no clock.
"""

from teamrehab.forecast.courses import Course, Status, course_of
from teamrehab.forecast.estimating import estimate, estimates
from teamrehab.forecast.fitting import fit
from teamrehab.forecast.model import ClubModel
from teamrehab.forecast.published import (
    NoPublishedFigureError,
    Published,
    PublishedFiguresError,
    published_figures,
)
from teamrehab.forecast.reasons import lasting_reason, reason_for_none

__all__ = [
    "ClubModel",
    "Course",
    "NoPublishedFigureError",
    "Published",
    "PublishedFiguresError",
    "Status",
    "course_of",
    "estimate",
    "estimates",
    "fit",
    "lasting_reason",
    "published_figures",
    "reason_for_none",
]
