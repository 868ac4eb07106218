"""Keys among the exercises of the plan: the sets done, then the numbers of the faults."""

from dataclasses import replace

from teamrehab.desktop.evening.cell_moves import back, bad, clear_done
from teamrehab.desktop.evening.typed import Tonight, TypedExercise, TypedRow

_ON = ("Enter", "Down", " ")


def exercise(row: TypedRow, key: str, tonight: Tonight) -> TypedRow:
    """Answer a key: digits count sets and turn faults, Enter and arrows change the line."""
    if key == "Escape" or (key in _ON and row.line == len(row.exercises) - 1):
        return back(row)
    if key in _ON:
        return replace(row, line=row.line + 1, in_faults=False)
    if key in ("Up", "Left", "Right"):
        line = max(row.line - 1, 0) if key == "Up" else row.line
        return replace(row, line=line, in_faults=key == "Right")
    return _cleared(row) if key == "Backspace" else _digit(row, key, tonight)


def _digit(row: TypedRow, key: str, tonight: Tonight) -> TypedRow:
    if not (len(key) == 1 and key.isascii() and key.isdigit()):
        return bad(row, key)
    return _fault(row, int(key), tonight) if row.in_faults else _sets(row, int(key))


def _sets(row: TypedRow, sets: int) -> TypedRow:
    seen = replace(row.exercises[row.line], sets=sets)
    return replace(_with(row, seen), in_faults=True)


def _fault(row: TypedRow, number: int, tonight: Tonight) -> TypedRow:
    if not 1 <= number <= len(tonight.faults):
        return bad(row, str(number))
    seen, key = row.exercises[row.line], tonight.faults[number - 1].key
    kept = tuple(fault for fault in seen.faults if fault != key)
    faults = kept if key in seen.faults else (*seen.faults, key)
    return _with(row, replace(seen, faults=faults))


def _cleared(row: TypedRow) -> TypedRow:
    """Clear what was typed last: faults, the sets, then the line before."""
    seen = row.exercises[row.line]
    if row.in_faults and seen.faults:
        return _with(row, replace(seen, faults=()))
    if seen.sets is not None:
        return replace(_with(row, replace(seen, sets=None)), in_faults=False)
    if row.line == 0:
        return clear_done(replace(row, in_faults=False))
    return replace(row, line=row.line - 1, in_faults=True)


def _with(row: TypedRow, seen: TypedExercise) -> TypedRow:
    lines = list(row.exercises)
    lines[row.line] = seen
    return replace(row, exercises=tuple(lines))
