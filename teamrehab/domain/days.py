"""Days as a club counts them: the clock as an argument, the turn of the day, match days."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

DAY_TURNS_AT = timedelta(hours=4)
"""An entry at half past one in the night belongs to the evening before (common practice)."""


@dataclass(frozen=True, slots=True)
class Clock:
    """The time as an argument: ``now`` answers an aware instant, ``zone`` an IANA name."""

    now: Callable[[], datetime]
    zone: str = "UTC"

    def instant(self) -> datetime:
        """Return the instant in UTC."""
        return self.now().astimezone(UTC)

    def local(self) -> datetime:
        """Return the wall time in the club's zone."""
        return self.now().astimezone(ZoneInfo(self.zone))

    def today(self) -> date:
        """Return the club's day, which turns at 04:00."""
        return club_day(self.local())


def club_day(local: datetime) -> date:
    """Return the day that a local wall time belongs to; the day turns at 04:00."""
    return (local.replace(tzinfo=None) - DAY_TURNS_AT).date()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixture:
    """A match; ``fixture_id`` is the calendar's own id, a higher ``revision`` replaces."""

    fixture_id: str
    on: date
    opponent: str
    kick_off: datetime | None = None
    home: bool = True
    revision: int = 0
    cancelled: bool = False

    def started(self, now: datetime) -> bool:
        """Return whether it began before ``now`` (club wall time); by its day without hour."""
        if self.kick_off is None:
            return self.on < club_day(now)
        return self.kick_off.replace(tzinfo=None) < now.replace(tzinfo=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """Minutes an athlete took part in one team session or match; 0: was not there.

    ``effort`` is RPE 0-10, None where it was not asked. ``session`` counts the sessions of a
    day from 1.
    """

    athlete_id: str
    on: date
    match: bool
    minutes: int
    effort: int | None = None
    session: int = 1

    @property
    def nth(self) -> str:
        """Return what tells a second session of the day from the first, "" for the first."""
        return "" if self.session == 1 else f":{self.session}"


def days_to_match(day: date, fixtures: Sequence[Fixture]) -> int | None:
    """Return MD+/-n of ``day``: 0 on match day, -n before the nearer next match, +n after.

    A day as far from the last match as from the next counts towards the next. None if no
    match lies within seven days.
    """
    gaps = [(day - f.on).days for f in fixtures if not f.cancelled]
    near = [gap for gap in gaps if abs(gap) <= 7]
    return min(near, key=lambda gap: (abs(gap), gap), default=None)


def week_of(day: date) -> tuple[date, ...]:
    """Return the seven days, Monday to Sunday, of the week of ``day``."""
    monday = day - timedelta(days=day.weekday())
    return tuple(monday + timedelta(days=i) for i in range(7))
