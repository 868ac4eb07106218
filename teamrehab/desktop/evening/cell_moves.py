"""How the cursor of a row goes from cell to cell, and what a key that does not fit is told."""

from dataclasses import replace

from teamrehab.desktop.evening.typed import MAIN, Cell, TypedRow
from teamrehab.language import _


def next_cell(row: TypedRow) -> Cell:
    """Return the next empty cell, the minutes where all others are filled."""
    if row.missed is not None or row.done is None:
        return Cell.DONE
    if row.symptom is None and Cell.SYMPTOM not in row.not_asked:
        return Cell.SYMPTOM
    open_effort = row.effort is None and Cell.EFFORT not in row.not_asked
    return Cell.EFFORT if open_effort else Cell.MINUTES


def is_filled(row: TypedRow, cell: Cell) -> bool:
    """Return whether symptom or effort holds a number, or that it was not asked."""
    value = row.symptom if cell is Cell.SYMPTOM else row.effort
    return value is not None or cell in row.not_asked


def emptied(row: TypedRow, cell: Cell) -> TypedRow:
    """Return the row with the cursor in an empty symptom or effort."""
    said = tuple(each for each in row.not_asked if each is not cell)
    if cell is Cell.EFFORT:
        return replace(row, effort=None, not_asked=said, cell=cell)
    return replace(row, symptom=None, feeling=None, safety=(), not_asked=said, cell=cell)


def back(row: TypedRow) -> TypedRow:
    """Return the row with the cursor back from a part of it to its next empty cell."""
    return replace(row, cell=next_cell(row), line=0, in_faults=False)


def go(row: TypedRow, step: int) -> TypedRow:
    """Return the row with the cursor one cell on or back; the others wait for the first."""
    if row.done is None:
        return replace(row, cell=Cell.DONE)
    place = min(max(MAIN.index(row.cell) + step, 0), len(MAIN) - 1)
    return replace(row, cell=MAIN[place])


def stays(row: TypedRow, step: int) -> bool:
    """Return whether Tab goes on within the row: something is typed, and a cell follows."""
    if row.is_empty or row.done is None or row.cell not in MAIN:
        return False
    return 0 <= MAIN.index(row.cell) + step < len(MAIN)


def clear_before(row: TypedRow) -> TypedRow:
    """Return the row without its last digit of minutes, or without the cell before."""
    if row.cell is Cell.MINUTES and row.minutes is not None:
        return replace(row, minutes=row.minutes // 10 or None)
    if row.cell is Cell.MINUTES or (row.cell is Cell.EFFORT and is_filled(row, row.cell)):
        return emptied(row, Cell.EFFORT)
    if row.cell is Cell.EFFORT or (row.cell is Cell.SYMPTOM and is_filled(row, row.cell)):
        return emptied(row, Cell.SYMPTOM)
    if row.cell is Cell.SYMPTOM and row.exercises:
        last = len(row.exercises) - 1
        return replace(row, cell=Cell.EXERCISES, line=last, in_faults=True)
    return clear_done(row)


def clear_done(row: TypedRow) -> TypedRow:
    """Return the row without its first cell, or say that there is nothing to clear."""
    if row.done is None and row.missed is None:
        return replace(row, said=_("Nothing is typed before this. Esc empties the row."))
    return replace(row, done=None, missed=None, words="", exercises=(), cell=Cell.DONE)


def bad(row: TypedRow, sign: str) -> TypedRow:
    """Return the row as it was, with what may be typed where the cursor is."""
    shown = sign if sign.isprintable() and sign.strip() else _("a key that types nothing")
    return replace(row, said=_remedy(row.cell).format(key=shown))


def _remedy(cell: Cell) -> str:
    return {
        Cell.DONE: _(
            "Done: {key} - Y as planned, P partly, M more, N not done, X not seen."
            " Type the letter."
        ),
        Cell.REASON: _("Not done: {key} is no reason. Type one of these letters."),
        Cell.SYMPTOM: _("Symptom: {key} - a digit 0 to 9, or + for 10. Type the digit."),
        Cell.EFFORT: _("Effort: {key} - a digit 0 to 9, or + for 10. Type the digit."),
        Cell.MINUTES: _(
            "Minutes: {key} - a number from 0 to 300. Type digits, or Enter saves."
        ),
        Cell.EXERCISES: _(
            "Exercise: {key} - the sets done, then the numbers of the faults seen."
            " Type digits, or Enter goes on."
        ),
        Cell.SAFETY: _("Question: {key} - Y or N. Type the letter."),
    }[cell]
