"""Every graph: what it shows, what it says, and that it stays out of the way."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QMenu, QScrollArea, QVBoxLayout, QWidget

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


def test_graphs_of_one_case_show_the_same_days_wherever_they_stand(qtbot):
    page = QScrollArea()
    qtbot.addWidget(page)
    inside = QWidget()
    column = QVBoxLayout(inside)
    panels = [Panel("Heel raises", "raises"), Panel("Hops", "hops")]
    for one in panels:
        one.show_lines([RIGHT], origin=ONSET, until=day(20))
        column.addWidget(one)
    page.setWidget(inside)
    page.resize(500, 600)
    page.show()
    qtbot.waitExposed(page)
    for one in panels:
        assert one._plot.viewRange()[0] == pytest.approx((-0.5, 21))


def test_the_wheel_over_a_graph_is_left_to_the_page(qtbot, panel):
    panel.show_lines([LEFT, RIGHT], origin=ONSET, until=day(20))
    before = panel._plot.viewRange()
    middle = QPointF(200, 100)
    turn = QWheelEvent(
        middle, middle, QPoint(), QPoint(0, -120), Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(panel._plot.viewport(), turn)
    assert panel._plot.viewRange() == before
    assert not turn.isAccepted()


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
