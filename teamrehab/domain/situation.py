"""A case on one day, as a check sees it."""

from dataclasses import dataclass, replace
from datetime import date
from typing import TypeVar

from teamrehab.domain.examination import Examination
from teamrehab.domain.history import HEALTHY_FOR, History
from teamrehab.domain.injuries import Side, StageMoved
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    JumpTest,
    KneeToWallTest,
    LoadedRaiseTest,
    RunTest,
    SessionEntry,
    Test,
)
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.safety import HIGH
from teamrehab.domain.settings import ClubSettings

Felt = Test | SessionEntry

LATER_PHASE = 2
"""Without a protocol nobody says that a limp is expected still."""

RUNNING_PHASE = 4
"""From the phase in which running is open, hops fall due again sooner."""

T = TypeVar(
    "T",
    HeelRaiseTest,
    HopTest,
    FunctionCheck,
    RunTest,
    JumpTest,
    KneeToWallTest,
    LoadedRaiseTest,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """What a check may look at; ``history`` holds nothing later than ``today``.

    ``phase`` is that of the present stage, ``phases`` those of every stage of the protocol.
    ``alarm`` is the symptom in training from which on it is too much, whatever was planned.
    ``protocol`` None: the case follows none, or only one criterion is looked at.
    """

    history: History
    today: date
    settings: ClubSettings
    phase: int
    phases: tuple[int, ...] = ()
    alarm: int = HIGH
    protocol: Protocol | None = None

    def tests(self, kind: type[T]) -> list[T]:
        """Return the case's own tests of one kind, newest first.

        A painkiller noted with anything of a day was taken before the tests of that day too.
        """
        case_id = self.history.case.case_id
        masked = {
            fact.value.on
            for fact in self.history.facts
            if getattr(fact.value, "painkiller", None)
        }
        return [
            replace(test, painkiller=True) if test.on in masked else test
            for test in reversed(self.history.of(kind))
            if test.case_id == case_id
        ]

    def healthy(self, kind: type[T]) -> list[T]:
        """Return the athlete's tests of one kind from before the injury, newest first."""
        tests = (fact.value for fact in reversed(self.history.baseline))
        onset = self.history.case.on
        ours = [test for test in tests if isinstance(test, kind)]
        return [test for test in ours if onset - HEALTHY_FOR <= test.on < onset]

    def sessions(self) -> list[SessionEntry]:
        """Return the sessions done since the present stage was opened, newest first."""
        return [s for s in reversed(self.history.sessions) if s.on >= self.opened_on]

    def felt(self) -> list[Felt]:
        """Return the case's tests and sessions with a symptom noted, newest first."""
        return felt(self.history)

    def phase_on(self, day: date) -> int:
        """Return the highest phase a case was in on a day; without a protocol the present one.

        A step back in the evening does not change what was done in the afternoon.
        """
        if not self.phases:
            return self.phase
        before, stages = 1, [1]
        for fact in self.history.facts:
            moved = fact.value
            if not isinstance(moved, StageMoved):
                continue
            if moved.on < day:
                before = moved.stage
            elif moved.on == day:
                stages.append(moved.stage)
        stage = max([*stages, before])
        return self.phases[min(max(stage, 1), len(self.phases)) - 1]

    def expects(self, entry: object, day: date) -> int:
        """Return the phase that what was seen of a leg is judged by.

        An examination before anybody chose a protocol looks at an injury as it began.
        """
        if isinstance(entry, Examination) and not self.phases:
            return 1
        return self.phase_on(day)

    def too_old(self, on: date, days: int) -> bool:
        """Return whether a result of that day must be tested again."""
        return (self.today - on).days > days

    @property
    def minor(self) -> bool:
        """Return whether the athlete is known to be too young for the numbers of adults."""
        return self.history.athlete.is_minor_on(self.today)

    @property
    def hop_days(self) -> int:
        """Return for how many days a hop test counts."""
        running = self.phase >= RUNNING_PHASE
        return self.settings.hop_retest_days if running else self.settings.retest_days

    @property
    def injured(self) -> tuple[Side, ...]:
        """Return the injured legs: one, or both where the case names no single side."""
        side = self.history.case.side
        return (side,) if side in (Side.LEFT, Side.RIGHT) else (Side.LEFT, Side.RIGHT)

    @property
    def legs(self) -> tuple[Side, ...]:
        """Return both legs, an injured one first."""
        first = self.injured[0]
        return (first, first.other)

    @property
    def opened_on(self) -> date:
        """Return the day the present stage was opened; the day of onset for the first."""
        moved = self.history.last(StageMoved)
        return self.history.case.on if moved is None else moved.on


def felt(history: History) -> list[Felt]:
    """Return a case's tests and sessions that have a symptom noted, newest first."""
    case_id = history.case.case_id
    entries = (fact.value for fact in reversed(history.facts))
    ours = (e for e in entries if isinstance(e, Test | SessionEntry) and e.case_id == case_id)
    return [entry for entry in ours if entry.symptom is not None]
