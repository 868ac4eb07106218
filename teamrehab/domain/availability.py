"""Availability is two answers, for training and for matches, each with its limits."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum


class Training(StrEnum):
    """May the athlete train today; least restrictive first."""

    FULL = "full"
    WITH_LIMITS = "with limits"
    NONE = "none"


class Match(StrEnum):
    """May the athlete play; least restrictive first."""

    AVAILABLE = "available"
    LIMITED = "limited"
    UNDECIDED = "decision on a date"
    NOT_AVAILABLE = "not available"


class Activity(StrEnum):
    """What a limit speaks of: things done in training, never parts of the body."""

    PACE = "pace"
    SPRINT = "sprint"
    CHANGE_OF_DIRECTION = "change of direction"
    JUMP = "jump"
    CONTACT = "contact"
    STRIKE_OR_THROW = "strike or throw"
    GYM = "gym"
    MINUTES = "minutes"


class AbsenceReason(StrEnum):
    """Why a healthy athlete is away."""

    SUSPENDED = "suspended"
    NATIONAL_TEAM = "with the national team"
    PERSONAL = "personal"
    OTHER = "other"


@dataclass(frozen=True, slots=True, order=True)
class Limit:
    """One limit: ``at_most`` is percent of own speed for pace, minutes for minutes.

    None means: not at all.
    """

    activity: Activity
    at_most: int | None = None


def strictest(limits: Iterable[Limit]) -> tuple[Limit, ...]:
    """Return one limit for each activity in their own order: the lowest cap, or not at all."""
    caps: dict[Activity, int | None] = {}
    for limit in limits:
        cap = limit.at_most
        known = caps.get(limit.activity, cap)
        caps[limit.activity] = None if known is None or cap is None else min(known, cap)
    return tuple(Limit(activity, caps[activity]) for activity in Activity if activity in caps)


@dataclass(frozen=True, slots=True, kw_only=True)
class AvailabilityStated:
    """What one case allows from the day ``on`` until something else is stated for that case.

    ``match_minutes`` and ``match_role`` word a limited match. ``next_update`` is local club
    time: when staff will say more (the decision's date when the match is undecided).
    """

    case_id: str
    athlete_id: str
    on: date
    training: Training
    match: Match
    limits: tuple[Limit, ...] = ()
    until: date | None = None
    match_minutes: int | None = None
    match_role: str = ""
    next_update: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Absence:
    """Time away for a reason that is not medical; ``until`` is the last day away."""

    absence_id: str
    athlete_id: str
    on: date
    reason: AbsenceReason
    until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Availability:
    """An athlete's availability on one day, all causes together (derived, never stored)."""

    training: Training = Training.FULL
    match: Match = Match.AVAILABLE
    limits: tuple[Limit, ...] = ()
    until: date | None = None
    match_minutes: int | None = None
    match_role: str = ""
    next_update: datetime | None = None
    medical: bool = False
    absence: AbsenceReason | None = None
    unsettled: bool = False
