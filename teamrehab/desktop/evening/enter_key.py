"""What Enter does in a row: ask for what lacks, ask the four questions, or save."""

from dataclasses import replace

from teamrehab.desktop.evening.cell_moves import is_filled, next_cell
from teamrehab.desktop.evening.row_values import why_questions
from teamrehab.desktop.evening.typed import QUESTIONS, Cell, Tonight, TypedRow
from teamrehab.language import _


def enter(row: TypedRow, tonight: Tonight) -> TypedRow:
    """Return the row ready to be saved, or with what stands in the way.

    Symptom and effort are never left open: they are typed, or it is typed that nobody asked.
    """
    trouble = _in_the_way(row) or _not_typed(row)
    if trouble:
        return replace(row, said=trouble, cell=next_cell(row))
    if why_questions(row, tonight) and len(row.safety) < QUESTIONS:
        return replace(row, cell=Cell.SAFETY, safety=())
    return replace(row, ready=True)


def _in_the_way(row: TypedRow) -> str:
    if row.is_empty:
        return _("Nothing is typed: this row stays not entered. Down goes on.")
    if row.done is None and row.missed is None and row.has_session and not row.tests:
        return _("Done is not typed: Y as planned, P partly, M more. Esc empties the row.")
    if row.tests and row.painkiller is None:
        return _("Tests need one answer: a painkiller in the last 24 h? K once yes, twice no.")
    return ""


def _not_typed(row: TypedRow) -> str:
    if row.done is None:
        return ""
    if not is_filled(row, Cell.SYMPTOM):
        return _("Symptom: nothing typed - a digit 0 to 9, or + for 10. - if nobody asked.")
    if not is_filled(row, Cell.EFFORT):
        return _("Effort: nothing typed - a digit 0 to 9, or + for 10. - if nobody asked.")
    return ""
