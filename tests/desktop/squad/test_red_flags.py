"""An open red flag is seen in the list, in words and before everything else."""

from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.squad.view import SquadView
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.reports.outlook import outlook
from tests.builders import ONSET, athlete, case, history
from tests.desktop.squad.rows import MIXED, squad_of
from tests.desktop.squad.test_squad_view import cell, names


@pytest.fixture
def view(qtbot):
    view = SquadView()
    qtbot.addWidget(view)
    view.resize(1366, 768)
    with qtbot.waitActive(view):
        view.show()
        view.activateWindow()
    return view


def flag_of(view, **changes):
    """Show the squad with a red flag of Dumas, who trains with limits."""
    ids: dict[str, Any] = {"case_id": "c3", "athlete_id": "a3"}
    flag = RedFlag(
        flag_id="r1", on=ONSET, what="calf warm", urgency=Urgency.SAME_DAY, **ids, **changes
    )
    flagged = history(flag, of=case(**ids), by=athlete(athlete_id="a3"))
    squad = replace(squad_of(MIXED), open_cases=(flagged,))
    view.show_squad(squad, MIXED, outlook(squad, MIXED))


def test_a_red_flag_is_a_word_and_its_row_the_first(view):
    flag_of(view)
    assert names(view)[0] == "Dumas"
    assert cell(view, "Dumas", "problem").data() == "red flag: Calf strain, left"


def test_a_red_flag_closed_by_a_doctor_leaves_the_list_at_once(view):
    flag_of(view)
    flag_of(view, closed_on=ONSET, closed_by="Dr. Ada Menon")
    assert names(view)[0] != "Dumas"
    assert "red flag" not in cell(view, "Dumas", "problem").data()


def test_a_red_flag_is_seen_however_little_room_there_is_but_not_while_covered(view, qtbot):
    flag_of(view)
    view.resize(view.minimumSizeHint().width(), 700)
    assert "problem" in view.table.shown_columns()
    qtbot.keyClick(view, Qt.Key.Key_F8)
    assert "problem" not in view.table.shown_columns()


def test_red_flags_can_be_searched_for(view, qtbot):
    flag_of(view)
    qtbot.keyClicks(view.search, "red flag")
    assert names(view) == ["Dumas"]
