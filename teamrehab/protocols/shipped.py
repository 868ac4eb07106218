"""The protocols that travel with the program."""

from functools import lru_cache

from teamrehab.domain.protocol import Protocol
from teamrehab.locations import RESOURCES
from teamrehab.protocols.reading import read_file


def load_protocols() -> dict[str, Protocol]:
    """Return the protocols by key, the more specific one first.

    More specific is the one for fewer injuries: where two fit a case, it is the one proposed.
    Of equals, one that is no starter comes first.
    Raises ProtocolError where a file is damaged.
    """
    return dict(_read_all())


@lru_cache(maxsize=1)
def _read_all() -> dict[str, Protocol]:
    files = sorted((RESOURCES / "protocols").glob("*.toml"))
    read = [read_file(path) for path in files]
    read.sort(key=lambda protocol: (len(protocol.injuries), protocol.starter, protocol.key))
    return {protocol.key: protocol for protocol in read}
