"""An evening as it was closed: what was entered, and who says so."""

from dataclasses import dataclass
from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from teamrehab.domain.days import club_day
from teamrehab.domain.history import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningSigned:
    """The signature under an evening's entries.

    ``entered`` rows have a session, ``missed`` say why there is none, ``open`` were left not
    entered.
    """

    on: date
    signed_by: str
    entered: int
    missed: int
    open: int


def noted_on(fact: Standing[Any], zone: str) -> date:
    """Return the club's day on which a fact was noted; ``zone`` is an IANA name."""
    return club_day(fact.noted_at.astimezone(ZoneInfo(zone)))


def is_late(fact: Standing[Any], zone: str) -> bool:
    """Return whether a fact was noted on a later club day than the one it speaks of."""
    on: date = fact.value.on
    return noted_on(fact, zone) > on
