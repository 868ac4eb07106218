"""Every graph: what it shows, what it says, and that it stays out of the way."""

import pytest
from PySide6.QtWidgets import QMenu

from teamrehab.desktop.appearance import Scheme
from teamrehab.desktop.panel import Line, Panel
from tests.builders import ONSET, day

LEFT = Line(name="left, injured", points=((day(5), 6.0), (day(12), 14.0)), colour=1, error=6.0)
RIGHT = Line(name="right", points=((day(12), 28.0),), hollow=True)


@pytest.fixture
def panel(qtbot):
    panel = Panel("Heel raises", "raises")
    qtbot.addWidget(panel)
    panel.resize(500, 240)
    panel.show()
    return panel


def test_a_graph_says_its_numbers_and_what_is_needed(panel):
    panel.show_lines([LEFT, RIGHT], origin=ONSET, until=day(20), needed=25)
    assert panel.as_text() == (
        "Heel raises. left, injured: day 5: 6, day 12: 14. right: day 12: 28. "
        "Needed: 25 raises."
    )
    assert panel.numbers() == ((day(5), (6.0, None)), (day(12), (14.0, 28.0)))


def test_an_empty_graph_says_so(panel):
    assert panel.as_text() == "Heel raises: nothing measured yet."


def test_two_graphs_move_through_their_days_together(qtbot, panel):
    other = Panel("Hops", "hops")
    qtbot.addWidget(other)
    other.resize(500, 240)
    other.show()
    for each in (panel, other):
        each.show_lines([RIGHT], origin=ONSET, until=day(20))
    other.share_days_with(panel)
    panel._plot.setXRange(3, 9, padding=0)
    (low, high), _values = other._plot.viewRange()
    assert (low, high) == pytest.approx((3, 9), abs=1)


def test_the_library_shows_no_menu_of_its_own(panel):
    panel.show_lines([LEFT, RIGHT], origin=ONSET, until=day(20))
    assert [menu for menu in panel.findChildren(QMenu) if menu.isVisible()] == []


def test_a_graph_follows_light_and_dark(panel, appearance):
    panel.show_lines([LEFT, RIGHT], origin=ONSET, until=day(20))
    light = panel.grab().toImage().pixelColor(480, 150)
    appearance.choose(Scheme.DARK)
    assert panel.grab().toImage().pixelColor(480, 150).lightness() < light.lightness()


def test_a_line_of_very_many_points_is_drawn_without_marks(panel):
    many = tuple((day(number), float(number % 7)) for number in range(1_001))
    panel.show_lines([Line(name="many", points=many), LEFT], origin=ONSET, until=day(1_001))
    marks = [len(curve.scatter.data) for curve in panel._plot.getPlotItem().listDataItems()]
    assert marks == [0, len(LEFT.points)]
    assert len(panel.numbers()) == 1_001
