"""The line of a row: who, the side, the plan, the cells, and how the row stands."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QWidget

from teamrehab.desktop.appearance import Space, Type, as_type, text
from teamrehab.desktop.evening.entry import Entry
from teamrehab.desktop.evening.line_widgets import CellLabel, CutLabel
from teamrehab.desktop.evening.row_words import (
    beneath_cells,
    coach_words,
    done_words,
    effort_words,
    large_side,
    number_words,
    plan_whole,
    symptom_words,
)
from teamrehab.desktop.evening.spoken import status_words
from teamrehab.desktop.evening.typed import MAIN, Cell, TypedRow
from teamrehab.domain.measures import Done
from teamrehab.language import _
from teamrehab.reports.evening import EveningLine
from teamrehab.reports.wording_clinical import side_words

NUMBER, NAME, SIDE, STATUS = 3, 32, 12, 19
"""Widths of the columns, in letters of the running text."""

CELLS = {Cell.DONE: 11, Cell.SYMPTOM: 5, Cell.EFFORT: 5, Cell.MINUTES: 6}
"""Widths of the cells, in letters of their own size."""

_FIRST_CELL = 4


class RowHead(QWidget):
    """Two lines: names, plan and cells above; what they are read with below."""

    def __init__(self) -> None:
        super().__init__()
        self.number, self.surname = text("", Type.LEAD), text("", Type.TITLE)
        self.first = CutLabel("", Type.LEAD)
        self.below, self.side = CutLabel("", Type.SMALL), text("", Type.LEAD)
        self.plan, self.before = CutLabel("", Type.BODY), CutLabel("", Type.SMALL)
        self.marks, self.status = CutLabel("", Type.SMALL), text("")
        self.cells = {cell: CellLabel(letters) for cell, letters in CELLS.items()}
        self._lay_out()

    def show_entry(self, entry: Entry, *, active: bool) -> None:
        """Show the line and what is typed in it."""
        line = entry.tonight.line
        self._show_name(line, active=active)
        flagged = bool(line.history.red_flags_open_on(entry.tonight.on))
        _set_role(self.before, Type.COMPLAINT if flagged else Type.SMALL)
        self._show_plan(line, beneath=active and self.cuts_plan(entry))
        self._show_cells(entry, active=active)
        coach = entry.tonight.coach
        self.marks.setText(
            coach_words(entry.tonight) if coach else beneath_cells(entry.shown, entry.tonight)
        )
        _set_role(self.marks, Type.COMPLAINT if coach else Type.SMALL)
        self.status.setText(status_words(entry))
        _set_role(self.status, _status_role(entry, active=active))

    def cuts_plan(self, entry: Entry) -> bool:
        """Return whether the plan, or why there is none, is too long for its column."""
        words = plan_whole(entry.tonight)
        long = self.plan.fontMetrics().horizontalAdvance(words) > self.plan.width()
        return long and entry.shown.cell in MAIN

    def _show_name(self, line: EveningLine, *, active: bool) -> None:
        self.number.setText("" if line.number is None else str(line.number))
        self.surname.setText(line.surname)
        self.first.setText(line.first_name)
        alike = _("alike name: check")
        known = ", ".join(words for words in (line.problem, line.stage) if words)
        self.below.setText(alike if line.alike else known)
        _set_role(self.below, Type.COMPLAINT if line.alike else Type.SMALL)
        self.side.setText(large_side(line.side) if active else side_words(line.side))
        _set_role(self.side, Type.DISPLAY if active else Type.LEAD)

    def _show_plan(self, line: EveningLine, *, beneath: bool) -> None:
        """Show the plan; one too long for its column may stand whole beneath the row."""
        before = line.stopped or _before(line)
        self.plan.setText(before if beneath and not line.stopped else line.plan_words)
        _set_role(self.plan, Type.COMPLAINT if line.stopped else Type.BODY)
        self.before.setText("" if beneath and not line.stopped else before)

    def _show_cells(self, entry: Entry, *, active: bool) -> None:
        row = entry.shown
        shown = {
            Cell.DONE: done_words(row),
            Cell.SYMPTOM: symptom_words(row),
            Cell.EFFORT: effort_words(row),
            Cell.MINUTES: number_words(row.minutes),
        }
        now = _now(row) if active and (entry.is_open and not entry.saving) else None
        for cell, label in self.cells.items():
            expected = _expected(entry) if cell is Cell.MINUTES else ""
            label.show_cell(shown[cell], expected, now=cell is now, in_use=active)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(Space.NEAR)
        grid.setVerticalSpacing(0)
        letter = self.fontMetrics().averageCharWidth()
        for place, letters in enumerate((NUMBER, NAME, SIDE)):
            grid.setColumnMinimumWidth(place, letter * letters)
        names = QHBoxLayout()
        names.setSpacing(Space.NEAR)
        names.addWidget(self.surname)
        names.addWidget(self.first, 1)
        grid.addWidget(self.number, 0, 0)
        grid.addLayout(names, 0, 1)
        grid.addWidget(self.below, 1, 1)
        grid.addWidget(self.side, 0, 2, 2, 1, Qt.AlignmentFlag.AlignVCenter)
        grid.addWidget(self.plan, 0, 3)
        grid.addWidget(self.before, 1, 3)
        for place, cell in enumerate(MAIN, start=_FIRST_CELL):
            grid.addWidget(self.cells[cell], 0, place)
        self.marks.setIndent(Space.NEAR)
        grid.addWidget(self.marks, 1, _FIRST_CELL, 1, len(MAIN) + 1)
        self.status.setFixedWidth(letter * STATUS)
        grid.addWidget(self.status, 0, _FIRST_CELL + len(MAIN))
        grid.setColumnStretch(3, 1)


def headings(bar_width: int) -> QWidget:
    """Return the words above the cells of all rows, beside which a bar may stand."""
    widget = QWidget()
    grid = QGridLayout(widget)
    grid.setContentsMargins(Space.APART, 0, Space.APART + bar_width, 0)
    grid.setHorizontalSpacing(Space.NEAR)
    letters = widget.fontMetrics().averageCharWidth()
    for place, width in enumerate((NUMBER, NAME, SIDE)):
        nothing = text("", Type.SMALL)
        nothing.setFixedWidth(letters * width)
        grid.addWidget(nothing, 0, place)
    grid.addWidget(text(_("Plan; last time and next morning"), Type.SMALL), 0, 3)
    names = (_("Done"), _("Symptom"), _("Effort"), _("Minutes"))
    for place, (cell, name) in enumerate(zip(MAIN, names, strict=True), start=_FIRST_CELL):
        label = text(name, Type.SMALL)
        label.setFixedWidth(CellLabel(CELLS[cell]).width())
        label.setIndent(Space.NEAR)
        grid.addWidget(label, 0, place)
    last = text(_("Saved"), Type.SMALL)
    last.setFixedWidth(letters * STATUS)
    grid.addWidget(last, 0, _FIRST_CELL + len(MAIN))
    grid.setColumnStretch(3, 1)
    return widget


def _before(line: EveningLine) -> str:
    words = (line.last_words, line.morning_words)
    return "; ".join(part for part in words if part)


def _now(row: TypedRow) -> Cell:
    """Return the cell whose frame is drawn while a part of it is open."""
    return row.cell if row.cell in MAIN else Cell.DONE


def _expected(entry: Entry) -> str:
    """Return the minutes that are saved with "as planned" unless others are typed."""
    row, plan = entry.shown, entry.tonight.plan
    planned = row.done is Done.AS_PLANNED and row.kind is None and plan.minutes is not None
    return str(plan.minutes) if planned else ""


def _status_role(entry: Entry, *, active: bool) -> Type:
    """Let what waits to be saved in another row be seen."""
    if entry.is_typed and not entry.saving and not active:
        return Type.COMPLAINT
    return Type.BODY if entry.is_entered else Type.SMALL


def _set_role(label: QLabel, role: Type) -> None:
    if label.property("type") != role.value:
        as_type(label, role)
