"""What lifts a stop: a later calm day that says enough, or an examination that found it fit.

Common practice: too little lifts nothing. A leg that was not looked at, a painkiller and a
limp nobody asked about again say nothing, and a morning at rest says nothing about a leg that
was stopped under load.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from teamrehab.domain.days_told import DayTold
from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.history import Standing
from teamrehab.domain.situation import Situation


@dataclass(frozen=True, slots=True)
class Examined:
    """An examination: its day, when it was noted, and whether the leg was found fit."""

    on: date
    stamp: str
    noted_at: datetime
    fit: bool

    def came_after(self, told: DayTold) -> bool:
        """Return whether it looked at the leg after what a day told of it.

        One of the same day was noted later, and not in one go with what it looked at.
        """
        later = self.stamp > told.stamp and self.noted_at > told.noted_at
        return self.on > told.on or (self.on == told.on and later)


@dataclass(frozen=True, slots=True)
class Lifting:
    """What lifts stops of one case: its days as they were told, and its examinations."""

    days: Mapping[date, DayTold]
    examined: tuple[Examined, ...]

    def lifts(self, day: DayTold) -> bool:
        """Return whether what a day left standing was lifted since."""
        return self.found_fit(day) or any(
            _calms(told, day) for on, told in self.days.items() if on > day.on
        )

    def found_fit(self, day: DayTold) -> bool:
        """Return whether the newest examination since then found the leg fit."""
        since = self.since(day)
        return bool(since) and all(one.fit for one in since)

    def since(self, day: DayTold) -> tuple[Examined, ...]:
        """Return the examinations of the newest day on which the leg was looked at since."""
        found = [one for one in self.examined if one.came_after(day)]
        newest = max((one.on for one in found), default=None)
        return tuple(one for one in found if one.on == newest)


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
            Examined(fact.value.on, fact.stamp, fact.noted_at, is_fit(fact, situation))
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
