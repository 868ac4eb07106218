"""A case told day by day as a physio lives it, over a real casebook and through the tasks.

``Story`` turns the clock, notes mornings, tests and sessions, and accepts what is proposed.
What an ordinary day brings is here; a case says only what is special about it.
"""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from teamrehab.domain.checks import judge
from teamrehab.domain.combining import availability_on
from teamrehab.domain.deciding import decide, situation_of
from teamrehab.domain.decision import CriterionResult, Decision, Proposal, Verdict
from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.history import History
from teamrehab.domain.injuries import (
    Certainty,
    Clearance,
    Diagnosis,
    LevelMoved,
    Scope,
    StageMoved,
)
from teamrehab.domain.measures import (
    Done,
    MorningResponse,
    SafetyCheck,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.plans import Plan, as_done, plan_for
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.signs import flag_of_signs, signs_due
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.domain.stops import stop_reasons
from teamrehab.protocols import load_protocols
from teamrehab.records import Casebook
from teamrehab.reports.closing import Proposed
from teamrehab.reports.next_steps import NextSteps, next_steps
from teamrehab.tasks import cases, closing, evening, examining
from teamrehab.tasks.board import protocol_of, squad_board
from teamrehab.tasks.refusals import RefusedError
from tests import builders
from tests.journeys.evening_end import closed_evening
from tests.journeys.leg import Leg, lacks_only_full_sessions


class Story:
    """One case of one athlete; days count from the onset of that case."""

    def __init__(
        self,
        book: Casebook,
        *,
        case_id: str = "c1",
        onset: date = builders.ONSET,
        leg: Leg | None = None,
        **case: Any,
    ) -> None:
        self.book, self.case_id, self.onset = book, case_id, onset
        self.leg, self.today = leg or Leg(), 0
        self.said: list[Proposed] = []
        self._ids = 0
        self._turn(0)
        opened = builders.case(case_id=case_id, on=onset, area="lower leg", **case)
        cases.open_case(book, opened, builders.stated(opened, (onset - builders.ONSET).days))

    @property
    def known(self) -> History:
        return self.book.case(self.case_id)

    @property
    def protocol(self) -> Protocol:
        protocol = protocol_of(self.known)
        assert protocol is not None
        return protocol

    @property
    def decision(self) -> Decision:
        return decide(self.known, self.protocol, self.date)

    @property
    def date(self) -> date:
        return self.onset + timedelta(days=self.today)

    @property
    def stage(self) -> int:
        return self.known.stage or 1

    @property
    def stops(self) -> tuple[str, ...]:
        return stop_reasons(situation_of(self.known, protocol_of(self.known), self.date))

    @property
    def plan(self) -> Plan:
        known = self.known
        there = availability_on(self.date, (known, *known.beside))
        return plan_for(known, self.protocol, there, self.date)

    @property
    def row(self) -> Any:
        rows = squad_board(self.book, self.date).rows
        return next(r for r in rows if r.athlete_id == self.known.case.athlete_id)

    @property
    def steps(self) -> NextSteps:
        there = self.row.availability
        return next_steps(self.known, self.protocol, there, self.decision, self.date)

    def result(self, key: str) -> CriterionResult:
        """Return how a criterion of the next gate stands."""
        return next(one for one in self.decision.criteria if one.criterion.key == key)

    def planned(self) -> list[str]:
        return [one.exercise for one in self.plan.exercises]

    def ups(self) -> set[int]:
        """Return the days on which a stage or a level was decided above the first one."""
        opened = [one.on for one in self.known.of(StageMoved) if one.proposed > 1]
        opened += [one.on for one in self.known.of(LevelMoved) if one.proposed > 1]
        return {(on - self.onset).days for on in opened}

    def level(self, ladder: str) -> int:
        moves = [m.level for m in self.known.of(LevelMoved) if m.ladder == ladder]
        return moves[-1] if moves else 1

    def day(self, number: int) -> "Story":
        """Go on to a day; what lies between is nobody's doing."""
        assert number >= self.today
        self._turn(number)
        return self

    def examined(self, injury: str = "calf_strain", protocol: str = "", **more: Any) -> "Story":
        """Examine the leg, say what it is and follow a protocol; its red flags are asked."""
        muscle, grade = more.pop("muscle", ""), more.pop("grade", None)
        version = more.pop("version", "")
        self.looked_at(*more.pop("beside", ()), **more)
        held = Diagnosis(
            **self.of_today(),
            injury=injury,
            muscle=muscle,
            grade=grade,
            certainty=Certainty.CONFIRMED,
        )
        newest = load_protocols()[protocol or injury]
        chosen = next(p for p in (newest, *newest.earlier) if version in ("", p.version))
        cases.diagnose(self.book, self.known, held, chosen)
        return self.asked()

    def looked_at(self, *beside: Any, **found: Any) -> "Story":
        """Note an examination, with answers beside it; nothing is amiss but what is named."""
        seen: dict[str, Any] = {
            "walking": Gait.CLEAN,
            "stairs": Gait.CLEAN,
            "resisted_straight": Resisted.STRONG,
        }
        one = Examination(examination_id=self._id(), **self.of_today(), **(seen | found))
        examining.note_examination(self.book, self.known, (one, *beside))
        return self

    def asked(self, *seen: str) -> "Story":
        """Ask for the red flags of the protocol; ``seen`` are the keys answered with yes."""
        signs = self.protocol.guidance.signs
        keys = tuple(sign.key for sign in signs)
        one = SignsAsked(asked_id=self._id(), **self.of_today(), asked=keys, seen=seen)
        flag = flag_of_signs(one, signs, one.asked_id)
        examining.note_signs(self.book, self.known, (one, *((flag,) if flag else ())))
        return self

    def morning(self, score: int = 0, *answers: Any, **more: Any) -> "Story":
        woke = MorningResponse(
            response_id=self._id(), **self.of_today(), symptom=Symptom(score), **more
        )
        evening.save_morning(self.book, self.known, woke, *answers)
        return self

    def four(self, **more: Any) -> SafetyCheck:
        """Return four answers of today that raise no red flag but what is named."""
        calm: dict[str, Any] = {"same_spot": True, "swollen_or_warm": False}
        calm |= {"can_push_off": True, "chest_or_breath": False}
        return SafetyCheck(check_id=self._id(), **self.of_today(), **(calm | more))

    def entry(self, **more: Any) -> SessionEntry:
        """Return today's session, done as planned but for what is named."""
        plan = self.plan
        done: dict[str, Any] = {
            "kind": plan.kind,
            "minutes": plan.minutes,
            "effort": 5,
            "symptom": Symptom(self.leg.symptom),
        }
        done |= {"limp": False, "painkiller": False, "done": Done.AS_PLANNED}
        done["exercises"] = as_done(plan) if plan.kind is not SessionKind.REHAB else ()
        return SessionEntry(session_id=self._id(), **self.of_today(), **(done | more))

    def session(self, *beside: Any, **more: Any) -> "Story":
        """Note today's session, with what is typed beside it in the row."""
        self._turn(self.today, hour=20)
        evening.save_row(self.book, self.known, (self.entry(**more), *beside))
        return self

    def evening(self) -> "Story":
        """Accept what is proposed, one thing after another."""
        self._turn(self.today, hour=21)
        self.said = closed_evening(self.book, self.case_id, self.date)
        return self

    def signs(self, scope: Scope = Scope.MATCH, why: str = "") -> "Story":
        signed = Clearance(**self.of_today(), scope=scope, signed_by="Kim Vale")
        cases.clear(self.book, self.known, signed, why=why)
        return self

    def moves(self, stage: int, why: str = "") -> "Story":
        """Decide a stage, whatever is proposed."""
        proposed = self.decision.proposed_stage
        moved = StageMoved(**self.of_today(), stage=stage, proposed=proposed, why=why)
        cases.move_stage(self.book, self.known, moved)
        return self

    def levels(self, ladder: str, level: int, why: str = "") -> "Story":
        """Decide a level, whatever is proposed."""
        moved = LevelMoved(
            **self.of_today(), ladder=ladder, level=level, proposed=level, why=why
        )
        closing.move_level(self.book, self.known, moved)
        return self

    def doctor_closes(self) -> "Story":
        for flag in self.known.open_red_flags:
            cases.close_red_flag(self.book, flag, "Dr Ines Marlow")
        return self

    def ordinary(self, **more: Any) -> "Story":
        """Live one day: the morning, what is asked, the session and its tests, the evening."""
        tested = more.pop("tests", True)
        self.morning(more.pop("woke", 0))
        if signs_due(situation_of(self.known, self.protocol, self.date), self.protocol):
            self.asked()
        if self.stops or (self.today % 7 == 6 and not more):
            return self
        tests = self.leg.tests(self._open(), self.known, self.today) if tested else []
        plan = self.plan
        assert plan.exercises or plan.kind is not SessionKind.REHAB, f"no plan, {self.today}"
        self.session(*tests, **more).evening()
        if lacks_only_full_sessions(self.decision.missing) and not self.decision.held:
            self.signs(Scope.TEAM_TRAINING)
        return self

    def until(self, stage: int, *, within: int = 90) -> "Story":
        """Live ordinary days until a stage is opened."""
        return self._live(lambda: self.stage >= stage, within)

    def until_ready(self, *, within: int = 120) -> "Story":
        """Live ordinary days until the case is ready for sign-off; nobody signs before."""
        ready = Proposal.READY_FOR_SIGN_OFF
        if self.decision.proposal is not ready:
            with pytest.raises(RefusedError):
                self.signs()
        return self._live(lambda: self.decision.proposal is ready, within)

    def days(self, count: int) -> "Story":
        """Live so many ordinary days."""
        for _nth in range(count):
            self.day(self.today + 1).ordinary()
        return self

    def _open(self) -> list[CriterionResult]:
        """Return what is not met, of the gates passed over by a person too."""
        situation = situation_of(self.known, self.protocol, self.date)
        gates = [one for stage in range(1, self.stage) for one in self.protocol.gate(stage)]
        over = [judge(one, situation) for one in gates] if self.steps.overrides else []
        lasting = (Verdict.NOT_MET, Verdict.NEVER_TESTED)
        return [*self.decision.missing, *(one for one in over if one.verdict in lasting)]

    def _live(self, done: Any, within: int) -> "Story":
        while not done():
            assert self.today < within, self._stuck()
            self.day(self.today + 1).ordinary()
        return self

    def _stuck(self) -> str:
        told = [f"{one.words}: {one.reason}" for one in self.said]
        return "\n".join((f"day {self.today}", *self.stops, *told))

    def of_today(self) -> dict[str, Any]:
        of = self.known.case
        return {"case_id": of.case_id, "athlete_id": of.athlete_id, "on": self.date}

    def _id(self) -> str:
        self._ids += 1
        return f"{self.case_id}-{self._ids}"

    def _turn(self, number: int, hour: int = 8) -> None:
        self.today = number
        self.book.clock = replace(self.book.clock, now=builders.clock(self.date, hour).now)
