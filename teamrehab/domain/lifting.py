"""What lifts a stop: a later calm day that says enough, or an examination that found it fit.

Common practice: too little lifts nothing. A leg that was not looked at, a painkiller and a
limp nobody asked about again say nothing, and a morning at rest says nothing about a leg that
was stopped under load.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.days_told import DayTold
from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.history import Standing
from teamrehab.domain.situation import Situation


@dataclass(frozen=True, slots=True)
class Lifting:
    """What lifts stops of one case: its days as they were told, and its examinations."""

    days: Mapping[date, DayTold]
    examined: tuple[tuple[date, str, bool], ...]
    """Day, stamp, and whether the leg was found fit."""

    def lifts(self, day: DayTold) -> bool:
        """Return whether what a day left standing was lifted since."""
        return self.found_fit(day.on, day.stamp) or any(
            _calms(told, day) for on, told in self.days.items() if on > day.on
        )

    def found_fit(self, on: date, stamp: str) -> bool:
        """Return whether an examination since then found the leg fit; the newest day's counts.

        One of the same day counts if it was noted after ``stamp``.
        """
        since = [
            (day, fit)
            for day, noted, fit in self.examined
            if day > on or (day == on and noted > stamp)
        ]
        newest = max((day for day, _fit in since), default=None)
        return newest is not None and all(fit for day, fit in since if day == newest)


def _calms(told: DayTold, stopped: DayTold) -> bool:
    """Return whether a later day says that what a day left standing is over."""
    if told.troubled or (stopped.seen and not told.walked):
        return False
    return told.calm_trained or (told.calm_woke and not stopped.loaded)


def lifting(situation: Situation, days: Mapping[date, DayTold]) -> Lifting:
    """Return what lifts stops of a case."""
    return Lifting(
        days=days,
        examined=tuple(
            (fact.value.on, fact.stamp, is_fit(fact, situation))
            for fact in situation.history.standing(Examination)
        ),
    )


def is_fit(fact: Standing[Examination], situation: Situation) -> bool:
    """Return whether an examination looked at the leg and found it able to do what it did.

    A limp is expected in the first phase only.
    """
    found = fact.value
    limps = Gait.LIMPS in (found.walking, found.stairs) and situation.phase_on(found.on) > 1
    return able(found) and not limps


def able(found: Examination) -> bool:
    """Return whether an examination looked at the leg and found nothing not possible."""
    gaits, strengths = (
        (found.walking, found.stairs),
        (found.resisted_straight, found.resisted_bent),
    )
    looked = (*gaits, *strengths, found.stretch_straight, found.stretch_bent, found.tender_mm)
    unable = Gait.UNABLE in gaits or Resisted.UNABLE in strengths
    return any(seen is not None for seen in looked) and not unable
