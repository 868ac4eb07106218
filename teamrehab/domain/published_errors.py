"""How sure a measure is: the published smallest detectable change, with its source."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PublishedError:
    """The smallest change that is not measurement error (95 %), in the measure's unit."""

    value: float
    source: str


HEEL_RAISES = PublishedError(6, "Physiotherapy 2017;103:446, doi 10.1016/j.physio.2017.03.002")
"""Repetitions, knee straight: limits of agreement -6.2 to 6.5 (32 adults, one week apart).

Other studies give 5.7 (J Sport Rehabil 2000;9:117) and 18.6 repetitions (J Electromyogr
Kinesiol 2017;36:34), so it is a good day's error. For a bent knee, hops in place and ratios of
hops no published error was found, and none is claimed.
"""

KNEE_TO_WALL_CM = PublishedError(1.9, "Man Ther 2015;20:524, doi 10.1016/j.math.2015.01.004")
"""Centimetres, the same tester on two days; 1.6 between testers (review of 12 studies).

1.0 was found for injured ankles (Physiother Can 2012;64:347). For a single-leg jump by tape no
published error was found, and none is claimed.
"""

KNEE_TO_WALL = PublishedError(1.9, "Man Ther 2015;20:524, doi 10.1016/j.math.2015.01.004")
"""Centimetres, one rater; between raters 1.6 (12 studies): the larger counts here.

In injured ankles 1.0, and 1.5 for a difference of the sides (Physiother Can 2012;64:347). For
the height of a single-leg jump no published error was found, and none is claimed.
"""
