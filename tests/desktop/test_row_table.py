"""Tables over frozen rows."""

from dataclasses import dataclass, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QModelIndex, QSortFilterProxyModel, Qt

from teamrehab.desktop.row_table import (
    ROW_ROLE,
    SORT_ROLE,
    Column,
    RowTableModel,
    SortedRows,
)
from teamrehab.domain.names import plain

UP, DOWN = Qt.SortOrder.AscendingOrder, Qt.SortOrder.DescendingOrder


@dataclass(frozen=True)
class Pupil:
    name: str
    raises: int | None = None


COLUMNS: tuple[Column[Pupil], ...] = (
    Column(key="name", title=lambda: "Name", text=lambda p: p.name, searched=True),
    Column(
        key="raises",
        title=lambda: "Raises",
        text=lambda p: "" if p.raises is None else str(p.raises),
        sort=lambda p: p.raises,
        number=True,
        help=lambda: "Single-leg heel raises",
    ),
)


def shown(*pupils):
    model = RowTableModel(COLUMNS, lambda p: p.name)
    model.show_rows(pupils)
    return model, SortedRows(model, model)


def names(rows: QSortFilterProxyModel):
    return [rows.index(n, 0).data() for n in range(rows.rowCount())]


def test_the_model_keeps_qts_rules(qtmodeltester):
    model, rows = shown(Pupil("Ana", 3), Pupil("Bo"))
    qtmodeltester.check(model, force_py=True)
    qtmodeltester.check(rows, force_py=True)


def test_a_cell_has_no_children():
    model, _rows = shown(Pupil("Ana", 3))
    cell = model.index(0, 0)
    assert (model.rowCount(cell), model.columnCount(cell)) == (0, 0)
    assert model.data(QModelIndex()) is None


def test_the_unknown_is_last_whichever_way_the_table_is_sorted():
    _model, rows = shown(Pupil("Ana"), Pupil("Bo", 9), Pupil("Cy", 25), Pupil("Di"))
    rows.sort(1, UP)
    assert names(rows) == ["Bo", "Cy", "Ana", "Di"]
    rows.sort(1, DOWN)
    assert names(rows) == ["Cy", "Bo", "Ana", "Di"]


@given(st.lists(st.none() | st.integers(0, 99), max_size=30), st.sampled_from([UP, DOWN]))
def test_sorting_agrees_with_plain_sorting_of_what_is_known(raises, order):
    _model, rows = shown(*(Pupil(f"p{n:02}", value) for n, value in enumerate(raises)))
    rows.sort(1, order)
    found = [rows.row_at(rows.index(n, 1)).raises for n in range(rows.rowCount())]
    known = sorted((r for r in raises if r is not None), reverse=order is DOWN)
    assert found == known + [None] * raises.count(None)


def test_names_sort_as_people_expect_not_by_code_point():
    _model, rows = shown(Pupil("Zoe"), Pupil("Émile"), Pupil("anna"), Pupil("Fay"))
    rows.sort(0, UP)
    assert names(rows) == ["anna", "Émile", "Fay", "Zoe"]


@pytest.mark.parametrize("typed", ["lukasz", "ŁUKASZ", "kow lu", "łukasz"])
def test_a_name_is_found_without_its_accents_and_in_any_order(typed):
    _model, rows = shown(Pupil("Łukasz Kowałek"), Pupil("Ana Lukić"))
    rows.search(typed)
    assert names(rows) == ["Łukasz Kowałek"]


def test_what_is_searched_and_what_is_kept_both_count():
    _model, rows = shown(Pupil("Ana", 3), Pupil("Anka"), Pupil("Bo", 5))
    rows.keep(lambda p: p.raises is not None)
    rows.search("an")
    assert names(rows) == ["Ana"]
    rows.keep(None)
    assert names(rows) == ["Ana", "Anka"]


def test_searching_looks_only_where_a_column_allows_it():
    _model, rows = shown(Pupil("Ana", 3))
    rows.search("3")
    assert names(rows) == []


def test_a_cell_says_its_column_and_value_aloud():
    model, _rows = shown(Pupil("Ana", 3), Pupil("Bo"))
    role = Qt.ItemDataRole.AccessibleTextRole
    assert model.index(0, 1).data(role) == "Raises: 3"
    assert model.index(1, 1).data(role) == "Raises: unknown"


def test_roles_hand_out_the_row_itself_and_its_sort_key():
    ana = Pupil("Ana", 3)
    model, _rows = shown(ana)
    assert model.index(0, 1).data(ROW_ROLE) is ana
    assert model.index(0, 1).data(SORT_ROLE) == 3
    assert model.headerData(1, Qt.Orientation.Horizontal) == "Raises"
    assert model.headerData(7, Qt.Orientation.Horizontal) is None


def test_new_values_for_the_same_rows_repaint_only_what_changed(qtbot):
    ana, bo = Pupil("Ana", 3), Pupil("Bo", 4)
    model, _rows = shown(ana, bo)
    resets, changed = [], []
    model.modelReset.connect(lambda: resets.append(1))
    model.dataChanged.connect(lambda first, _last, _roles: changed.append(first.row()))
    model.show_rows([ana, replace(bo, raises=9)])
    assert (resets, changed) == ([], [1])
    model.show_rows([bo])
    assert resets == [1]


def test_rows_keep_their_place_while_values_of_another_column_arrive():
    model, rows = shown(Pupil("Cy"), Pupil("Ana"), Pupil("Bo"))
    rows.sort(0, UP)
    model.show_rows([Pupil("Cy", 1), Pupil("Ana", 9), Pupil("Bo", 5)])
    assert names(rows) == ["Ana", "Bo", "Cy"]


def test_a_row_is_found_again_by_its_key():
    model, rows = shown(Pupil("Ana", 3), Pupil("Bo", 4))
    rows.sort(1, DOWN)
    assert rows.row_at(rows.index_of("Ana")).name == "Ana"
    assert not rows.index_of("Nobody").isValid()
    rows.search("bo")
    assert not rows.index_of("Ana").isValid()
    assert model.index_of("Ana").row() == 0


@given(st.text(max_size=20))
def test_plain_words_stay_the_same_when_made_plain_again(words):
    assert plain(plain(words)) == plain(words)
