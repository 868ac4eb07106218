"""Key slots: one small file a person, in which a passphrase keeps the database key.

A slot is one line of JSON and, below it, its SHA-256; each slot lies there twice, so that a
wrong passphrase, a damaged slot and a damaged database are never mistaken for one another.
"""

import secrets
import unicodedata
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Annotated

import msgspec
from msgspec import Meta

from teamrehab.records.errors import (
    EmptyPassphraseError,
    SlotDamagedError,
    WrongPassphraseError,
)
from teamrehab.records.whole_files import write_whole

KEYS = "keys"
_SLOT, _COPY = ".slot", ".slot-copy"
KEY_BYTES = 32


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What one try of a passphrase costs (Argon2id); bounded, so that no file can ask for more.

    The defaults are the second recommended option of RFC 9106, section 4.
    """

    memory_kib: Annotated[int, Meta(ge=64, le=1 << 20)] = 64 * 1024
    passes: Annotated[int, Meta(ge=1, le=16)] = 3
    lanes: Annotated[int, Meta(ge=1, le=8)] = 4


OPEN_TO_ALL = Cost(memory_kib=64, passes=1, lanes=1)
"""For the demo, whose passphrase is empty: there is nothing to protect from guessing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One person's slot: ``label`` and ``protected`` are readable, ``box`` is not."""

    label: Annotated[str, Meta(max_length=200)]
    protected: bool
    cost: Cost
    salt: Annotated[bytes, Meta(min_length=16, max_length=16)]
    box: Annotated[bytes, Meta(max_length=4096)]
    version: Annotated[int, Meta(ge=1, le=1)] = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """What a slot gives up: the database key, and who its owner is among the staff."""

    key: bytes
    staff_id: str


def _box_key(passphrase: str, salt: bytes, cost: Cost) -> bytes:
    from argon2.low_level import Type, hash_secret_raw

    return hash_secret_raw(
        unicodedata.normalize("NFC", passphrase).encode("utf-8", "surrogatepass"),
        salt,
        time_cost=cost.passes,
        memory_cost=cost.memory_kib,
        parallelism=cost.lanes,
        hash_len=KEY_BYTES,
        type=Type.ID,
    )


def seal(opened: Opened, label: str, passphrase: str, cost: Cost, *, protected: bool) -> Slot:
    """Return a slot that gives ``opened`` to whoever knows the passphrase.

    Raises:
        EmptyPassphraseError: a protected slot without a passphrase.
    """
    from nacl.secret import SecretBox

    if protected and not passphrase:
        raise EmptyPassphraseError
    cost = cost if protected else OPEN_TO_ALL
    salt = secrets.token_bytes(16)
    box = SecretBox(_box_key(passphrase, salt, cost)).encrypt(msgspec.json.encode(opened))
    label = unicodedata.normalize("NFC", label)
    return Slot(label=label, protected=protected, cost=cost, salt=salt, box=bytes(box))


def unseal(slot: Slot, passphrase: str) -> Opened:
    """Return what the slot keeps; raises WrongPassphraseError."""
    from nacl.exceptions import CryptoError
    from nacl.secret import SecretBox

    try:
        plain = SecretBox(_box_key(passphrase, slot.salt, slot.cost)).decrypt(slot.box)
    except CryptoError:
        raise WrongPassphraseError from None
    return msgspec.json.decode(plain, type=Opened)


def slot_bytes(slot: Slot) -> bytes:
    """Return the file of a slot."""
    line = msgspec.json.encode(slot) + b"\n"
    return line + sha256(line).hexdigest().encode() + b"\n"


def read_slot(data: bytes) -> Slot | None:
    """Return the slot in a file's bytes, or None if they are damaged or out of bounds."""
    line, newline, tail = data.partition(b"\n")
    if sha256(line + newline).hexdigest().encode() + b"\n" != tail:
        return None
    try:
        return msgspec.json.decode(line, type=Slot)
    except msgspec.MsgspecError:
        return None


def fresh_name() -> str:
    """Return a name for a new slot's files that tells nothing about its owner."""
    return secrets.token_hex(6)


def write_slot(folder: Path, name: str, slot: Slot) -> None:
    """Write a slot and its copy under ``folder``, each whole or not at all, on the disk."""
    for ending in (_SLOT, _COPY):
        write_whole(folder / KEYS / (name + ending), slot_bytes(slot))


def slots_of(folder: Path) -> tuple[dict[str, Slot], int]:
    """Return the readable slots by file name, and how many have no readable copy."""
    names = {
        path.stem for path in sorted((folder / KEYS).glob("*.slot*")) if path.suffix != ".part"
    }
    found = {name: _one_of_two(folder / KEYS / name) for name in sorted(names)}
    whole = {name: slot for name, slot in found.items() if slot is not None}
    return whole, len(found) - len(whole)


def people_of(folder: Path) -> tuple[str, ...]:
    """Return the labels of the key slots that can be read."""
    return tuple(sorted(slot.label for slot in slots_of(folder)[0].values()))


def is_protected(folder: Path) -> bool:
    """Return False only for a demo, which opens with the passphrase ""."""
    slots = slots_of(folder)[0].values()
    return not slots or any(slot.protected for slot in slots)


def _one_of_two(stem: Path) -> Slot | None:
    """Return the slot from whichever copy is whole; size is bounded before reading."""
    for ending in (_SLOT, _COPY):
        path = stem.with_name(stem.name + ending)
        if path.is_file() and path.stat().st_size <= 16_384:
            slot = read_slot(path.read_bytes())
            if slot is not None:
                return slot
    return None


def mend_slot(folder: Path, slot: Slot) -> None:
    """Write a slot anew where one of its two copies is damaged or gone."""
    data = slot_bytes(slot)
    for name, whole in slots_of(folder)[0].items():
        copies = [folder / KEYS / (name + ending) for ending in (_SLOT, _COPY)]
        if whole == slot and any(not c.is_file() or c.read_bytes() != data for c in copies):
            write_slot(folder, name, slot)


def open_slots(folder: Path, passphrase: str, person: str | None) -> tuple[Slot, Opened]:
    """Return the slot that the passphrase opens, and what it keeps.

    ``person`` is the label of one slot; None tries each.

    Raises:
        SlotDamagedError: no slot asked for is readable, or none of the whole ones opens while
            a damaged one might.
        WrongPassphraseError: every slot asked for is whole, and none opens.
    """
    whole, damaged = slots_of(folder)
    wanted = None if person is None else unicodedata.normalize("NFC", person)
    for slot in whole.values():
        if wanted is not None and slot.label != wanted:
            continue
        try:
            return slot, unseal(slot, passphrase)
        except WrongPassphraseError:
            continue
    labels = {slot.label for slot in whole.values()}
    if not whole or (damaged and wanted not in labels):
        raise SlotDamagedError(folder)
    raise WrongPassphraseError
