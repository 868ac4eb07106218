"""The squad page, by real keys and clicks."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QModelIndex, QPoint, Qt
from PySide6.QtWidgets import QPushButton

from teamrehab.desktop.squad.filters import Keep
from teamrehab.desktop.squad.view import SquadView
from tests.builders import day
from tests.desktop.squad.rows import MIXED, hurt, likely, row, show


@pytest.fixture
def view(qtbot):
    view = SquadView()
    qtbot.addWidget(view)
    view.resize(1366, 768)
    view.show()
    qtbot.waitExposed(view)
    view.activateWindow()
    return view


def names(view):
    shown = view.table.shown
    return [shown.row_at(shown.index(n, 0)).surname for n in range(shown.rowCount())]


def click_heading(qtbot, view, key):
    header = view.table.horizontalHeader()
    number = [c.key for c in view.table.rows.columns].index(key)
    x = header.sectionViewportPosition(number) + 12
    qtbot.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(x, 10))


def cell(view, name, key):
    number = [c.key for c in view.table.rows.columns].index(key)
    line = names(view).index(name)
    return view.table.shown.index(line, number)


def test_the_table_keeps_qts_rules_for_models(view, qtmodeltester):
    show(view, MIXED)
    qtmodeltester.check(view.table.rows)
    qtmodeltester.check(view.table.shown)
    assert view.table.rows.rowCount(view.table.rows.index(0, 0)) == 0
    assert view.table.rows.rowCount(QModelIndex()) == len(MIXED)


def test_who_may_do_least_stands_first_until_another_order_is_chosen(view, qtbot):
    show(view, MIXED)
    assert names(view)[-2:] == ["Dumas", "Abara"]
    click_heading(qtbot, view, "training")
    assert names(view)[:2] == ["Abara", "Dumas"]


def test_an_unknown_return_stands_last_both_ways(view, qtbot):
    show(view, MIXED)
    click_heading(qtbot, view, "likely")
    one_way = names(view)
    click_heading(qtbot, view, "likely")
    assert {tuple(one_way[:2]), tuple(names(view)[:2])} == {
        ("Dumas", "Çelik"),
        ("Çelik", "Dumas"),
    }
    assert set(one_way[2:]) == set(names(view)[2:]) == {"Abara", "Ekström"}


def test_estimates_that_arrive_fill_cells_and_move_no_row(view, qtbot):
    without = [replace(r, likely=None) for r in MIXED]
    show(view, without)
    click_heading(qtbot, view, "likely")
    view.table.choose("a3")
    before = names(view)
    assert cell(view, "Çelik", "likely").data() == ""
    show(view, MIXED)
    assert names(view) == before
    assert view.table.chosen() == "a3"
    assert cell(view, "Çelik", "likely").data() == "15–28 Oct"


def test_the_bar_says_its_range_and_chances_to_a_screen_reader(view):
    show(view, MIXED)
    said = cell(view, "Çelik", "bar").data(Qt.ItemDataRole.AccessibleTextRole)
    assert "15–28 Oct (8 in 10)" in said
    assert "doubtful, 4 in 10" in said


@pytest.mark.parametrize(
    ("keep", "kept"),
    [
        (Keep.ALL, {"Abara", "Çelik", "Dumas", "Ekström"}),
        (Keep.IN_REHAB, {"Çelik", "Dumas", "Ekström"}),
        (Keep.WITH_LIMITS, {"Dumas"}),
        (Keep.OUT, {"Çelik", "Ekström"}),
        (Keep.AVAILABLE, {"Abara"}),
    ],
)
def test_a_filter_keeps_its_rows_and_says_how_many(view, qtbot, keep, kept):
    show(view, MIXED)
    button = view.filters.button(keep)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert set(names(view)) == kept
    assert button.text().endswith(str(len(kept)))


def test_typing_a_name_without_its_accent_finds_it_and_enter_opens_it(view, qtbot):
    show(view, MIXED)
    qtbot.keyClick(view, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert view.search.hasFocus()
    qtbot.keyClicks(view.search, "celik")
    assert names(view) == ["Çelik"]
    with qtbot.waitSignal(view.opened) as opened:
        qtbot.keyClick(view.search, Qt.Key.Key_Return)
    assert opened.args == ["a2"]


def test_a_search_that_finds_nobody_says_what_to_do(view, qtbot):
    show(view, MIXED)
    qtbot.keyClicks(view.search, "zzz")
    assert view.nobody.isVisible()
    assert "Clear the search" in view.nobody.text()


def test_enter_and_a_click_open_the_athlete_of_the_row(view, qtbot):
    show(view, MIXED)
    view.table.choose("a3")
    with qtbot.waitSignal(view.opened) as opened:
        qtbot.keyClick(view.table, Qt.Key.Key_Return)
    assert opened.args == ["a3"]
    box = view.table.visualRect(cell(view, "Ekström", "name"))
    with qtbot.waitSignal(view.opened) as opened:
        qtbot.mouseClick(view.table.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
    assert opened.args == ["a4"]


def test_f8_covers_every_clinical_column_and_uncovers_them_again(view, qtbot):
    show(view, MIXED)
    clinical = {"problem", "stage", "missing", "likely", "bar", "days"}
    assert clinical & set(view.table.shown_columns())
    with qtbot.waitSignal(view.covered) as covered:
        qtbot.keyClick(view, Qt.Key.Key_F8)
    assert covered.args == [True]
    assert not clinical & set(view.table.shown_columns())
    assert "F8" in view.cover.text()
    qtbot.keyClick(view, Qt.Key.Key_F8)
    assert clinical & set(view.table.shown_columns())


def test_covering_holds_when_the_window_is_made_wider(view, qtbot):
    show(view, MIXED)
    qtbot.keyClick(view, Qt.Key.Key_F8)
    view.resize(2560, 900)
    assert "problem" not in view.table.shown_columns()


@pytest.mark.parametrize("width", [480, 620, 1366, 2560])
def test_however_narrow_name_and_both_answers_stay(view, width):
    show(view, MIXED)
    view.resize(width, 700)
    assert {"name", "training", "match"} <= set(view.table.shown_columns())


def test_a_wide_window_shows_every_column(view):
    show(view, MIXED)
    view.resize(2560, 900)
    assert len(view.table.shown_columns()) == len(view.table.rows.columns)


def test_an_empty_squad_offers_to_bring_athletes(view, qtbot):
    show(view, ())
    assert not view.search.isVisible()
    page = view.pages.currentWidget()
    roster, single = page.findChildren(QPushButton)
    with qtbot.waitSignal(view.roster_asked):
        qtbot.mouseClick(roster, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(view.athlete_asked):
        qtbot.mouseClick(single, Qt.MouseButton.LeftButton)


@pytest.mark.parametrize("count", [12, 120])
def test_squads_of_any_size_show_every_athlete(view, count):
    show(view, [row(n) if n % 3 else hurt(n) for n in range(1, count + 1)])
    assert view.table.shown.rowCount() == count


def test_a_row_gone_from_the_squad_leaves_the_table(view):
    show(view, MIXED)
    show(view, MIXED[:2])
    assert set(names(view)) == {"Abara", "Çelik"}


def test_the_head_counts_today_and_the_next_match(view):
    show(view, MIXED)
    told = " ".join(label.text() for label in view.outlook.words())
    assert "1 trains fully" in told
    assert "1 with limits" in told
    assert "2 do not train" in told
    assert "Saltreach" in told


def test_a_range_without_an_end_says_or_later(view):
    open_ended = replace(likely(10, 14, 23), latest=None)
    show(view, [hurt(2, "Çelik", likely=open_ended)])
    assert cell(view, "Çelik", "likely").data() == "Thu 15 Oct or later"
    assert day(10).day == 15
