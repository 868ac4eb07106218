"""Ladders and form faults of a protocol file."""

from teamrehab.domain.protocol import FormFault, Ladder, Level, Protocol
from teamrehab.language import _
from teamrehab.protocols.doses import read_dose
from teamrehab.protocols.gates import check_gates, read_after
from teamrehab.protocols.guidance import MOST_SETS, read_work
from teamrehab.protocols.tables import Table, check_doubles


def read_ladders(table: Table, stages: int) -> tuple[Ladder, ...]:
    """Return the ladders of a protocol with so many stages; faults are noted."""
    return tuple(_ladder(each, max(stages, 1)) for each in table.tables("ladder"))


def read_faults(table: Table) -> tuple[FormFault, ...]:
    """Return the form faults of a protocol; faults of the file are noted."""
    return tuple(_fault(each) for each in table.tables("fault"))


def check_ladders(table: Table, protocol: Protocol) -> None:
    """Note what only the whole shows: two ladders, levels or form faults of one name."""
    ladders = protocol.ladders
    check_doubles(table, "ladder, key", (ladder.key for ladder in ladders))
    check_doubles(table, "ladder, name", (ladder.name for ladder in ladders))
    check_doubles(table, "fault, key", (fault.key for fault in protocol.faults))
    check_doubles(table, "fault, name", (fault.name for fault in protocol.faults))
    for number, ladder in enumerate(ladders, start=1):
        place = f"ladder {number}, level, name"
        check_doubles(table, place, (level.name for level in ladder.levels))
        _check_end(table, number, ladder)
    check_gates(table, ladders)


def _ladder(table: Table, stages: int) -> Ladder:
    stage = table.whole("stage", 1, stages)
    levels = tuple(_level(each, stage, stages) for each in table.tables("level"))
    ladder = Ladder(
        key=table.text("key"),
        name=table.text("name"),
        stage=stage,
        until=table.whole_or_none("until", stage, stages),
        levels=levels,
        symptom=table.whole("symptom", 0, 10),
        source=table.text("source"),
        work=read_work(table, required=False),
    )
    if not levels and isinstance(table.values.get("level", []), list):
        allowed = _("at least one [[ladder.level]]")
        table.refuse("level", _("nothing"), allowed, _("Add the levels."))
    _check_order(table, levels)
    table.close()
    return ladder


def _check_order(table: Table, levels: tuple[Level, ...]) -> None:
    """Note a level that a stage opens before the level below it."""
    opened = 0
    for number, level in enumerate(levels, start=1):
        stage = level.stage or opened
        if stage < opened:
            allowed = _("{stage} or more, as in the level before").format(stage=opened)
            table.refuse(f"level {number}, stage", stage, allowed)
        opened = max(opened, stage)


def _check_end(table: Table, number: int, ladder: Ladder) -> None:
    """Note a level that is opened only after the ladder has come to its end."""
    for step, level in enumerate(ladder.levels, start=1):
        if ladder.until is not None and (level.stage or 0) > ladder.until:
            allowed = _("{until} at most, where the ladder ends").format(until=ladder.until)
            table.refuse(f"ladder {number}, level {step}, stage", level.stage, allowed)


def _level(table: Table, first: int, stages: int) -> Level:
    level = Level(
        name=table.text("name"),
        sets=table.whole("sets", 1, MOST_SETS),
        dose=read_dose(table),
        stage=table.whole_or_none("stage", first, stages),
        after=read_after(table),
    )
    table.close()
    return level


def _fault(table: Table) -> FormFault:
    fault = FormFault(key=table.text("key"), name=table.text("name"))
    table.close()
    return fault
