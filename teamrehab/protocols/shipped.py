"""The protocols that travel with the program: each in a file that bears its key."""

from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

from teamrehab.domain.protocol import Protocol
from teamrehab.locations import RESOURCES
from teamrehab.protocols.reading import read_file


def load_protocols() -> dict[str, Protocol]:
    """Return the protocols by key, the more specific one first.

    More specific is the one for fewer injuries: where two fit a case, it is the one proposed.
    Of equals, one that is no starter comes first.
    Raises ProtocolError where a file is damaged.
    """
    read = [_read(path) for path in _files().values()]
    read.sort(key=lambda protocol: (len(protocol.injuries), protocol.starter, protocol.key))
    return {protocol.key: protocol for protocol in read}


def protocols_named(keys: Iterable[str]) -> dict[str, Protocol]:
    """Return those of these protocols that there are: what the squad needs to be painted."""
    files = _files()
    return {key: _read(files[key]) for key in sorted(set(keys)) if key in files}


@lru_cache(maxsize=1)
def _files() -> dict[str, Path]:
    return {path.stem: path for path in sorted((RESOURCES / "protocols").glob("*.toml"))}


@lru_cache(maxsize=64)
def _read(path: Path) -> Protocol:
    return read_file(path)
