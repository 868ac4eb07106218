"""What the athlete page shows, as one frozen value."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Absence
from teamrehab.domain.deciding import decide
from teamrehab.domain.decision import Decision
from teamrehab.domain.history import History, Squad, Standing
from teamrehab.domain.injuries import Side
from teamrehab.domain.ladders import present_stage
from teamrehab.domain.protocol import InjuryKind, Protocol, Stage, followed
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.next_steps import NextSteps, near_a_match, next_steps


@dataclass(frozen=True, slots=True, kw_only=True)
class Portrait:
    """An athlete on the squad's day: row, open cases, and what they are read with.

    ``baseline`` are the tests of the healthy athlete and injuries that no case holds,
    ``earlier`` the closed cases, newest first; ``case_id`` is the case chosen, ``now``
    the club's wall time.
    """

    squad: Squad
    row: SquadRow
    protocols: Mapping[str, Protocol]
    catalogue: Mapping[str, InjuryKind]
    case_id: str = ""
    baseline: tuple[Standing[Any], ...] = ()
    earlier: tuple[History, ...] = ()
    now: datetime | None = None

    @property
    def athlete(self) -> Athlete:
        """Return the athlete."""
        wanted = self.row.athlete_id
        return next(a for a in self.squad.athletes if a.athlete_id == wanted)

    @property
    def absences(self) -> tuple[Absence, ...]:
        """Return the times away that are not over, the earliest first."""
        own = [a for a in self.squad.absences if a.athlete_id == self.row.athlete_id]
        return tuple(sorted(own, key=lambda a: a.on))

    @property
    def absence(self) -> Absence | None:
        """Return the time away that a form of this page changes, None where there is none."""
        today = self.squad.day
        return next((a for a in self.absences if a.until is None or a.until >= today), None)

    @property
    def cases(self) -> tuple[History, ...]:
        """Return the open cases, the one that keeps out longest first."""
        cases = self.squad.cases_of(self.row.athlete_id)
        return tuple(sorted(cases, key=lambda h: h.case.case_id != self.row.case_id))

    @property
    def history(self) -> History | None:
        """Return the case chosen, else the one that keeps out longest, None without one."""
        chosen = [h for h in self.cases if h.case.case_id == self.case_id]
        return next(iter(chosen or self.cases), None)

    @property
    def protocol(self) -> Protocol | None:
        """Return the protocol of the case chosen."""
        return followed(self.history, self.protocols).protocol if self.history else None

    @property
    def stage(self) -> Stage | None:
        """Return the stage that is open in the case chosen, None without a protocol."""
        if self.history is None or self.protocol is None:
            return None
        return self.protocol.stages[present_stage(self.history, self.protocol) - 1]

    @property
    def decision(self) -> Decision | None:
        """Return where the case chosen stands and what is proposed."""
        if self.history is None or self.protocol is None:
            return None
        if self.history.case.case_id == self.row.case_id:
            return self.row.decision
        return self.decide(self.history)

    @property
    def steps(self) -> NextSteps | None:
        """Return what comes next in the case chosen, None without a case."""
        if self.history is None:
            return None
        steps = next_steps(
            self.history,
            self.protocol,
            self.row.availability,
            self.decision,
            self.squad.day,
            settings=self.squad.settings,
        )
        return near_a_match(steps, self.squad.fixtures, self.squad.day)

    @property
    def injured(self) -> Side:
        """Return the injured side of the case chosen."""
        return self.history.case.side if self.history else Side.NOT_APPLICABLE

    @property
    def stage_names(self) -> tuple[str, ...]:
        """Return the stages of the protocol."""
        return tuple(stage.name for stage in self.protocol.stages) if self.protocol else ()

    @property
    def names(self) -> dict[str, str]:
        """Return the names of the staff by id."""
        return {one.staff_id: one.name for one in self.squad.staff}

    def decide(self, history: History) -> Decision | None:
        """Return the decision as it would be with another history of the same case."""
        if self.protocol is None:
            return None
        return decide(history, self.protocol, self.squad.day, self.squad.settings)
