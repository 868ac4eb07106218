"""The page on writing protocols is complete, and its example loads and runs a case."""

import re
from typing import Any

import pytest

from teamrehab.domain.checks import CHECKS, Choice
from teamrehab.domain.deciding import decide
from teamrehab.domain.decision import Proposal
from teamrehab.domain.examination import Activity, Character, Gait, OnsetKind, Resisted
from teamrehab.domain.guidance import KindOfWork
from teamrehab.domain.injuries import StageMoved, Urgency
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    FunctionCheck,
    RunTest,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.locations import RESOURCES
from teamrehab.protocols import read_protocol
from teamrehab.protocols.doses import UNITS
from teamrehab.protocols.guidance import TESTS
from teamrehab.protocols.intake import answers
from teamrehab.protocols.reading import parse
from tests.builders import day, history
from tests.protocols.test_ladders import WHOLE

PAGE = (RESOURCES / "manual" / "protocols.md").read_text(encoding="utf-8")
(EXAMPLE,) = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}


def session(number: int, kind: SessionKind, score: int = 0) -> SessionEntry:
    done = ExerciseDone(exercise="toe_lift", level=1, sets=3)
    return SessionEntry(
        session_id=f"s{number}",
        on=day(number),
        kind=kind,
        symptom=Symptom(score),
        limp=False,
        done=Done.AS_PLANNED,
        exercises=(done,),
        **IDS,
    )


def opened(number: int, stage: int) -> StageMoved:
    return StageMoved(on=day(number), stage=stage, proposed=stage, **IDS)


def test_the_example_of_the_page_runs_a_case_from_onset_to_sign_off():
    protocol = read_protocol(EXAMPLE)
    walks = FunctionCheck(test_id="f1", on=day(2), walks_clean=True, symptom=Symptom(1), **IDS)
    facts: list[Any] = [walks]
    assert decide(history(*facts), protocol, day(2)).proposal is Proposal.MOVE_UP
    facts += [opened(2, 2), session(3, SessionKind.REHAB, score=2)]
    assert decide(history(*facts), protocol, day(3)).proposal is Proposal.STAY
    facts.append(session(4, SessionKind.REHAB))
    found = level_proposals(history(*facts), protocol, day(4))
    steps = {one.ladder.key: (one.level, one.proposed) for one in found}
    assert steps["skip"] == (1, 2)  # it rests every second day
    assert steps["toe_lift"] == (1, 1)
    facts.append(session(5, SessionKind.REHAB))
    assert decide(history(*facts), protocol, day(5)).proposal is Proposal.MOVE_UP
    assert all(
        one.proposed == one.level for one in level_proposals(history(*facts), protocol, day(5))
    )
    facts += [opened(5, 3), session(6, SessionKind.TEAM_WITH_LIMITS)]
    assert decide(history(*facts), protocol, day(6)).proposal is Proposal.STAY
    facts.append(RunTest(test_id="q7", on=day(7), percent_of_own=92, symptom=Symptom(0), **IDS))
    assert decide(history(*facts), protocol, day(7)).proposal is Proposal.READY_FOR_SIGN_OFF


TABLES = [
    # where a strange key is put, and the heading of the page that must name every known one
    ("version =", "The file itself"),
    ('name = "Calm down"', "Stages"),
    ('check = "speed_over"', "Criteria"),
    ('name = "Skipping"', "Ladders"),
    ('name = "one leg"', "Ladders"),
    ('name = "Lands flat"', "Form faults"),
    ('name = "Balance on one leg"', "Exercises"),
    ('urgency = "doctor', "Red flags"),
    ("settles = true", "Symptom rules"),
    ('sentence = "A whole week', "Before and after"),
    ("better = 6", "Before and after"),
    ("days = 60", "Before and after"),
    ('test = "run_test"', "Before and after"),
]


def part(heading: str) -> str:
    (found,) = re.findall(rf"^## {heading}.*?(?=^## |\Z)", PAGE, re.DOTALL | re.MULTILINE)
    return str(found)


@pytest.mark.parametrize(("before", "heading"), TABLES)
def test_every_key_that_a_file_may_hold_is_named_under_its_heading(before, heading):
    assert EXAMPLE.count(before) == 1
    _protocol, (fault,) = parse(EXAMPLE.replace(before, f"zzz = 1\n{before}"), "x")
    known = fault.allowed.removeprefix("one of: ").split(", ")
    assert len(known) >= 2
    assert [key for key in known if not re.search(rf"[`\[]{key}[`\]]", part(heading))] == []


def test_every_key_of_an_intake_pattern_is_named():
    text = WHOLE.replace("weight = 2", "weight = 2\nzzz = 1")
    known = parse(text, "x")[1][0].allowed.removeprefix("one of: ").split(", ")
    assert [key for key in known if f"`{key}`" not in part("What an examination")] == []


def test_every_check_and_parameter_and_every_word_of_a_closed_list_is_named():
    words = [*CHECKS, *TESTS, *UNITS, *KindOfWork, *Urgency, *answers()]
    kinds = (OnsetKind, Activity, Character, Resisted, Gait)
    words += [answer for kind in kinds for answer in kind]
    for check in CHECKS.values():
        for name, allowed in check.parameters.items():
            words += [name, *(allowed.options if isinstance(allowed, Choice) else ())]
    assert len(words) > 60
    assert [word for word in words if f"`{word}`" not in PAGE] == []


def test_the_limits_a_check_sets_are_those_of_the_page():
    rows = dict(
        re.findall(r"^\| `(\w+)` \| (.*`.*\d.*) \|.*\|$", part("Criteria"), re.MULTILINE)
    )
    for check, said in rows.items():
        for name, low, high in re.findall(r"`(\w+)` (\d+)-(\d+)", said):
            allowed: Any = CHECKS[check].parameters[name]
            assert (allowed.low, allowed.high) == (int(low), int(high)), (check, name)
    assert len(rows) > 6
