"""Intake patterns of a protocol file: which finding points to which muscle."""

from collections import Counter
from collections.abc import Sequence
from enum import StrEnum
from functools import lru_cache
from typing import get_args, get_type_hints

from teamrehab.domain.examination import Examination
from teamrehab.domain.protocol import IntakePattern
from teamrehab.language import _
from teamrehab.protocols.catalogue import injury_catalogue
from teamrehab.protocols.tables import Table

HEAVIEST = 10
YES, NO = "yes", "no"
"""How a pattern writes the answer to a question of the examination that is yes or no."""


@lru_cache(maxsize=1)
def answers() -> dict[str, tuple[str, ...]]:
    """Return what a pattern may ask for: answers of the examination by finding.

    Free texts, lengths and days are no findings of a pattern.
    """
    asked = {name: get_args(hint) for name, hint in get_type_hints(Examination).items()}
    found = {name: _answers(kinds[0]) for name, kinds in asked.items() if kinds}
    return {name: options for name, options in found.items() if options}


def _answers(kind: type) -> tuple[str, ...]:
    if kind is bool:
        return (YES, NO)
    return tuple(one.value for one in kind) if issubclass(kind, StrEnum) else ()


def muscles_of(injuries: Sequence[str]) -> tuple[str, ...]:
    """Return the keys of the muscles that the catalogue has for these injuries."""
    kinds = injury_catalogue()
    known = (kinds[injury] for injury in injuries if injury in kinds)
    return tuple(muscle.key for kind in known for muscle in kind.muscles)


def read_intake(table: Table, muscles: Sequence[str]) -> tuple[IntakePattern, ...]:
    """Return the patterns of a protocol about these muscles; faults are noted."""
    tables = table.tables("intake")
    patterns = tuple(_pattern(each, muscles) for each in tables)
    _check_doubles(table, patterns)
    return patterns


def _pattern(table: Table, muscles: Sequence[str]) -> IntakePattern:
    pattern = IntakePattern(
        finding=table.choice("finding", tuple(answers())),
        value=table.text("value"),
        muscle=table.choice("muscle", muscles),
        weight=table.whole("weight", 1, HEAVIEST),
        source=table.text("source"),
    )
    options = answers().get(pattern.finding, ())
    if options and pattern.value and pattern.value not in options:
        table.refuse_option("value", pattern.value, options)
    table.close()
    return pattern


def _check_doubles(table: Table, patterns: Sequence[IntakePattern]) -> None:
    """Note a finding that stands twice with one answer for one muscle."""
    counts = Counter((one.finding, one.value, one.muscle) for one in patterns)
    for (finding, value, muscle), count in counts.items():
        if count > 1 and finding and value and muscle:
            allowed = _("each finding once with one answer for one muscle")
            said = f"{finding}, {value}, {muscle}"
            table.refuse("intake", said, allowed, _("Take one of them out."))
