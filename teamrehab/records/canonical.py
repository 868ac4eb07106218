"""One way to write a value down, so that equal facts have equal bytes and equal hashes."""

import json
import unicodedata
from hashlib import blake2b
from typing import Any

from teamrehab.records.errors import UnwritableTextError

Plain = dict[str, "Plain"] | list["Plain"] | str | int | bool | None
"""What a fact may consist of: no floats (quantities are whole numbers in a named unit)."""


def canonical(plain: Any) -> str:
    """Return JSON with sorted keys and no blanks, text as it is."""
    return _ENCODER.encode(plain)


_ENCODER = json.JSONEncoder(
    sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
)


def digest(text: str) -> str:
    """Return the BLAKE2b digest (32 bytes, as hex) of a text."""
    return blake2b(text.encode(), digest_size=32).hexdigest()


def cleaned(plain: Any, field: str = "") -> Any:
    """Return the value with every text in NFC.

    Raises:
        UnwritableTextError: a text holds NUL or half of a surrogate pair.
        TypeError: a float, which is our mistake.
    """
    match plain:
        case str():
            return _clean_text(plain, field)
        case list() | tuple():
            return [cleaned(item, field) for item in plain]
        case dict():
            return {key: cleaned(item, key) for key, item in plain.items()}
        case float():
            raise TypeError(f"{field} is a float; keep a whole number in a named unit")
        case _:
            return plain


def _clean_text(text: str, field: str) -> str:
    if text.isascii() and "\0" not in text:
        return text
    for character in text:
        if character == "\0" or "\ud800" <= character <= "\udfff":
            raise UnwritableTextError(field, f"U+{ord(character):04X}")
    return unicodedata.normalize("NFC", text)
