"""What a protocol says beside its stages and ladders: to be read, and to be decided by."""

from dataclasses import dataclass
from enum import StrEnum

from teamrehab.domain.injuries import Urgency


class KindOfWork(StrEnum):
    """What loads the injured part; each kind has a symptom rule of its own."""

    SLOW = "slow gym work"
    QUICK = "hops and jumps"
    RUNNING = "running"
    TEAM = "team training"


@dataclass(frozen=True, slots=True, kw_only=True)
class WarningSign:
    """A red flag to ask for: ``sentence`` is what would be seen or felt."""

    key: str
    sentence: str
    urgency: Urgency
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SymptomRule:
    """The most symptom (0 to 10) allowed in a kind of work, from ``stage`` (from 1) on.

    Of two rules for one kind the one of the later stage counts. ``settles``: it must be back
    where it was by the next morning.
    """

    work: KindOfWork
    most: int
    source: str
    stage: int = 1
    settles: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """Work that has no levels and opens nothing, from ``stage`` (from 1) to ``until``.

    ``until`` None: to the end.
    """

    key: str
    name: str
    sets: int
    dose: str
    stage: int
    source: str
    until: int | None = None
    work: KindOfWork | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnItem:
    """One line of what is gone through before a return.

    ``muscle`` is a key of the injury catalogue where the line is an emphasis of one muscle,
    "" where it is for everybody.
    """

    sentence: str
    source: str
    muscle: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FullSessions:
    """How many full sessions come before a sign-off, from so many days out on.

    ``better`` is the number that is preferred, None where there is no other.
    """

    from_day: int
    sessions: int
    source: str
    better: int | None = None
    limited_minutes: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """For how many days after a return the athlete is watched for the same injury."""

    days: int
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Informs:
    """In which phases (1 to 5) a test says something; ``test`` is a kind of test by name."""

    test: str
    phases: tuple[int, ...]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Guidance:
    """All of it for one protocol; any part may be empty."""

    signs: tuple[WarningSign, ...] = ()
    symptom_rules: tuple[SymptomRule, ...] = ()
    exercises: tuple[Exercise, ...] = ()
    checklist: tuple[ReturnItem, ...] = ()
    full_sessions: tuple[FullSessions, ...] = ()
    watch: Watch | None = None
    informs: tuple[Informs, ...] = ()
