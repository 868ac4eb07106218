"""A case: one injury or illness from onset to clearance, and what is decided about it."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from teamrehab.domain.written import blank


class Side(StrEnum):
    """The side of the body."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"
    NOT_APPLICABLE = "not applicable"

    @property
    def other(self) -> "Side":
        """Return the opposite side; both and not applicable stay as they are."""
        return {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}.get(self, self)


class Nature(StrEnum):
    """What kind of health problem a case is."""

    INJURY = "injury"
    ILLNESS = "illness"


class Certainty(StrEnum):
    """How sure the diagnosis is; it may change while the case runs."""

    SUSPECTED = "suspected"
    WORKING = "working"
    CONFIRMED = "confirmed"


class Urgency(StrEnum):
    """How soon a red flag needs a doctor."""

    EMERGENCY = "emergency now"
    SAME_DAY = "doctor the same day"


class Scope(StrEnum):
    """What a clearance is for."""

    TEAM_TRAINING = "team training"
    MATCH_WITH_LIMIT = "match with a limit"
    MATCH = "match"


class Outcome(StrEnum):
    """How a case ended."""

    CLEARED = "cleared"
    LEFT_CLUB = "left the club"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """The start of a case, as much as is known beside the pitch.

    ``on`` is the day of onset. ``what`` is clinical free text and never leaves medical views.
    ``recurrence_of`` names an earlier case of the same site and type.
    """

    case_id: str
    athlete_id: str
    on: date
    nature: Nature = Nature.INJURY
    side: Side = Side.NOT_APPLICABLE
    area: str = ""
    what: str = ""
    recurrence_of: str = ""
    reassess_on: datetime | None = None
    head_injury: bool = False
    operation: bool = False
    sensitive: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """What the problem is held to be; ``injury`` and ``muscle`` are keys of the catalogue.

    ``grade`` is 0 to 3 or None where it is unknown.
    """

    case_id: str
    athlete_id: str
    on: date
    injury: str
    muscle: str = ""
    grade: int | None = None
    certainty: Certainty = Certainty.SUSPECTED
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtocolChosen:
    """The protocol, in one version, that a case follows until someone moves it."""

    case_id: str
    athlete_id: str
    on: date
    protocol: str
    version: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtocolAdopted:
    """A protocol file of the club's own, checked and taken in; ``text`` is all of it."""

    key: str
    version: str
    on: date
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StageMoved:
    """A person's decision that a stage is opened (counted from 1).

    ``proposed`` is what the program proposed then; a move against it needs ``why``.
    """

    case_id: str
    athlete_id: str
    on: date
    stage: int
    proposed: int
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelMoved:
    """A person's decision that an athlete works at a level (from 1) of a ladder from now on.

    ``proposed`` is what the program proposed then; a move against it needs ``why``.
    """

    case_id: str
    athlete_id: str
    on: date
    ladder: str
    level: int
    proposed: int
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RedFlag:
    """A sign that needs a doctor first; open until a named doctor closes it."""

    flag_id: str
    case_id: str
    athlete_id: str
    on: date
    what: str
    urgency: Urgency
    closed_on: date | None = None
    closed_by: str = ""

    @property
    def closed(self) -> date | None:
        """Return the day a doctor whose name can be read closed it, None while it is open."""
        return None if blank(self.closed_by) else self.closed_on

    def open_on(self, day: date) -> bool:
        """Return whether it was raised by ``day`` and not closed by then."""
        return self.on <= day and (self.closed is None or day < self.closed)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnDecision:
    """A person's decision about the return: it beats any estimate.

    ``not_before`` is the first day that remains possible; ``ruled_out`` holds fixture ids.
    ``expected`` is the day on which a clinician expects the athlete back: an opinion, shown
    as one, and all there is for an illness or a case without a protocol.
    """

    case_id: str
    athlete_id: str
    on: date
    not_before: date | None = None
    ruled_out: tuple[str, ...] = ()
    why: str = ""
    expected: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """A signature: cleared, and for what. ``limit`` is worded for the coach."""

    case_id: str
    athlete_id: str
    on: date
    scope: Scope
    signed_by: str
    limit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseClosed:
    """The end of a case."""

    case_id: str
    athlete_id: str
    on: date
    outcome: Outcome = Outcome.CLEARED


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """A free note of the medical staff on a case."""

    remark_id: str
    case_id: str
    athlete_id: str
    on: date
    text: str
