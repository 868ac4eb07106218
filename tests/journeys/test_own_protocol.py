"""A protocol for an invented injury, written from the manual only, loads and runs a case."""

from pathlib import Path
from typing import Any

import pytest

from teamrehab.command_line.app import run
from teamrehab.domain.deciding import decide
from teamrehab.domain.decision import Proposal
from teamrehab.domain.injuries import Certainty, Clearance, Diagnosis, Scope
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    FunctionCheck,
    MorningResponse,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.records import open_casebook
from teamrehab.tasks import cases, closing, evening, examining
from teamrehab.tasks.board import protocol_of, squad_board
from teamrehab.tasks.own_protocols import protocols_here
from tests import builders
from tests.builders import day
from tests.records.books import SECRET, new_book

FILE = Path(__file__).with_name("frost_heel.toml")
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}


def at(number: int, hour: int = 20):
    return builders.clock(day(number), hour)


@pytest.fixture
def folder(tmp_path):
    """A casebook into which the file was taken by the commands, as a person would."""
    with new_book(tmp_path / "book", at(0)) as book:
        book.note(builders.athlete())
    secret = tmp_path / "passphrase"
    secret.write_text(SECRET, encoding="utf-8")
    assert run(["protocol", "check", str(FILE)], at(0)) == 0
    words = ["protocol", "adopt", str(tmp_path / "book"), str(FILE)]
    assert run([*words, "--passphrase-file", str(secret)], at(0)) == 0
    return tmp_path / "book"


class Days:
    """What a physio notes and accepts, day by day."""

    def __init__(self, book) -> None:
        self.book, self.today = book, 0

    @property
    def known(self):
        return self.book.case("c1")

    @property
    def stage(self) -> int:
        return self.known.stage or 1

    def decision(self):
        protocol = protocol_of(self.known)
        assert protocol is not None
        return decide(self.known, protocol, day(self.today))

    def go_to(self, number: int, score: int = 0) -> None:
        self.today = number
        self.book.clock = at(number)
        woke = MorningResponse(
            response_id=f"m{number}", on=day(number), symptom=Symptom(score), **IDS
        )
        evening.save_morning(self.book, self.known, woke)

    def trains(self, kind: SessionKind, *beside, level: int = 0, score: int = 0) -> None:
        done = ExerciseDone(exercise="stamp", level=level, sets=2) if level else None
        entry = SessionEntry(
            session_id=f"s{self.today}",
            on=day(self.today),
            kind=kind,
            minutes=30,
            effort=4,
            symptom=Symptom(score),
            limp=False,
            painkiller=False,
            done=Done.AS_PLANNED,
            exercises=(done,) if done else (),
            **IDS,
        )
        evening.save_row(self.book, self.known, (entry, *beside))

    def accepts(self) -> list[str]:
        """Accept everything that goes up, one after another, as the evening proposes it."""
        said: list[str] = []
        while True:
            board = squad_board(self.book, day(self.today))
            proposed, _count = closing.evening_end(board, day(self.today))
            up = [one for one in proposed if one.moves and one.value is not None]
            if not up:
                return said
            closing.accept(self.book, self.known, up[0], confirmed=up[0].name)
            said.append(up[0].words)


def began(book) -> Days:
    of = builders.case()
    cases.open_case(book, of, builders.stated(of))
    held = Diagnosis(on=day(0), injury="other", certainty=Certainty.CONFIRMED, **IDS)
    protocol = protocols_here(book)["frost_heel"]
    cases.diagnose(book, book.case("c1"), held, protocol)
    asked = SignsAsked(asked_id="q1", on=day(0), asked=("white",), seen=(), **IDS)
    examining.note_signs(book, book.case("c1"), (asked,))
    return Days(book)


def test_the_file_runs_a_case_from_facts_to_sign_off(folder):
    with open_casebook(folder, passphrase=SECRET, clock=at(0)) as book:
        days = began(book)
        assert days.known.protocol.protocol == "frost_heel"
        for number in (1, 2):
            days.go_to(number, score=1)
            walks = FunctionCheck(
                test_id=f"f{number}",
                on=day(number),
                walks_clean=True,
                symptom=Symptom(0),
                **IDS,
            )
            days.trains(SessionKind.REHAB, walks, level=1)
            days.accepts()
        assert days.stage == 2
        for number in range(3, 9):
            if days.stage == 2:
                days.go_to(number)
                level = 2 if number > 3 else 1
                days.trains(SessionKind.REHAB, level=level)
                days.accepts()
        assert days.stage == 3, days.decision()
        days.go_to(9)
        days.trains(SessionKind.TEAM_WITH_LIMITS)
        days.go_to(10)
        days.trains(SessionKind.TEAM_FULL)
        assert days.decision().proposal is Proposal.READY_FOR_SIGN_OFF
        signed = Clearance(on=day(10), scope=Scope.MATCH, signed_by="Kim Vale", **IDS)
        cases.clear(book, days.known, signed)
        assert days.known.closed is not None


def test_a_heel_that_stays_sore_is_kept_in_its_first_stage(folder):
    with open_casebook(folder, passphrase=SECRET, clock=at(0)) as book:
        days = began(book)
        for number in (1, 2, 3):
            days.go_to(number, score=2)
            days.trains(SessionKind.REHAB, level=1, score=3)
            days.accepts()
        assert days.stage == 1
        assert days.decision().proposal is not Proposal.MOVE_UP
