"""Levels and criteria of a protocol file that wait for levels of ladders."""

from collections.abc import Iterable, Mapping, Sequence
from graphlib import CycleError, TopologicalSorter

from teamrehab.domain.protocol import Criterion, Ladder, Passed
from teamrehab.language import _
from teamrehab.protocols.tables import Table

_Gate = tuple[str, int]


def read_after(table: Table) -> tuple[Passed, ...]:
    """Return the levels that come first: ``after = { ladder = level }``; faults are noted."""
    found = []
    for ladder, level in table.table("after").items():
        if type(level) is int and level >= 1:
            found.append(Passed(ladder=ladder, level=level))
        else:
            allowed = _("the number of a level, 1 or more")
            table.refuse(f"after.{ladder}", level, allowed)
    return tuple(found)


def check_gates(table: Table, ladders: Sequence[Ladder]) -> None:
    """Note a level that waits for one that is not there, or at last for itself."""
    by_key = {ladder.key: ladder for ladder in ladders}
    for number, ladder in enumerate(ladders, start=1):
        for step, level in enumerate(ladder.levels, start=1):
            for passed in level.after:
                _check_one(table, f"ladder {number}, level {step}, after", passed, by_key)
    try:
        TopologicalSorter(_graph(ladders)).prepare()
    except CycleError as error:
        _refuse_cycle(table, error.args[1])


def check_criteria(
    table: Table, criteria: Iterable[Criterion], ladders: Sequence[Ladder]
) -> None:
    """Note a criterion that waits for a level that is not there."""
    by_key = {ladder.key: ladder for ladder in ladders}
    for criterion in criteria:
        ladder, level = (criterion.parameters.get(name) for name in ("ladder", "level"))
        if isinstance(ladder, str) and type(level) is int:
            passed = Passed(ladder=ladder, level=level)
            _check_one(table, f"{criterion.key}, parameters", passed, by_key)
        for passed in criterion.after:
            _check_one(table, f"{criterion.key}, after", passed, by_key)


def _check_one(table: Table, key: str, passed: Passed, ladders: Mapping[str, Ladder]) -> None:
    if passed.ladder not in ladders:
        table.unknown(passed.ladder, ladders, prefix=f"{key}.")
        return
    last = len(ladders[passed.ladder].levels)
    if passed.level > last:
        allowed = _("a level of that ladder, 1 to {last}").format(last=last)
        table.refuse(f"{key}.{passed.ladder}", passed.level, allowed)


def _graph(ladders: Sequence[Ladder]) -> dict[_Gate, set[_Gate]]:
    """Return what each level waits for: the level below it, and those it names."""
    return {
        (ladder.key, step): {(one.ladder, one.level) for one in level.after}
        | ({(ladder.key, step - 1)} if step > 1 else set())
        for ladder in ladders
        for step, level in enumerate(ladder.levels, start=1)
    }


def _refuse_cycle(table: Table, round_trip: Sequence[_Gate]) -> None:
    way = " > ".join(f"{ladder} {level}" for ladder, level in round_trip)
    allowed = _("levels that do not wait for each other in a circle")
    table.refuse("ladder, after", way, allowed, _("Take one of these gates out."))
