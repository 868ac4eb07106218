"""Lengths are typed in centimetres with one decimal, and kept in whole millimetres."""

import re

from PySide6.QtCore import QRegularExpression
from PySide6.QtGui import QRegularExpressionValidator
from typing_extensions import override

from teamrehab.desktop.forms import NumberField
from teamrehab.language import _

_TYPED = r"\d{0,3}(?:[.,]\d?)?"
"""Three digits and one after a point or a comma, of any script."""


def millimetres(typed: str) -> int | None:
    """Return a length typed in centimetres ("9.5", "9,5", "12"), None where it is none."""
    found = re.fullmatch(r"(\d{0,3})(?:[.,](\d?))?", typed.strip())
    if found is None or not (found[1] or found[2]):
        return None
    return 10 * int(found[1] or 0) + int(found[2] or 0)


class LengthField(NumberField):
    """A length in centimetres; ``value`` is in millimetres, None while nothing is typed."""

    def __init__(self) -> None:
        super().__init__(_("cm"))
        pattern = QRegularExpression(
            _TYPED, QRegularExpression.PatternOption.UseUnicodePropertiesOption
        )
        self.setValidator(QRegularExpressionValidator(pattern, self))

    @property
    @override
    def value(self) -> int | None:
        return millimetres(self.text())

    @override
    def show_value(self, value: int | None) -> None:
        self.setText("" if value is None else f"{value / 10:g}")
