"""The contributor guide tells the truth: its table of measures is made from the code."""

import ast
import re
from pathlib import Path
from typing import get_args

from teamrehab.domain.measures import SessionEntry, Test

ROOT = Path(__file__).parents[1]
GUIDE = ROOT / "DEVELOPERS.md"
PLACES = {
    "form": ("desktop/entry", "desktop/athlete"),
    "limits": ("domain/plausibility.py",),
    "criterion": (
        "domain/leg_checks.py",
        "domain/balance_checks.py",
        "domain/raises_checks.py",
        "domain/loaded_checks.py",
        "domain/course_checks.py",
        "domain/session_checks.py",
    ),
    "history": ("desktop/athlete/entry_words.py",),
    "graph": ("desktop/athlete/graph_measures.py",),
    "kept": ("records/kinds.py",),
}
BEGIN, END = "<!-- measures: made by tests/test_developers_page.py -->", "<!-- end -->"


def names_in(place):
    """Every name that the files of a place use."""
    path = ROOT / "teamrehab" / place
    files = path.rglob("*.py") if path.is_dir() else [path]
    found = set()
    for file in files:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Name):
                found.add(node.id)
    return found


def table():
    """The measures, and where each has its form, limits, criterion, history and graph."""
    used = {what: set().union(*map(names_in, places)) for what, places in PLACES.items()}
    lines = [f"| measure | {' | '.join(PLACES)} |", "|---" * (len(PLACES) + 1) + "|"]
    for measure in (*get_args(Test), SessionEntry):
        marks = ("yes" if measure.__name__ in used[what] else "-" for what in PLACES)
        lines.append(f"| {measure.__name__} | {' | '.join(marks)} |")
    return "\n".join(lines)


def test_the_table_of_measures_is_what_the_code_has():
    guide = GUIDE.read_text(encoding="utf-8")
    told = guide.partition(BEGIN)[2].partition(END)[0].strip()
    assert told == table(), f"write this into DEVELOPERS.md:\n{table()}"


def test_every_file_the_guide_names_exists():
    guide = GUIDE.read_text(encoding="utf-8")
    named = set(re.findall(r"`((?:[a-z_.]+/)+[a-z_]*(?:\.[a-z]+)?)", guide))
    assert len(named) > 10
    missing = [
        name
        for name in sorted(named)
        if not any((base / name).exists() for base in (ROOT, ROOT / "teamrehab"))
    ]
    assert missing == []
