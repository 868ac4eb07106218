"""Beside an athlete's page names and likely returns are read; answers take short words."""

from PySide6.QtCore import Qt

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.squad.drawn_cells import CELL_MARGIN
from teamrehab.domain.availability import Match
from teamrehab.reports.findings import LikelyReturn
from tests.builders import day
from tests.desktop.squad.rows import MIXED, hurt, show
from tests.desktop.squad.test_squad_view import cell, view

__all__ = ["view"]


def test_as_narrow_as_it_gets_names_and_likely_returns_are_not_cut(view):
    show(view, MIXED)
    view.resize(view.minimumSizeHint().width(), 700)
    table = view.table
    assert table.shown_columns() == ("number", "name", "training", "match", "likely")
    letters = table.fontMetrics()
    for key in ("name", "likely"):
        told = cell(view, "Ekström", key)
        assert table.columnWidth(told.column()) >= letters.horizontalAdvance(told.data()) + 16


def test_a_day_the_staff_expect_is_never_cut_to_a_bare_day(view):
    opinion = LikelyReturn(earliest=None, median=None, latest=None, expected=day(20))
    show(view, [hurt(2, "Çelik", likely=opinion)])
    view.resize(view.minimumSizeHint().width(), 700)
    told = cell(view, "Çelik", "likely")
    assert told.data() == "Sun 25 Oct (staff)"
    assert "expected by the medical staff" in told.data(Qt.ItemDataRole.AccessibleTextRole)
    letters = view.table.fontMetrics()
    longest = letters.horizontalAdvance("Wed 30 Nov (staff)")
    assert view.table.columnWidth(told.column()) >= longest + 16


def test_a_short_answer_is_still_read_out_in_full(view):
    show(view, MIXED)
    view.resize(view.minimumSizeHint().width(), 700)
    index = cell(view, "Ekström", "match")
    drawn = view.table.itemDelegateForIndex(index).words(MIXED[3], index)
    assert drawn == "no"
    assert index.data() == "not available"
    view.resize(1600, 700)
    assert view.table.itemDelegateForIndex(index).words(MIXED[3], index) == "not available"


def test_beside_a_page_on_a_large_screen_the_problem_is_read(view):
    show(view, MIXED)
    view.resize(1130, 900)
    assert {"likely", "problem", "stage"} <= set(view.table.shown_columns())


def test_a_match_that_is_not_decided_yet_never_reads_like_one_that_is_open_to_the_athlete(view):
    show(view, [*MIXED, hurt(5, "Fofana", match=Match.UNDECIDED)])
    view.resize(view.minimumSizeHint().width(), 700)
    index = cell(view, "Fofana", "match")
    drawn = view.table.itemDelegateForIndex(index).words(view.table.shown.row_at(index), index)
    assert drawn == "undecided"
    letters = view.table.fontMetrics()
    beside = CELL_MARGIN + letters.ascent() + Space.NEAR + Space.TIGHT
    room = view.table.columnWidth(index.column()) - beside
    assert room >= letters.horizontalAdvance(drawn)
