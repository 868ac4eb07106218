"""The protocols that travel with the program.

Each lies in a file that bears its key; its versions from before, which cases may follow still,
lie in ``earlier``, each in a file that bears key and version.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from teamrehab.domain.injuries import ProtocolChosen
from teamrehab.domain.protocol import Protocol, version_order
from teamrehab.locations import RESOURCES
from teamrehab.protocols.reading import read_file


def load_protocols() -> dict[str, Protocol]:
    """Return the newest protocols by key with their earlier versions, the more specific first.

    More specific is the one for fewer injuries: where two fit a case, it is the one proposed.
    Of equals, one that is no starter comes first.
    Raises ProtocolError where a file is damaged.
    """
    read = {key: _versions((p, *_earlier(key).values())) for key, p in _files().items()}
    return specific_first(read)


def specific_first(protocols: Mapping[str, Protocol]) -> dict[str, Protocol]:
    """Return the same protocols, the more specific one first (see ``load_protocols``)."""
    found = list(protocols.values())
    found.sort(key=lambda protocol: (len(protocol.injuries), protocol.starter, protocol.key))
    return {protocol.key: protocol for protocol in found}


def protocols_followed(chosen: Iterable[ProtocolChosen]) -> dict[str, Protocol]:
    """Return these protocols in the versions chosen: what the squad needs to be painted.

    For a version that is not at hand all of its protocol are read; a key that nobody has is
    left out.
    """
    wanted: dict[str, set[Path]] = {}
    for key, version in {(one.protocol, one.version) for one in chosen}:
        if key in _files():
            wanted.setdefault(key, set()).update(_that_may_be(key, version))
    return {key: _versions(tuple(sorted(paths))) for key, paths in sorted(wanted.items())}


def _that_may_be(key: str, version: str) -> tuple[Path, ...]:
    """Return the one file of a version, or where no name tells, those it is looked for in."""
    kept, newest = _earlier(key), _files()[key]
    if version in kept:
        return (kept[version],)
    return (newest,) if _read(newest).version == version else (newest, *kept.values())


@lru_cache(maxsize=1)
def _files() -> dict[str, Path]:
    return {path.stem: path for path in sorted((RESOURCES / "protocols").glob("*.toml"))}


@lru_cache(maxsize=64)
def _earlier(key: str) -> dict[str, Path]:
    """Return the versions of a protocol from before, by version."""
    found = (RESOURCES / "protocols" / "earlier").glob(f"{key}_*.toml")
    return {path.stem.removeprefix(f"{key}_"): path for path in sorted(found)}


@lru_cache(maxsize=64)
def _versions(paths: tuple[Path, ...]) -> Protocol:
    """Return the newest of these versions of one protocol, with the others."""
    read = sorted(map(_read, paths), key=lambda one: version_order(one.version), reverse=True)
    return replace(read[0], earlier=tuple(read[1:])) if read[1:] else read[0]


@lru_cache(maxsize=64)
def _read(path: Path) -> Protocol:
    return read_file(path)
