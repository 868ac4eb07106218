"""A protocol file becomes a Protocol, or a list of everything that is wrong with it."""

from collections.abc import Iterable, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

from teamrehab.domain.athletes import Role
from teamrehab.domain.checks import CHECKS
from teamrehab.domain.protocol import Criterion, Protocol, Stage
from teamrehab.language import _
from teamrehab.protocols.errors import ProtocolError
from teamrehab.protocols.files import load_toml, read_text
from teamrehab.protocols.gates import check_criteria, read_after
from teamrehab.protocols.guidance import check_guidance, read_guidance
from teamrehab.protocols.intake import muscles_of, read_intake
from teamrehab.protocols.ladders import check_ladders, read_faults, read_ladders
from teamrehab.protocols.tables import Table, check_doubles

FORMAT = 1


def read_protocol(text: str, file: str = "") -> Protocol:
    """Return the protocol written in ``text`` (TOML).

    ``file`` names it in errors. Raises ProtocolError with the first fault.
    """
    protocol, faults = parse(text, file or _("this protocol"))
    if faults:
        raise faults[0]
    return protocol


def check_file(path: Path) -> tuple[ProtocolError, ...]:
    """Return everything that is wrong with a protocol file, nothing where it is in order."""
    try:
        text = read_text(path)
    except ProtocolError as error:
        return (error,)
    return check_text(text, path.name)


def check_text(text: str, file: str) -> tuple[ProtocolError, ...]:
    """Return everything that is wrong with the text of a protocol; ``file`` names it."""
    return parse(text, file)[1]


def read_file(path: Path) -> Protocol:
    """Return the protocol in a file; raises ProtocolError with the first fault."""
    return read_protocol(read_text(path), path.name)


def parse(text: str, file: str) -> tuple[Protocol, tuple[ProtocolError, ...]]:
    """Return what could be read and every fault; it counts only where there is no fault."""
    values, fault = load_toml(text, file)
    faults: list[ProtocolError] = [fault] if fault else []
    table = Table(file, values, faults)
    if not fault:
        _check_format(table)
    if faults:
        return _nothing(), tuple(faults)
    protocol = _protocol(table)
    _check_whole(table, protocol)
    return protocol, tuple(faults)


def _protocol(table: Table) -> Protocol:
    stages = tuple(_stage(stage) for stage in table.tables("stage"))
    injuries = table.words("injuries", required=True)
    muscles = muscles_of(injuries)
    may_sign = table.words("may_sign")
    for role in may_sign:
        if role not in tuple(Role):
            table.refuse_option("may_sign", role, [one.value for one in Role])
    protocol = Protocol(
        key=table.text("key"),
        name=table.text("name"),
        version=table.text("version"),
        injuries=injuries,
        stages=stages,
        sign_off=_criteria(table, "sign_off"),
        reviewed_by=table.text("reviewed_by", required=False),
        reviewed_on=table.day("reviewed_on"),
        cautions=table.words("cautions"),
        cautions_under_18=table.words("cautions_under_18"),
        may_sign=may_sign,
        starter=table.flag("starter"),
        ladders=read_ladders(table, len(stages)),
        faults=read_faults(table),
        intake=read_intake(table, muscles),
        guidance=read_guidance(table, len(stages), muscles),
    )
    table.close()
    return protocol


def _stage(table: Table) -> Stage:
    stage = Stage(
        name=table.text("name"),
        phase=table.whole("phase", 1, 5),
        entry=_criteria(table, "entry"),
        exit=_criteria(table, "exit"),
        caution=table.text("caution", required=False),
        minutes=table.whole_or_none("minutes", 1, 300),
        symptom=table.whole_or_none("symptom", 0, 10),
        source=table.text("source", required=False),
        warn_before_day=table.whole_or_none("warn_before_day", 1, 365),
    )
    table.close()
    return stage


def _criteria(table: Table, key: str) -> tuple[Criterion, ...]:
    return tuple(_criterion(each) for each in table.tables(key))


def _criterion(table: Table) -> Criterion:
    check = table.choice("check", tuple(CHECKS))
    parameters = table.table("parameters")
    if check:
        _check_parameters(table, check, parameters)
    criterion = Criterion(
        key=table.text("key"),
        check=check,
        sentence=table.text("sentence"),
        source=table.text("source"),
        parameters=parameters,
        range=table.text("range", required=False),
        after=read_after(table),
    )
    table.close()
    return criterion


def _check_parameters(table: Table, check: str, given: Mapping[str, Any]) -> None:
    """Note unknown, missing and wrong parameters of a check."""
    known = CHECKS[check].parameters
    for name, value in given.items():
        if name not in known:
            table.unknown(name, known, prefix="parameters.")
        elif not known[name].takes(value):
            table.refuse(f"parameters.{name}", value, known[name].allowed())
    for name, allowed in known.items():
        if allowed.required and name not in given:
            table.refuse(f"parameters.{name}", _("nothing"), allowed.allowed(), _("Add it."))


def _check_format(table: Table) -> None:
    version = table.whole("format", 1, 1_000_000)
    if version > FORMAT:
        remedy = _("Update the program, or ask for the file in the older format.")
        allowed = _("format {number} or older").format(number=FORMAT)
        table.refuse("format", version, allowed, remedy)


def _check_whole(table: Table, protocol: Protocol) -> None:
    """Note what only the whole shows: no stages, no way out, phases that go back, doubles."""
    if not protocol.stages:
        table.refuse("stage", _("nothing"), _("at least one [[stage]]"), _("Add the stages."))
    for number, stage in enumerate(protocol.stages, start=1):
        if not protocol.gate(number):
            allowed = _("at least one criterion to leave the stage")
            table.refuse(f"stage {number}", stage.name, allowed, _("Add an exit or entry."))
    for before, after in pairwise(protocol.stages):
        if after.phase < before.phase:
            allowed = _("{phase} or more, as in the stage before").format(phase=before.phase)
            table.refuse(f"{after.name}, phase", after.phase, allowed)
    check_doubles(table, "key", (criterion.key for criterion in _all_criteria(protocol)))
    check_doubles(table, "stage, name", (stage.name for stage in protocol.stages))
    check_ladders(table, protocol)
    check_criteria(table, _all_criteria(protocol), protocol.ladders)
    check_guidance(table, protocol)


def _all_criteria(protocol: Protocol) -> Iterable[Criterion]:
    for stage in protocol.stages:
        yield from stage.entry
        yield from stage.exit
    yield from protocol.sign_off


def _nothing() -> Protocol:
    return Protocol(key="", name="", version="", injuries=(), stages=(), sign_off=())
