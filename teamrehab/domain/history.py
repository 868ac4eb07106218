"""What stands in the casebook: facts as they count now, gathered by case and by squad."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from typing import Any, Generic, Protocol, TypeVar

from teamrehab.domain.athletes import Athlete, StaffMember, Team
from teamrehab.domain.availability import Absence
from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    ProtocolAdopted,
    ProtocolChosen,
    RedFlag,
    ReturnDecision,
    StageMoved,
)
from teamrehab.domain.measures import SessionEntry
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.sheets import Disclosed, SheetIssued


class Dated(Protocol):
    """A value that happened on a day."""

    @property
    def on(self) -> date:
        """Return the club's day it belongs to."""


HEALTHY_FOR = timedelta(days=730)
"""How long before an injury a healthy value still speaks for a leg (common practice)."""

V_co = TypeVar("V_co", covariant=True)
D = TypeVar("D", bound=Dated)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing(Generic[V_co]):
    """One fact that nothing has replaced.

    ``author`` is a staff id, ``noted_at`` an aware UTC instant; ``stamp`` orders facts on
    every laptop alike, those of one instant too; ``began`` is the stamp of the first fact
    about the same thing, which a correction keeps. ``versions`` is 2 or more where people
    wrote about the same thing without seeing each other.
    """

    fact_id: str
    value: V_co
    author: str
    noted_at: datetime
    stamp: str = ""
    began: str = ""
    versions: int = 1
    corrected: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Unreadable:
    """A fact whose body is damaged, or of a kind or schema this program does not know."""

    kind: str
    on: date
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Erased:
    """A fact whose body was lawfully removed."""

    kind: str
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """Everything that stands for one case, oldest first (by day, then by when noted).

    ``baseline`` are the athlete's healthy values: tests that belong to no case, none older
    than ``HEALTHY_FOR`` before the onset. ``beside`` are the athlete's other cases that are
    open (see ``open_on``), which know of none beside themselves: what stops one of them
    may stop this one. ``own`` are the club's own files of the protocol it follows.
    """

    athlete: Athlete
    case: Case
    facts: tuple[Standing[Any], ...] = ()
    baseline: tuple[Standing[Any], ...] = ()
    beside: "tuple[History, ...]" = ()
    own: tuple[ProtocolAdopted, ...] = ()

    def as_of(self, day: date) -> "History":
        """Return the case as it stood on ``day``: nothing later, oldest first."""
        return replace(
            self,
            facts=_known_by(day, self.facts),
            baseline=_known_by(day, self.baseline),
            beside=tuple(one.as_of(day) for one in self.beside if one.open_on(day)),
        )

    def standing(self, kind: type[D]) -> Iterator[Standing[D]]:
        """Yield the standing facts of one kind, oldest first."""
        return (fact for fact in self.facts if isinstance(fact.value, kind))

    def of(self, kind: type[D]) -> tuple[D, ...]:
        """Return the values of one kind, oldest first."""
        return tuple(fact.value for fact in self.standing(kind))

    def last(self, kind: type[D]) -> D | None:
        """Return the newest value of one kind, or None."""
        values = self.of(kind)
        return values[-1] if values else None

    @property
    def diagnosis(self) -> Diagnosis | None:
        """Return the diagnosis as it stands."""
        return self.last(Diagnosis)

    @property
    def protocol(self) -> ProtocolChosen | None:
        """Return the protocol the case follows."""
        return self.last(ProtocolChosen)

    @property
    def stage(self) -> int | None:
        """Return the stage opened last, 1 if none was recorded, None without a protocol.

        Of what two people decided on one day the lower counts, until somebody decides again on
        a later day: neither may have seen the other's.
        """
        moves = list(self.standing(StageMoved))
        if not moves:
            return None if self.protocol is None else 1
        last = [move for move in moves if move.value.on == moves[-1].value.on]
        by_author = {move.author: move.value.stage for move in last}
        return min(by_author.values())

    @property
    def open_red_flags(self) -> tuple[RedFlag, ...]:
        """Return the red flags no named doctor has closed."""
        return tuple(flag for flag in self.of(RedFlag) if flag.closed is None)

    def red_flags_open_on(self, day: date) -> tuple[RedFlag, ...]:
        """Return the red flags that were open on ``day``."""
        return tuple(flag for flag in self.of(RedFlag) if flag.open_on(day))

    @property
    def decision(self) -> ReturnDecision | None:
        """Return a person's decision about the return, if one stands."""
        return self.last(ReturnDecision)

    @property
    def closed(self) -> CaseClosed | None:
        """Return how the case ended, or None while it is open."""
        return self.last(CaseClosed)

    def open_on(self, day: date) -> bool:
        """Return whether the case counts on ``day``: begun and not closed by then.

        A red flag that is open keeps a case open whatever was signed: it may have been raised
        on a laptop that knew nothing of the signature.
        """
        begun = self.case.on <= day
        ended = self.closed is not None and self.closed.on <= day
        return begun and (not ended or bool(self.red_flags_open_on(day)))

    @property
    def clearances(self) -> tuple[Clearance, ...]:
        """Return the signatures given."""
        return self.of(Clearance)

    @property
    def last_entry(self) -> date | None:
        """Return the day of the newest test or session."""
        days = [f.value.on for f in self.facts if hasattr(f.value, "symptom")]
        return max(days, default=None)

    @property
    def sessions(self) -> tuple[SessionEntry, ...]:
        """Return the sessions done."""
        return self.of(SessionEntry)


def _known_by(day: date, facts: tuple[Standing[Any], ...]) -> tuple[Standing[Any], ...]:
    known = (fact for fact in facts if fact.value.on <= day)
    return tuple(sorted(known, key=lambda f: (f.value.on, f.stamp, f.noted_at, f.fact_id)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Squad:
    """The squad on one day: what the squad table and the coach's sheet are worked out from.

    ``fixtures`` holds the matches not cancelled, from fourteen days before ``day`` on;
    ``former`` who was in the squad once: a sheet says who left since the last one.
    """

    day: date
    team: Team
    athletes: tuple[Athlete, ...] = ()
    former: tuple[Athlete, ...] = ()
    open_cases: tuple[History, ...] = ()
    absences: tuple[Absence, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    staff: tuple[StaffMember, ...] = ()
    disclosed: tuple[Disclosed, ...] = ()
    last_sheet: SheetIssued | None = None
    settings: ClubSettings = field(default_factory=ClubSettings)
    unreadable: int = 0

    def cases_of(self, athlete_id: str) -> tuple[History, ...]:
        """Return the open cases of one athlete."""
        return tuple(h for h in self.open_cases if h.case.athlete_id == athlete_id)

    def coming(self, count: int) -> tuple[Fixture, ...]:
        """Return the next fixtures, today's included."""
        ahead = [f for f in self.fixtures if f.on >= self.day and not f.cancelled]
        return tuple(sorted(ahead, key=lambda f: (f.on, f.fixture_id))[:count])
