"""Every number of a protocol file stands beside its source, or says "common practice"."""

import re
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest

from teamrehab.locations import RESOURCES
from teamrehab.protocols import load_protocols
from tests.protocols.test_shipped import SOURCE

FILES = sorted((RESOURCES / "protocols").glob("*.toml"))
COUNTERS = {"format", "phase", "phases", "stage", "until", "after", "version", "weight"}
"""They say which, not how much: no study sets them. (A weight of a pattern has its source.)"""

SAID_ELSEWHERE = {"source", "key", "what"}
NUMBER = re.compile(r"\d+(?:\.\d+)?")
CITED = re.compile(r"\w.* \d{4};\d+|doi 10\.|from memory|common practice|PMC\d+")


def rows(table: dict[str, Any], place: str, source: str) -> Iterator[tuple[str, str, str]]:
    """Yield place, number and source of each number; the nearest source above counts."""
    source = table.get("source", source)
    for key, value in table.items():
        if key in SAID_ELSEWHERE or (key in COUNTERS and not told_in_tables(value)):
            continue
        for at, one in enumerate(value if isinstance(value, list) else [value], start=1):
            here = f"{place}{key} {at}" if isinstance(value, list) else place + key
            if isinstance(one, dict):
                yield from rows(one, f"{here}, ", source)
            else:
                beside = source or (one if isinstance(one, str) and CITED.search(one) else "")
                yield from ((here, number, beside) for number in numbers(one))


def told_in_tables(value: object) -> bool:
    """Return whether ``stage`` is the list of stages, not the number of one."""
    return isinstance(value, list) and any(isinstance(one, dict) for one in value)


def numbers(value: object) -> list[str]:
    if isinstance(value, bool):
        return []
    return NUMBER.findall(CITED.sub("", value)) if isinstance(value, str) else [str(value)]


def unsourced(table: dict[str, Any]) -> list[str]:
    found = rows(table, "", "")
    return [place for place, _n, source in found if not sound(source)]


def sound(source: str) -> bool:
    return bool(SOURCE.match(source) or CITED.search(source))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_number_has_a_source_or_says_that_it_is_common_practice(path):
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    found = list(rows(table, "", ""))
    for place, number, source in found:
        print(f"{place:44} {number:>5}  {source}")
    assert len(found) > 40
    assert unsourced(table) == []


def test_a_number_that_lost_its_source_is_found():
    text = (RESOURCES / "protocols" / "calf_strain.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    del table["watch"]["source"]
    table["ladder"][5]["source"] = "someone said so"
    table["cautions"].append("In 3 of 10 it comes back.")
    lost = unsourced(table)
    assert {"watch, days", "cautions 2", "ladder 6, symptom", "ladder 6, level 1, sets"} <= set(
        lost
    )


def test_the_calf_numbers_beside_its_stages_are_those_agreed():
    guidance = load_protocols()["calf_strain"].guidance
    allowed = [
        (rule.work, rule.stage, rule.most, rule.settles) for rule in guidance.symptom_rules
    ]
    assert allowed == [
        ("slow gym work", 1, 2, True),
        ("slow gym work", 2, 3, True),
        ("hops and jumps", 1, 1, False),
        ("running", 1, 1, False),
        ("team training", 1, 1, False),
    ]
    sessions = [
        (row.from_day, row.sessions, row.better, row.limited_minutes)
        for row in guidance.full_sessions
    ]
    # under 8 days 1; 8 to 28 days 3, better 6; over 28 days 6 and limited minutes first
    assert sessions == [(0, 1, None, False), (8, 3, 6, False), (29, 6, None, True)]
    # 15 weeks: Br J Sports Med 2020;54:1103, doi 10.1136/bjsports-2019-100755
    assert guidance.watch is not None
    assert guidance.watch.days == 15 * 7
