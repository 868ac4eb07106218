"""The same injury again: how soon after the return, and how long it is watched for."""

from datetime import date
from enum import StrEnum

from teamrehab.domain.guidance import Watch
from teamrehab.language import _

_TWO_MONTHS = 60
_YEAR = 365


class Again(StrEnum):
    """How soon an injury of the same site and type came after the return."""

    EARLY = "early recurrence"
    LATE = "late recurrence"
    DELAYED = "delayed recurrence"


def how_soon(returned: date, onset: date) -> Again:
    """Return how soon after a full return the same injury came again.

    Early within two months, late within twelve, delayed after that (Br J Sports Med
    2006;40:193, doi 10.1136/bjsm.2005.025270, from memory; months as 60 and 365 days).
    """
    days = (onset - returned).days
    if days <= _TWO_MONTHS:
        return Again.EARLY
    return Again.LATE if days <= _YEAR else Again.DELAYED


def watch_caution(returned: date, today: date, watch: Watch | None) -> str:
    """Return that an athlete who is back is still watched for the same injury, "" if not."""
    days = (today - returned).days
    if watch is None or not 0 <= days <= watch.days:
        return ""
    said = _("Day {day} after the return: watched for the same injury until day {last}.")
    return said.format(day=days, last=watch.days)
