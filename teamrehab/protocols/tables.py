"""Reading one table of a TOML file value by value, with every fault noted by name."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from typing import Any

from teamrehab.domain.written import shortened, unfit_text
from teamrehab.language import _
from teamrehab.protocols.errors import ProtocolError

LONGEST_TEXT = 1000


@dataclass(slots=True)
class Table:
    """A table being read: each question takes a key out, ``close`` complains of the rest.

    ``where`` words the place for a person; all tables of a file share ``faults``. A question
    about a missing or wrong value notes the fault and answers something empty, so that one
    reading finds every fault.
    """

    file: str
    values: Mapping[str, Any]
    faults: list[ProtocolError]
    where: str = ""
    asked: set[str] = field(default_factory=set)

    def text(self, key: str, *, required: bool = True) -> str:
        """Return a text without control characters."""
        value = self._take(key, _("a text"), required=required)
        if value is None:
            return ""
        if not isinstance(value, str):
            self.refuse(key, value, _("a text, in quotes"))
            return ""
        if required and not value.strip():
            self.refuse(key, value, _("a text"))
            return ""
        problem = unfit_text(value, LONGEST_TEXT)
        if problem:
            self.refuse(key, value, problem)
        return value

    def whole(self, key: str, low: int, high: int) -> int:
        """Return a whole number within limits."""
        allowed = _("a whole number from {low} to {high}").format(low=low, high=high)
        value = self._take(key, allowed, required=True)
        if type(value) is int and low <= value <= high:
            return value
        if value is not None:
            quoted = _("{allowed}, without quotes").format(allowed=allowed)
            self.refuse(key, value, quoted if isinstance(value, str) else allowed)
        return low

    def whole_or_none(self, key: str, low: int, high: int) -> int | None:
        """Return a whole number within limits, None where it does not stand."""
        self.asked.add(key)
        return self.whole(key, low, high) if key in self.values else None

    def wholes(self, key: str, low: int, high: int) -> tuple[int, ...]:
        """Return a list of whole numbers within limits, at least one."""
        allowed = _("a list of whole numbers from {low} to {high}").format(low=low, high=high)
        value = self._take(key, allowed, required=True)
        listed = value if isinstance(value, list) else []
        if listed and all(type(one) is int and low <= one <= high for one in listed):
            return tuple(listed)
        if value is not None:
            self.refuse(key, value, allowed)
        return ()

    def choice(self, key: str, options: Sequence[str], *, required: bool = True) -> str:
        """Return one of these words; "" where none of them stands."""
        value = self.text(key, required=required)
        if value and value not in options:
            self.refuse_option(key, value, options)
            return ""
        return value

    def refuse_option(self, key: str, value: str, options: Sequence[str]) -> None:
        """Note a word that is none of the options, with the nearest one."""
        near = get_close_matches(value, options, 1)
        remedy = _("Did you mean {near}?").format(near=near[0]) if near else ""
        allowed = _("one of: {options}").format(options=", ".join(options))
        none = _("nothing: the catalogue has no muscle for these injuries")
        self.refuse(key, value, allowed if options else none, remedy)

    def flag(self, key: str) -> bool:
        """Return true or false; false where it does not stand."""
        value = self._take(key, _("true or false"), required=False)
        if not isinstance(value, bool | None):
            self.refuse(key, value, _("true or false"))
        return value is True

    def day(self, key: str) -> date | None:
        """Return a date, None where it does not stand."""
        value = self._take(key, _("a date as 2026-10-05"), required=False)
        if value is None or type(value) is date:
            return value
        self.refuse(key, value, _("a date as 2026-10-05, without quotes"))
        return None

    def words(self, key: str, *, required: bool = False) -> tuple[str, ...]:
        """Return a list of texts."""
        allowed = _("a list of texts")
        value = self._take(key, allowed, required=required)
        if value is None:
            return ()
        listed = value if isinstance(value, list) else [value]
        fit = isinstance(value, list) and all(isinstance(word, str) for word in listed)
        if not fit or (required and not listed):
            self.refuse(key, value, allowed)
            return ()
        for word in listed:
            problem = unfit_text(word, LONGEST_TEXT)
            if problem:
                self.refuse(key, word, problem)
        return tuple(listed)

    def table(self, key: str) -> Mapping[str, Any]:
        """Return a table as it stands, empty where it does not stand."""
        allowed = _("a table of names and values")
        value = self._take(key, allowed, required=False)
        if isinstance(value, Mapping):
            return value
        if value is not None:
            self.refuse(key, value, allowed)
        return {}

    def part(self, key: str) -> "Table | None":
        """Return the one table under a key, to be read; None where it does not stand."""
        allowed = _("one table, headed [{key}]").format(key=key)
        value = self._take(key, allowed, required=False)
        if isinstance(value, Mapping):
            return Table(self.file, value, self.faults, self.place(key))
        if value is not None:
            self.refuse(key, value, allowed)
        return None

    def tables(self, key: str) -> list["Table"]:
        """Return the tables of a list, each knowing its place."""
        allowed = _("a list of tables, each headed [[{key}]]").format(key=key)
        value = self._take(key, allowed, required=False)
        if value is None:
            return []
        if not isinstance(value, list) or not all(isinstance(v, Mapping) for v in value):
            self.refuse(key, value, allowed)
            return []
        return [
            Table(self.file, each, self.faults, self.place(f"{key} {number}"))
            for number, each in enumerate(value, start=1)
        ]

    def close(self) -> None:
        """Note every key that nothing asked for, with the nearest one that is known."""
        for key in self.values:
            if key not in self.asked:
                self.unknown(key, self.asked)

    def unknown(self, key: str, known: Iterable[str], prefix: str = "") -> None:
        """Note a key that does not exist, with the nearest one that does."""
        names = sorted(known)
        near = get_close_matches(key, names, 1)
        remedy = _("Did you mean {near}?").format(near=near[0]) if near else ""
        allowed = _("one of: {options}").format(options=", ".join(names))
        self.refuse(prefix + key, key, allowed, remedy or _("Take it out."))

    def refuse(self, key: str, value: object, allowed: str, remedy: str = "") -> None:
        """Note a fault of this table."""
        self.faults.append(
            ProtocolError(
                file=self.file,
                key=self.place(shortened(key)),
                value=shortened(value),
                allowed=allowed,
                remedy=remedy or _("Change it, and load the file again."),
            )
        )

    def place(self, key: str) -> str:
        """Return where a key of this table stands, for a person."""
        return f"{self.where}, {key}" if self.where else key

    def _take(self, key: str, allowed: str, *, required: bool) -> Any:
        self.asked.add(key)
        value = self.values.get(key)
        if value is None and required:
            self.refuse(key, _("nothing"), allowed, _("Add it."))
        return value


def check_doubles(table: Table, key: str, names: Iterable[str]) -> None:
    """Note each name that stands more than once."""
    for name, count in Counter(name for name in names if name).items():
        if count > 1:
            allowed = _("each name once in a protocol")
            table.refuse(key, name, allowed, _("Give one of them another name."))
