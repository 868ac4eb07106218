"""The protocols that travel with the program."""

from functools import lru_cache

from teamrehab.domain.protocol import Protocol
from teamrehab.locations import RESOURCES
from teamrehab.protocols.files import read_text
from teamrehab.protocols.reading import read_protocol


def load_protocols() -> dict[str, Protocol]:
    """Return the protocols by key; raises ProtocolError where a file is damaged."""
    return dict(_read_all())


@lru_cache(maxsize=1)
def _read_all() -> dict[str, Protocol]:
    files = sorted((RESOURCES / "protocols").glob("*.toml"))
    read = [read_protocol(read_text(path), path.name) for path in files]
    return {protocol.key: protocol for protocol in read}
