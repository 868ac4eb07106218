"""The injury catalogue: what forms offer, and what priors and protocols refer to."""

from dataclasses import dataclass
from functools import lru_cache

from teamrehab.domain.protocol import InjuryKind, Muscle
from teamrehab.locations import RESOURCES
from teamrehab.protocols.files import load_toml, read_text
from teamrehab.protocols.tables import Table


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Kinds of injury by key, and the parts of the body that are offered, in their order."""

    kinds: dict[str, InjuryKind]
    areas: tuple[str, ...]


def injury_catalogue() -> dict[str, InjuryKind]:
    """Return the kinds of injury by key, in the order of the file.

    Raises ProtocolError where the file that travels with the program is damaged.
    """
    return dict(_shipped().kinds)


def body_areas() -> tuple[str, ...]:
    """Return the parts of the body a person chooses from; "other" is the last of them."""
    return _shipped().areas


def read_catalogue(text: str, file: str) -> Catalogue:
    """Return the catalogue written in ``text`` (TOML); raises ProtocolError."""
    values, fault = load_toml(text, file)
    faults = [fault] if fault else []
    table = Table(file, values, faults)
    areas = table.words("areas", required=True)
    kinds = [_kind(each, areas) for each in table.tables("injury")]
    table.close()
    if faults:
        raise faults[0]
    return Catalogue(kinds={kind.key: kind for kind in kinds}, areas=areas)


@lru_cache(maxsize=1)
def _shipped() -> Catalogue:
    path = RESOURCES / "injuries.toml"
    return read_catalogue(read_text(path), path.name)


def _kind(table: Table, areas: tuple[str, ...]) -> InjuryKind:
    kind = InjuryKind(
        key=table.text("key"),
        name=table.text("name"),
        area=table.text("area", required=False),
        muscles=tuple(_muscle(each) for each in table.tables("muscle")),
        graded=table.flag("graded"),
    )
    if kind.area and kind.area not in areas:
        table.refuse("area", kind.area, ", ".join(areas))
    table.close()
    return kind


def _muscle(table: Table) -> Muscle:
    muscle = Muscle(key=table.text("key"), name=table.text("name"))
    table.close()
    return muscle
