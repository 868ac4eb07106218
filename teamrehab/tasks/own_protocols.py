"""The club's own protocol files: checked in full, taken into the casebook, read back."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from teamrehab.domain.injuries import ProtocolAdopted
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _, counted
from teamrehab.protocols import (
    ProtocolError,
    check_text,
    load_protocols,
    protocols_at_hand,
    read_protocol,
    read_text,
)
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.board import own_protocols
from teamrehab.tasks.refusals import RefusedError

FAULTS_TOLD = 5
"""Of a file with more faults the first ones are told; the rest when these are mended."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenProtocol:
    """A protocol file that was taken in; ``receipt`` None: it was known, word by word."""

    protocol: Protocol
    receipt: Receipt | None


def protocols_here(casebook: Casebook) -> dict[str, Protocol]:
    """Return all protocols at hand in a casebook: the club's own and those of the program."""
    return protocols_at_hand(own_protocols(casebook))


def take_in_protocol(casebook: Casebook, file: Path) -> TakenProtocol:
    """Check a protocol file in full and keep it in the casebook.

    A refused file changes nothing: what was in force stays in force.

    Raises:
        RefusedError: the file is no sound protocol, or another one of the same key and version
            is at hand already.
    """
    text, protocol = _sound(file)
    before = own_protocols(casebook)
    if any(one.text == text for one in before):
        return TakenProtocol(protocol=protocol, receipt=None)
    _insist_on_new(protocol, before, file.name)
    adopted = ProtocolAdopted(
        key=protocol.key, version=protocol.version, on=casebook.clock.today(), text=text
    )
    return TakenProtocol(protocol=protocol, receipt=casebook.note(adopted))


def taken_words(done: TakenProtocol) -> str:
    """Return what was taken in, and what it means for cases."""
    words = {"name": done.protocol.name, "version": done.protocol.version}
    if done.receipt is None:
        said = _("{name}, version {version}, is in this casebook already, word by word.")
    else:
        said = _(
            "{name}, version {version}, was taken in. New cases may follow it; cases that"
            " follow another version keep theirs until somebody moves them."
        )
    return said.format(**words)


def _sound(file: Path) -> tuple[str, Protocol]:
    """Return the text of a file and its protocol, or raise RefusedError with its faults."""
    try:
        text = read_text(file)
    except ProtocolError as fault:
        raise RefusedError(refusal_words([fault])) from None
    faults = check_text(text, file.name)
    if faults:
        raise RefusedError(refusal_words(faults))
    return text, read_protocol(text, file.name)


def refusal_words(faults: Sequence[ProtocolError]) -> str:
    """Return why a protocol file was not taken in: its first faults, one a line."""
    said = [_("The file was not taken in; what was in force stays in force.")]
    said += [str(fault) for fault in faults[:FAULTS_TOLD]]
    more = len(faults) - FAULTS_TOLD
    if more > 0:
        said.append(counted("{count} more fault after these.", "{count} more faults.", more))
    return "\n".join(said)


def _insist_on_new(protocol: Protocol, before: Sequence[ProtocolAdopted], file: str) -> None:
    """Raise RefusedError where another text has this key and version already."""
    shipped = load_protocols().get(protocol.key)
    known = {(one.key, one.version) for one in before}
    if shipped is not None:
        known |= {(one.key, one.version) for one in (shipped, *shipped.earlier)}
    if (protocol.key, protocol.version) in known:
        fault = ProtocolError(
            file=file,
            key="version",
            value=protocol.version,
            allowed=_("a version of {key} that is not at hand yet").format(key=protocol.key),
            remedy=_("Cases may follow that version as it is: raise the version."),
        )
        raise RefusedError(refusal_words([fault]))
