"""Doses of a protocol file: every number has a unit that a person can count or time."""

import re
from difflib import get_close_matches

from teamrehab.language import _
from teamrehab.protocols.tables import Table

UNITS = ("repetitions", "contacts", "runs", "steps", "s", "min", "m", "kg", "%")
_NUMBER = re.compile(r"(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))?")
_WORD = re.compile(r"[^\W\d]+|%")


def read_dose(table: Table) -> str:
    """Return what a set is made of; a number that is 0 or has no known unit is a fault.

    One word may stand between a number and its unit: "6-10 hard repetitions".
    """
    dose = table.text("dose")
    found = list(_NUMBER.finditer(dose))
    if dose and not found:
        table.refuse("dose", dose, _allowed(), _("Say how much a set is."))
    for number in found:
        low, high = float(number[1]), float(number[2] or number[1])
        if low <= 0 or high < low:
            allowed = _("numbers over 0, the smaller one first")
            table.refuse("dose", dose, allowed)
        words = _WORD.findall(dose[number.end() :])[:2]
        if not set(words) & set(UNITS):
            _refuse_unit(table, dose, words)
    return dose


def _refuse_unit(table: Table, dose: str, words: list[str]) -> None:
    near = [unit for word in words for unit in _near(word)]
    remedy = _("Did you mean {near}?").format(near=near[0]) if near else ""
    table.refuse("dose", dose, _allowed(), remedy)


def _near(word: str) -> list[str]:
    """Return the unit a word is likely to stand for: spelled alike, or beginning with it."""
    longer = [unit for unit in UNITS if word.startswith(unit)]
    return get_close_matches(word, UNITS, 1) or sorted(longer, key=len, reverse=True)[:1]


def _allowed() -> str:
    said = _("numbers each followed by one of: {options}")
    return said.format(options=", ".join(UNITS))
