"""The people: the team, its staff and its athletes."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

ADULT_AGE = 18
"""Years from which the published figures, all of adults, may be applied (common practice)."""


class Role(StrEnum):
    """What a member of staff is in the club."""

    DOCTOR = "doctor"
    PHYSIO = "physio"
    ASSISTANT = "assistant"
    GUEST = "guest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Team:
    """The team whose casebook this is; ``zone`` is an IANA time zone name."""

    name: str
    sport: str = ""
    zone: str = "UTC"


@dataclass(frozen=True, slots=True, kw_only=True)
class StaffMember:
    """A person who writes in the casebook and may sign."""

    staff_id: str
    name: str
    role: Role = Role.PHYSIO


@dataclass(frozen=True, slots=True, kw_only=True)
class Athlete:
    """An athlete of the squad.

    ``printed_name`` is the Latin spelling used where a font lacks the athlete's own script.
    """

    athlete_id: str
    surname: str
    first_name: str
    number: int | None = None
    born: date | None = None
    position: str = ""
    joined: date | None = None
    left: date | None = None
    weight_g: int | None = None
    printed_name: str = ""

    @property
    def name(self) -> str:
        """Return first name and surname as they are spoken."""
        return f"{self.first_name} {self.surname}".strip()

    def in_squad(self, day: date) -> bool:
        """Return whether the athlete belongs to the squad on ``day``."""
        after_joining = self.joined is None or self.joined <= day
        return after_joining and (self.left is None or day < self.left)

    def age_on(self, day: date) -> int | None:
        """Return the age in completed years on ``day``, or None if the birthday is unknown."""
        if self.born is None:
            return None
        before_birthday = (day.month, day.day) < (self.born.month, self.born.day)
        return day.year - self.born.year - before_birthday

    def is_minor_on(self, day: date) -> bool:
        """Return whether the athlete is known to be under the adult age on ``day``."""
        age = self.age_on(day)
        return age is not None and age < ADULT_AGE
