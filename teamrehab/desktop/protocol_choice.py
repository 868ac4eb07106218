"""Which protocols are listed to be read, and what a case that one came from says about them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from teamrehab.domain.protocol import Protocol
from teamrehab.language import _


@dataclass(frozen=True, slots=True)
class OpenNow:
    """What the case on the athlete's page follows: a protocol by key, its version, a stage."""

    protocol: str
    version: str
    stage: int
    case_id: str = ""


def listed(protocols: Mapping[str, Protocol], now: OpenNow | None) -> tuple[Protocol, ...]:
    """Return the newest of each protocol; after it the version that is followed, if another."""
    found: list[Protocol] = []
    for protocol in protocols.values():
        found.append(protocol)
        found += [one for one in protocol.earlier if is_followed(one, now)]
    return tuple(found)


def is_followed(protocol: Protocol, now: OpenNow | None) -> bool:
    """Return whether a case follows this very version."""
    ours = (protocol.key, protocol.version)
    return now is not None and ours == (now.protocol, now.version)


def first_row(protocols: Sequence[Protocol], now: OpenNow | None, shown_key: str) -> int:
    """Return the row of the protocol asked for by key, else of the one followed now, else 0."""
    keys = [protocol.key for protocol in protocols]
    if shown_key in keys:
        return keys.index(shown_key)
    exact = [row for row, protocol in enumerate(protocols) if is_followed(protocol, now)]
    if exact or now is None or now.protocol not in keys:
        return next(iter(exact), 0)
    return keys.index(now.protocol)


def stage_in(
    protocol: Protocol, protocols: Sequence[Protocol], now: OpenNow | None
) -> int | None:
    """Return the stage to be marked in a protocol, None where a case follows something else.

    Where the version that is followed is not at hand, the newest one stands in for it.
    """
    if now is None or now.protocol != protocol.key:
        return None
    at_hand = any(is_followed(one, now) for one in protocols)
    return None if at_hand and not is_followed(protocol, now) else now.stage


def case_words(protocol: Protocol, stage: int | None, now: OpenNow | None) -> tuple[str, ...]:
    """Return what the case one came from says about a protocol, () about another one."""
    if now is None or now.protocol != protocol.key:
        return ()
    if stage is None:
        other = _("The case you came from follows version {old}; this is version {new}.")
        return (other.format(old=now.version, new=protocol.version),)
    said = _("The case you came from: stage {n} of {m}, {name}, is open.").format(
        n=stage, m=len(protocol.stages), name=protocol.stages[stage - 1].name
    )
    if now.version == protocol.version:
        return (said,)
    other = _("It was started with version {old}; this is version {new}.")
    return said, other.format(old=now.version, new=protocol.version)


def newer_than_followed(
    protocols: Sequence[Protocol], now: OpenNow | None
) -> tuple[Protocol, Protocol] | None:
    """Return the version a case follows and the newest one, None without a newer one."""
    same = [one for one in protocols if now is not None and one.key == now.protocol]
    return (same[1], same[0]) if len(same) > 1 else None


def name_in(protocols: Sequence[Protocol], protocol: Protocol) -> str:
    """Return how a protocol is named in a list: with its version where two of it stand."""
    if [one.key for one in protocols].count(protocol.key) > 1:
        said = _("{name}, version {version}")
        return said.format(name=protocol.name, version=protocol.version)
    if protocol.starter:
        return _("{name} (starter)").format(name=protocol.name)
    return protocol.name
