"""Reading a text file of the TOML format, or saying why it is none."""

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from teamrehab.language import _
from teamrehab.protocols.errors import ProtocolError

LARGEST = 1_000_000
"""Bytes; a protocol is a page of text."""


def read_text(path: Path) -> str:
    """Return the text of a file; raises ProtocolError where it is no readable text."""
    try:
        if path.stat().st_size > LARGEST:
            raise _too_large(path.name)
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        where = _("byte {number}").format(number=error.start)
        raise _whole_file(
            path.name, where, _("text in UTF-8"), _("Save it as UTF-8.")
        ) from None
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise _whole_file(path.name, why, _("a readable file"), _("Check the path.")) from None


def load_toml(text: str, file: str) -> tuple[Mapping[str, Any], ProtocolError | None]:
    """Return the values of a TOML text, or why it is none."""
    if len(text.encode("utf-8", "surrogatepass")) > LARGEST:
        return {}, _too_large(file)
    try:
        return tomllib.loads(text), None
    except tomllib.TOMLDecodeError as error:
        remedy = _("Compare with a protocol that loads.")
        return {}, _whole_file(file, str(error), _("text in the TOML format"), remedy)
    except RecursionError:
        remedy = _("Write lists and tables without so many brackets.")
        return {}, _whole_file(file, _("deep nesting"), _("tables two levels deep"), remedy)


def _too_large(file: str) -> ProtocolError:
    allowed = _("at most 1 MB of text")
    remedy = _("A protocol is a page of text: check that this is one.")
    return _whole_file(file, _("a larger file"), allowed, remedy)


def _whole_file(file: str, value: str, allowed: str, remedy: str) -> ProtocolError:
    return ProtocolError(
        file=file, key=_("the whole file"), value=value, allowed=allowed, remedy=remedy
    )
