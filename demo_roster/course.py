"""One case of the demo as it ran: stages, and the tests and sessions that opened them.

What the program would have proposed at every move is asked of the program itself, so that
``proposed`` is never made up; a move against it says why.
"""

from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from random import Random
from typing import Any

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.deciding import decide
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import Case, ProtocolChosen, Side, StageMoved
from teamrehab.domain.measures import (
    Feeling,
    FunctionCheck,
    HeelRaiseTest,
    Hops,
    HopTest,
    Knee,
    Loaded,
    LoadedRaiseTest,
    MorningResponse,
    Raises,
    RunTest,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.protocol import followed
from teamrehab.protocols import load_protocols

_DAY = timedelta(days=1)
AGREED = "Agreed with the doctor after examination."


@dataclass(frozen=True, slots=True)
class Legs:
    """What an athlete's healthy leg does: raises, their height, a hop's contact and flight."""

    raises: int
    height_mm: int
    contact_ms: int
    flight_ms: int

    @staticmethod
    def of(rng: Random) -> "Legs":
        """Return a healthy leg (9 cm a raise: doi 10.1016/j.bjpt.2025.101188)."""
        return Legs(
            rng.randint(31, 37),
            rng.randint(86, 104),
            rng.randint(188, 222),
            rng.randint(340, 400),
        )


@dataclass(slots=True)
class Course:
    """A case being written down: everything noted so far, in the order of its days.

    ``healthy`` are the athlete's tests from before the injury.
    """

    case: Case
    athlete: Athlete
    legs: Legs
    rng: Random
    facts: list[Any] = field(default_factory=list)
    stage: int = 1
    healthy: list[Any] = field(default_factory=list)

    def add(self, *facts: Any) -> None:
        """Note facts."""
        self.facts += facts

    def names(self) -> dict[str, Any]:
        """Return what every fact of the case says of itself."""
        return {"case_id": self.case.case_id, "athlete_id": self.case.athlete_id}

    def test_names(self, on: date) -> dict[str, Any]:
        """Return what every test of the case says of itself."""
        count = sum(hasattr(fact, "test_id") for fact in self.facts) + 1
        test_id = f"{self.case.case_id}-test-{count:02}"
        tester = "Tomasin Quayle" if count % 3 else "Oyelaran Brightwell"
        names = {**self.names(), "on": on, "test_id": test_id, "tester": tester}
        return names | {"after_training": False}

    # --- what is done and felt

    def session(
        self,
        on: date,
        score: int,
        kind: SessionKind = SessionKind.REHAB,
        *,
        limp: bool = False,
        feeling: Feeling = Feeling.PAIN,
    ) -> None:
        """Note a session."""
        count = sum(isinstance(fact, SessionEntry) for fact in self.facts) + 1
        self.add(
            SessionEntry(
                **self.names(),
                session_id=f"{self.case.case_id}-session-{count:02}",
                on=on,
                kind=kind,
                minutes=self.rng.randrange(30, 65, 5),
                effort=self.rng.randint(3, 6) + (kind is not SessionKind.REHAB),
                symptom=Symptom(score, feeling),
                limp=limp,
            )
        )

    def check(self, on: date, score: int, **seen: Any) -> None:
        """Note a function check."""
        self.add(
            FunctionCheck(**self.test_names(on), symptom=Symptom(score, Feeling.PAIN), **seen)
        )

    def run(self, on: date, percent: int, score: int = 0) -> None:
        """Note a run."""
        self.add(
            RunTest(
                **self.test_names(on),
                symptom=Symptom(score, Feeling.PAIN),
                percent_of_own=percent,
                surface="grass",
                shoe="boots",
            )
        )

    def raises(
        self, on: date, count: int, score: int, knee: Knee = Knee.STRAIGHT, share: float = 0.9
    ) -> None:
        """Note heel raises: ``count`` on the injured leg, their height ``share`` of healthy."""
        healthy = self.legs.raises + self.rng.randint(-2, 1)
        height = self.legs.height_mm + self.rng.randint(-2, 2)
        mine = Raises(count, round(height * share))
        left, right = self._sides(mine, Raises(healthy, height))
        self.add(
            HeelRaiseTest(
                **self.test_names(on),
                symptom=Symptom(score, Feeling.TIGHTNESS),
                left=left,
                right=right,
                knee=knee,
                beat=60,
                shoe="trainers",
            )
        )

    def loaded(self, on: date, weight_g: int, knee: Knee) -> None:
        """Note raises with weight: the injured leg lifts a plate less than the other."""
        legs = self._sides(Loaded(7, weight_g - 2_500), Loaded(7, weight_g))
        left, right = legs
        symptom = Symptom(0, Feeling.TIGHTNESS)
        self.add(
            LoadedRaiseTest(
                **self.test_names(on), symptom=symptom, left=left, right=right, knee=knee
            )
        )

    def morning(self, on: date, score: int) -> None:
        """Note how the leg was on a morning."""
        count = sum(isinstance(fact, MorningResponse) for fact in self.facts) + 1
        self.add(
            MorningResponse(
                **self.names(),
                response_id=f"{self.case.case_id}-morning-{count:02}",
                on=on,
                symptom=Symptom(score, Feeling.PAIN),
                painkiller=False,
            )
        )

    def hops(self, on: date, count: int, score: int, share: float = 0.95) -> None:
        """Note hops: ``count`` on the injured leg, their flight ``share`` of healthy."""
        contact = self.legs.contact_ms + self.rng.randint(-6, 6)
        flight = self.legs.flight_ms + self.rng.randint(-8, 8)
        mine = Hops(count, round(contact / share), round(flight * share))
        left, right = self._sides(mine, Hops(20, contact, flight))
        self.add(
            HopTest(
                **self.test_names(on),
                symptom=Symptom(score, Feeling.TIGHTNESS),
                left=left,
                right=right,
                surface="gym floor",
                shoe="trainers",
            )
        )

    def _sides(self, mine: Any, other: Any) -> tuple[Any, Any]:
        return (mine, other) if self.case.side is Side.LEFT else (other, mine)

    # --- how it moves on

    def follow(self, protocol: str, on: date, version: str = "") -> None:
        """Choose a protocol, its newest version where none is named."""
        version = version or load_protocols()[protocol].version
        self.add(ProtocolChosen(**self.names(), on=on, protocol=protocol, version=version))

    def move(self, on: date, stage: int, why: str) -> None:
        """Open a stage; ``why`` is kept only where the program proposed something else."""
        proposed = self.proposed(on)
        self.add(
            StageMoved(
                **self.names(),
                on=on,
                stage=stage,
                proposed=proposed,
                why="" if proposed == stage else why,
            )
        )
        self.stage = stage

    def settle(self) -> None:
        """Look at every move again once all entries of its day are there."""
        moves = sorted(
            (fact for fact in self.facts if isinstance(fact, StageMoved)), key=lambda m: m.on
        )
        rest = [fact for fact in self.facts if not isinstance(fact, StageMoved)]
        for place, move in enumerate(moves):
            self.facts = [*rest, *moves[:place]]
            proposed = self.proposed(move.on)
            why = "" if proposed == move.stage else move.why or AGREED
            moves[place] = replace(move, proposed=proposed, why=why)
        self.facts = [*rest, *moves]

    def proposed(self, on: date) -> int:
        """Return the stage the program proposes in the evening of ``on``."""
        history = self.history()
        protocol = followed(history, load_protocols()).protocol
        if protocol is None:
            raise ValueError(f"{self.case.case_id} follows no protocol")
        return decide(history, protocol, on).proposed_stage

    def history(self) -> History:
        """Return the case as the program sees it."""
        facts = sorted([self.case, *self.facts], key=lambda fact: fact.on)
        return History(
            athlete=self.athlete,
            case=self.case,
            facts=_standing(facts),
            baseline=_standing(self.healthy),
        )


def _standing(facts: list[Any]) -> tuple[Standing[Any], ...]:
    return tuple(
        Standing(
            fact_id=f"f{number:04}",
            value=fact,
            author="staff-2",
            noted_at=datetime.combine(fact.on, time(20), UTC),
        )
        for number, fact in enumerate(facts)
    )
