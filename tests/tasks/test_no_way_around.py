"""Whatever anybody tries while a red flag is open: nothing goes up and nobody is let in."""

import shutil
import tempfile
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from hypothesis import Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule
from typing_extensions import override

from teamrehab.domain.availability import Match, Training
from teamrehab.domain.combining import availability_on
from teamrehab.domain.deciding import decide
from teamrehab.domain.decision import Proposal
from teamrehab.domain.injuries import (
    Certainty,
    Clearance,
    Diagnosis,
    LevelMoved,
    Outcome,
    RedFlag,
    Scope,
    StageMoved,
    Urgency,
)
from teamrehab.domain.ladders import level_of
from teamrehab.domain.measures import Done, MorningResponse, Symptom
from teamrehab.protocols import load_protocols
from teamrehab.records import ReplacedMeanwhileError
from teamrehab.records.errors import NotUndoneError
from teamrehab.tasks import cases, closing, correcting, undoing
from teamrehab.tasks.board import protocol_of, squad_board
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
from tests.builders import case, day, stated
from tests.domain.evenings import passing
from tests.tasks.evening_book import TONIGHT, answers, at, evening_book, ids, save, session

CASES = ("c1", "c2")
"""The flag of the first is its own, that of the second is of the athlete's other case."""
FLAG = RedFlag(flag_id="r", **ids(), on=TONIGHT, what="warm", urgency=Urgency.SAME_DAY)
KNOWN = (RefusedError, ImplausibleError, ReplacedMeanwhileError, NotUndoneError)

which = st.sampled_from(CASES)
picks = st.integers(0, 30)


class AroundARedFlag(RuleBasedStateMachine):
    """Each rule is something a person may try; what is refused is refused."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.book = evening_book(self.folder / "club")
        self.number, self.made = 14, 0
        self.saves: list[Any] = []
        cases.raise_red_flag(self.book, self.book.case("c1"), FLAG)
        other = case(case_id="c9", athlete_id="a2", on=day(10))
        beside = replace(FLAG, flag_id="r9", case_id="c9", athlete_id="a2")
        cases.open_case(self.book, other, stated(other, 10), beside)
        self.start = {c: self._levels(c) for c in CASES}

    @override
    def teardown(self) -> None:
        self.book.close()
        shutil.rmtree(self.folder)

    def attempt(self, act: Callable[[], Any]) -> None:
        self.made += 1
        try:
            self.saves.append(act())
        except KNOWN:
            return

    def _levels(self, of: str) -> dict[str, int]:
        known = self.book.case(of)
        protocol = protocol_of(known)
        ladders = () if protocol is None else protocol.ladders
        return {ladder.key: level_of(known, ladder) for ladder in ladders}

    @property
    def today(self):
        return day(self.number)

    # --- what people try

    @rule(of=which, stage=st.integers(1, 5))
    def opens_a_stage(self, of, stage):
        moved = StageMoved(**ids(of), on=self.today, stage=stage, proposed=stage, why="x")
        self.attempt(lambda: cases.move_stage(self.book, self.book.case(of), moved))

    @rule(of=which, nth=picks, level=st.integers(1, 3))
    def moves_a_level(self, of, nth, level):
        ladders = load_protocols()["calf_strain"].ladders
        ladder = ladders[nth % len(ladders)].key
        moved = LevelMoved(
            **ids(of), on=self.today, ladder=ladder, level=level, proposed=1, why="x"
        )
        self.attempt(lambda: closing.move_level(self.book, self.book.case(of), moved))

    @rule(of=which, stage=st.integers(1, 4))
    def passes_every_test(self, of, stage):
        for nth, value in enumerate(passing(stage, self.number)):
            name = next(
                n for n in ("test_id", "session_id", "response_id") if hasattr(value, n)
            )
            ours = replace(value, **ids(of), **{name: f"{of}-{self.made}-{nth}"})
            self.attempt(partial(save, self.book, ours, case_id=of, again=True))

    @rule(of=which, score=st.integers(0, 6))
    def trains(self, of, score):
        values: list[Any] = [
            session(of, self.made, on=self.today, done=Done.AS_PLANNED, limp=False),
        ]
        values[0] = replace(values[0], symptom=Symptom(score))
        values += [answers(of, check_id=f"q{self.made}", on=self.today)] if score > 3 else []
        self.attempt(lambda: save(self.book, *values, case_id=of, again=True))

    @rule(of=which)
    def wakes_calm(self, of):
        calm = MorningResponse(
            response_id=f"m{self.made}", **ids(of), on=self.today, symptom=Symptom(0)
        )
        self.attempt(lambda: save(self.book, calm, case_id=of))

    @rule(nth=picks)
    def accepts_what_is_proposed(self, nth):
        board = squad_board(self.book, self.book.clock.today())
        found = [p for p in closing.evening_end(board, self.today)[0] if p.case_id in CASES]
        if found:
            one = found[nth % len(found)]
            known = self.book.case(one.case_id)
            self.attempt(lambda: closing.accept(self.book, known, one, one.athlete_id))

    @rule(of=which, scope=st.sampled_from([Scope.TEAM_TRAINING, Scope.MATCH]))
    def signs(self, of, scope):
        signed = Clearance(**ids(of), on=self.today, scope=scope, signed_by="Kim Vale")
        self.attempt(lambda: cases.clear(self.book, self.book.case(of), signed, why="x"))

    @rule(of=which, outcome=st.sampled_from(Outcome))
    def closes(self, of, outcome):
        known = self.book.case(of)
        self.attempt(lambda: cases.close_case(self.book, known, self.today, outcome, why="x"))

    @rule(of=which)
    def states_full(self, of):
        known = self.book.case(of)
        full = stated(known.case, self.number, training=Training.FULL, match=Match.AVAILABLE)
        self.attempt(lambda: cases.state_availability(self.book, known, full))

    @rule(of=which, key=st.sampled_from(sorted(load_protocols())))
    def chooses_another_protocol(self, of, key):
        protocol = load_protocols()[key]
        held = Diagnosis(
            **ids(of),
            on=self.today,
            injury=protocol.injuries[0],
            certainty=Certainty.WORKING,
        )
        self.attempt(lambda: cases.diagnose(self.book, self.book.case(of), held, protocol))

    @rule(nth=picks)
    def undoes(self, nth):
        if self.saves:
            receipt = self.saves[nth % len(self.saves)]
            self.attempt(lambda: undoing.undo(self.book, receipt))

    @rule(of=which, nth=picks)
    def takes_an_entry_back(self, of, nth):
        known = self.book.case(of)
        decided = [f for f in known.facts if not isinstance(f.value, type(known.case))]
        together = correcting.fall_together(known, decided[nth % len(decided)])
        self.attempt(lambda: correcting.take_back(self.book, together, "x"))

    @rule()
    def a_night_passes(self):
        self.number += 1
        at(self.book, self.number)

    # --- what must hold

    @invariant()
    def the_flags_are_open(self):
        assert [flag.flag_id for flag in self.book.case("c1").open_red_flags] == ["r"]
        assert [flag.flag_id for flag in self.book.case("c9").open_red_flags] == ["r9"]

    @invariant()
    def nothing_has_gone_up(self):
        for of in CASES:
            known = self.book.case(of)
            assert (known.stage or 1) <= 2
            for ladder, level in self._levels(of).items():
                assert level <= self.start[of].get(ladder, 1)
            assert known.clearances == ()
            assert known.closed is None

    @invariant()
    def nobody_is_let_in(self):
        squad = self.book.squad(self.today)
        for who in ("a1", "a2"):
            there = availability_on(self.today, squad.cases_of(who))
            assert (there.training, there.match) == (Training.NONE, Match.NOT_AVAILABLE)

    @invariant()
    def it_is_said(self):
        for of in CASES:
            known = self.book.case(of)
            protocol = protocol_of(known)
            if protocol is not None:
                found = decide(known, protocol, self.today)
                assert found.proposal is Proposal.STOP_AND_REVIEW
                assert "red flag" in found.cautions[0]


AroundARedFlag.TestCase.settings = settings(
    max_examples=25,
    stateful_step_count=20,
    deadline=None,
    phases=(Phase.generate, Phase.shrink),
)
TestNoWayAroundARedFlag = pytest.mark.slow(AroundARedFlag.TestCase)
