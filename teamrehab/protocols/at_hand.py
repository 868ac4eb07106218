"""All protocols at hand: those that travel with the program and the club's own."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import lru_cache

from teamrehab.domain.injuries import ProtocolAdopted, ProtocolChosen
from teamrehab.domain.protocol import Protocol, version_order
from teamrehab.protocols.errors import ProtocolError
from teamrehab.protocols.reading import read_protocol
from teamrehab.protocols.shipped import load_protocols, protocols_followed, specific_first


def protocols_at_hand(own: Iterable[ProtocolAdopted] = ()) -> dict[str, Protocol]:
    """Return the newest protocols by key with their earlier versions, the more specific first.

    ``own`` are the files the club took in; of one version at hand twice the club's own counts.
    One that this program cannot read is left out: the case that follows it says so.
    """
    return specific_first(_merged(load_protocols(), own))


def protocols_for(
    chosen: Iterable[ProtocolChosen], own: Iterable[ProtocolAdopted] = ()
) -> dict[str, Protocol]:
    """Return these protocols in the versions chosen; only what is lacking has more read."""
    wanted = tuple(chosen)
    keys = {one.protocol for one in wanted}
    exact = {(one.protocol, one.version) for one in wanted}
    taken = [one for one in own if one.key in keys]
    named = {(one.key, one.version) for one in taken}
    shipped = protocols_followed(
        one for one in wanted if (one.protocol, one.version) not in named
    )
    lacking = {
        key
        for key, version in exact - named
        if key not in shipped or version not in versions_of(shipped[key])
    }
    needed = (one for one in taken if one.key in lacking or (one.key, one.version) in exact)
    return _merged(shipped, needed)


def versions_of(protocol: Protocol) -> dict[str, Protocol]:
    """Return the versions of a protocol that are at hand, the newest first."""
    return {one.version: one for one in (protocol, *protocol.earlier)}


def _merged(
    shipped: Mapping[str, Protocol], own: Iterable[ProtocolAdopted]
) -> dict[str, Protocol]:
    """Return protocols with these of the club beside them, the newest of a key on top."""
    found = {key: versions_of(protocol) for key, protocol in shipped.items()}
    for taken in own:
        protocol = _read(taken.text)
        if protocol is not None:
            found.setdefault(protocol.key, {})[protocol.version] = protocol
    return {key: _newest(versions.values()) for key, versions in found.items()}


def _newest(versions: Iterable[Protocol]) -> Protocol:
    first, *rest = sorted(versions, key=lambda one: version_order(one.version), reverse=True)
    return first if first.earlier == tuple(rest) else replace(first, earlier=tuple(rest))


@lru_cache(maxsize=64)
def _read(text: str) -> Protocol | None:
    try:
        return read_protocol(text)
    except ProtocolError:
        return None
