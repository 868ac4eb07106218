"""An estimate is a distribution over days, shown as a range and as chances."""

from bisect import bisect_left
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import ReturnDecision


class NoEstimate(StrEnum):
    """Why a case has no range."""

    TOO_YOUNG = "being assessed"
    UNCONFIRMED = "diagnosis not confirmed"
    RED_FLAG = "open red flag"
    HEAD_INJURY = "head injury"
    ILLNESS = "illness"
    OPERATION = "operation"
    SENSITIVE = "not shown"
    NO_PRIOR = "no published figure to start from"
    MINOR = "under 18: adult figures do not apply"


_ROUNDING = 1e-9
"""Added before a comparison, so that two machines show the same day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """Chance of being cleared for matches by each coming day.

    ``cdf[i]`` is the chance of clearance by the end of day ``today + i + 1``; it never falls
    and stays below 1 where the grid of days ends too early (then a day can be None).
    ``club_cases`` counts the closed club cases behind it, of all injuries,
    ``same_injury_cases`` those of this injury (None: not known); ``pace`` is the pace factor
    (over 1: slower than usual). ``not_before`` and ``ruled_out`` are a person's decision.
    """

    today: date
    cdf: tuple[float, ...]
    club_cases: int = 0
    same_injury_cases: int | None = None
    pace: float = 1.0
    not_before: date | None = None
    ruled_out: tuple[str, ...] = ()

    def day_at(self, share: float) -> date | None:
        """Return the first day with at least ``share`` of the chance, None beyond the grid."""
        index = bisect_left(self.cdf, share - _ROUNDING)
        return None if index == len(self.cdf) else self.today + timedelta(days=index + 1)

    @property
    def median(self) -> date | None:
        """Return the day by which it is as likely as not."""
        return self.day_at(0.5)

    @property
    def window(self) -> tuple[date | None, date | None]:
        """Return the first and last day of the range that holds 8 in 10."""
        return self.day_at(0.1), self.day_at(0.9)

    def chance_by(self, day: date) -> float:
        """Return the chance of being cleared by the end of ``day``."""
        index = (day - self.today).days - 1
        if index < 0:
            return 0.0
        return self.cdf[min(index, len(self.cdf) - 1)]

    def chance_for(self, fixture: Fixture, *, same_day: bool) -> float:
        """Return the chance of being cleared in time for a match (0 where it is ruled out)."""
        if fixture.fixture_id in self.ruled_out:
            return 0.0
        return self.chance_by(fixture.on if same_day else fixture.on - timedelta(days=1))


def cut(estimate: Estimate, decision: ReturnDecision | None) -> Estimate:
    """Return the estimate with a person's decision applied: it beats the distribution.

    A "not before" day is the first that remains possible: the chance by the day before is 0
    and the rest keeps its shape. One that has passed changes nothing and is not shown.
    Ruled-out fixtures have no chance.
    """
    if decision is None:
        return estimate
    first = decision.not_before
    if first is not None and first <= estimate.today:
        first = None
    cdf = estimate.cdf if first is None else _cut_off(estimate, first)
    return replace(estimate, cdf=cdf, not_before=first, ruled_out=decision.ruled_out)


def _cut_off(estimate: Estimate, first: date) -> tuple[float, ...]:
    """Return the chances given that clearance does not come before ``first``."""
    blocked = min((first - estimate.today).days - 1, len(estimate.cdf))
    before = estimate.cdf[blocked - 1] if blocked else 0.0
    left = 1.0 - before
    kept = ((f - before) / left if left > _ROUNDING else 1.0 for f in estimate.cdf[blocked:])
    return (*([0.0] * blocked), *kept)
