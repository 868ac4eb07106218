"""What somebody behind the desk cannot find out while the page is covered."""

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.squad.filters import Keep
from teamrehab.desktop.squad.view import SquadView
from tests.desktop.squad.rows import MIXED, show
from tests.desktop.squad.test_squad_view import names


@pytest.fixture
def view(qtbot):
    view = SquadView()
    qtbot.addWidget(view)
    view.resize(1366, 768)
    with qtbot.waitActive(view):
        view.show()
        view.activateWindow()
    show(view, MIXED)
    return view


def press_f8(qtbot, view):
    qtbot.keyClick(view, Qt.Key.Key_F8)


def test_a_problem_typed_before_is_not_left_on_screen_and_comes_back(view, qtbot):
    qtbot.keyClicks(view.search, "calf")
    press_f8(qtbot, view)
    assert view.search.text() == ""
    assert set(names(view)) == {"Abara", "Çelik", "Dumas", "Ekström"}
    press_f8(qtbot, view)
    assert view.search.text() == "calf"
    assert set(names(view)) == {"Çelik", "Dumas", "Ekström"}


def test_a_problem_cannot_be_searched_for_while_covered(view, qtbot):
    press_f8(qtbot, view)
    assert "problem" not in view.search.placeholderText()
    qtbot.keyClicks(view.search, "calf")
    assert names(view) == []
    view.search.clear()
    qtbot.keyClicks(view.search, "celik")
    assert names(view) == ["Çelik"]


def test_who_is_in_rehab_cannot_be_chosen_while_covered(view, qtbot):
    view.filters.choose(Keep.IN_REHAB)
    press_f8(qtbot, view)
    assert not view.filters.button(Keep.IN_REHAB).isVisible()
    assert len(names(view)) == len(MIXED)
    press_f8(qtbot, view)
    assert view.filters.button(Keep.IN_REHAB).isVisible()
    assert view.filters.keep is Keep.IN_REHAB
    assert len(names(view)) == len(MIXED) - 1
