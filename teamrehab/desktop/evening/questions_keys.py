"""Keys at the four safety questions: Y or N each, then Enter saves what they mean."""

from dataclasses import replace

from teamrehab.desktop.evening.cell_moves import back, bad
from teamrehab.desktop.evening.typed import QUESTIONS, Tonight, TypedRow
from teamrehab.language import _


def question(row: TypedRow, key: str, _tonight: Tonight) -> TypedRow:
    """Answer a key; Esc, or Backspace at the first question, looks at the row again."""
    if key == "Escape" or (key == "Backspace" and not row.safety):
        return back(replace(row, safety=()))
    if key == "Backspace":
        return replace(row, safety=row.safety[:-1])
    if key == "Enter":
        return _enter(row)
    sign = key.lower()
    if sign not in ("y", "n"):
        return bad(row, key)
    if len(row.safety) == QUESTIONS:
        said = _("All four are answered. Enter saves, Backspace takes the last one back.")
        return replace(row, said=said)
    return replace(row, safety=(*row.safety, sign == "y"))


def _enter(row: TypedRow) -> TypedRow:
    if len(row.safety) < QUESTIONS:
        return replace(row, said=_("The question is not answered. Type Y or N."))
    return replace(row, ready=True)
