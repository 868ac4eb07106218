"""The injury catalogue: what forms offer, and what priors and protocols refer to."""

from functools import lru_cache

from teamrehab.domain.protocol import InjuryKind, Muscle
from teamrehab.locations import RESOURCES
from teamrehab.protocols.reading import load_toml, read_text
from teamrehab.protocols.tables import Table


def injury_catalogue() -> dict[str, InjuryKind]:
    """Return the kinds of injury by key, in the order of the file.

    Raises ProtocolError where the file that travels with the program is damaged.
    """
    return dict(_shipped())


def read_catalogue(text: str, file: str) -> dict[str, InjuryKind]:
    """Return the catalogue written in ``text`` (TOML); raises ProtocolError."""
    values, fault = load_toml(text, file)
    faults = [fault] if fault else []
    table = Table(file, values, faults)
    kinds = [_kind(each) for each in table.tables("injury")]
    table.close()
    if faults:
        raise faults[0]
    return {kind.key: kind for kind in kinds}


@lru_cache(maxsize=1)
def _shipped() -> dict[str, InjuryKind]:
    path = RESOURCES / "injuries.toml"
    return read_catalogue(read_text(path), path.name)


def _kind(table: Table) -> InjuryKind:
    kind = InjuryKind(
        key=table.text("key"),
        name=table.text("name"),
        area=table.text("area"),
        muscles=tuple(_muscle(each) for each in table.tables("muscle")),
        graded=table.flag("graded"),
    )
    table.close()
    return kind


def _muscle(table: Table) -> Muscle:
    muscle = Muscle(key=table.text("key"), name=table.text("name"))
    table.close()
    return muscle
