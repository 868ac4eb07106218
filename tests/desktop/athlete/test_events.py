"""Decisions and events on the athlete page, and what was wrong about them, by real clicks."""

from typing import Any

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.availability import AvailabilityStated, Training
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    ProtocolChosen,
    RedFlag,
    ReturnDecision,
    Scope,
    StageMoved,
    Urgency,
)
from tests.builders import day
from tests.desktop.athlete.conftest import IDS, TODAY

FLAG = RedFlag(flag_id="f1", on=day(19), what="warm at rest", urgency=Urgency.SAME_DAY, **IDS)


def click(qtbot, button):
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def rows(view):
    return [(event.kind, event.words) for event in view.events.model.rows]


def choose(qtbot, view, kind):
    """Open the list and choose the newest row of a kind."""
    if not view.events.table.isVisible():
        click(qtbot, view.events.toggle)
    line = [event.kind for event in view.events.model.rows].index(kind)
    view.events.table.setCurrentIndex(view.events.model.index(line, 0))


def take_back(opened, qtbot, view, kind):
    choose(qtbot, view, kind)
    click(qtbot, view.events.withdraw)
    dialog = opened.dialog()
    assert "Sam Okafor" in dialog.save.text()
    qtbot.keyClicks(dialog.form.reason, "meant for somebody else")
    opened.save()


def test_the_list_waits_behind_a_button_that_says_how_long_it_is(opened, qtbot):
    view = opened.show("a1")
    assert not view.events.table.isVisible()
    assert "(5)" in view.events.toggle.text()
    click(qtbot, view.events.toggle)
    assert view.events.table.isVisible()


def test_decisions_stand_newest_first_with_who_and_when(opened):
    opened.note(
        FLAG, ReturnDecision(on=TODAY, ruled_out=("m1", "far off"), why="no risk", **IDS)
    )
    view = opened.show("a1")
    told = rows(view)
    days = [event.on for event in view.events.model.rows]
    assert days == sorted(days, reverse=True)
    decision = (
        "ruled out for Thu 29 Oct, Saltreach (home), ruled out for 1 other match, no risk"
    )
    assert told[:3] == [
        ("Decision", decision),
        ("Red flag raised", "warm at rest"),
        ("Stage", "Strength opened"),
    ]
    assert ("Diagnosis", "Calf strain, confirmed") in told
    assert ("Case opened", "lower leg, left") in told
    assert ("Availability", "training none, match not available") in told
    assert {event.by for event in view.events.model.rows} == {"Ines Duarte"}


@pytest.mark.parametrize(
    ("kind", "shape"),
    [
        ("Diagnosis", Diagnosis),
        ("Stage", StageMoved),
        ("Availability", AvailabilityStated),
        ("Protocol", ProtocolChosen),
        ("Case opened", Case),
    ],
)
def test_what_was_decided_in_error_goes_with_a_reason(opened, qtbot, kind, shape):
    view = opened.show("a1")
    take_back(opened, qtbot, view, kind)
    assert opened.noted(shape) == []


def test_a_clearance_for_the_wrong_athlete_is_taken_back_from_the_closed_case(opened, qtbot):
    view = opened.show("a1")
    form = opened.ask(Act.CLEAR).form
    form.scope.choose(Scope.MATCH)
    qtbot.keyClicks(form.reason, "agreed with the doctor")
    qtbot.keyClicks(form.signature, "Ines Duarte")
    opened.save()
    qtbot.waitUntil(lambda: bool(opened.page.portrait().earlier))
    assert view.healthy.isVisible()
    choose(qtbot, view, "Clearance")
    click(qtbot, view.events.withdraw)
    dialog = opened.dialog()
    for words in ("Clearance", "Availability", "Case closed"):
        assert any(words in label for label in headings(dialog))
    opened.press(dialog)
    assert dialog.isVisible()
    qtbot.keyClicks(dialog.form.reason, "meant for the other Okafor")
    opened.save()
    assert opened.noted(Clearance) == opened.noted(CaseClosed) == []
    assert view.case.isVisible()
    assert opened.page.portrait().row.training is Training.NONE


def headings(dialog):
    found = (dialog.form.rows.itemAt(line).widget() for line in range(dialog.form.rows.count()))
    return [part.text() for part in found if hasattr(part, "text")]


def test_a_red_flag_cannot_be_taken_back_and_holds_its_case(opened, qtbot):
    opened.note(FLAG)
    view = opened.show("a1")
    choose(qtbot, view, "Red flag raised")
    assert not view.events.withdraw.isEnabled()
    view.events.table.setFocus()
    qtbot.keyClick(view.events.table, Qt.Key.Key_Delete)
    assert opened.page.dialog is None
    choose(qtbot, view, "Case opened")
    qtbot.keyClick(view.events.table, Qt.Key.Key_Delete)
    dialog = opened.dialog()
    qtbot.keyClicks(dialog.form.reason, "wrong athlete")
    opened.press(dialog)
    qtbot.waitUntil(lambda: "named doctor" in dialog.trouble.text())
    dialog.form._touched = False
    dialog.reject()
    assert [flag.open_on(TODAY) for flag in opened.noted(RedFlag)] == [True]


def test_a_closed_red_flag_says_who_saw_the_athlete(opened, qtbot):
    opened.note(FLAG)
    view = opened.show("a1")
    click(qtbot, view.case.close_flag)
    qtbot.keyClicks(opened.dialog().form.doctor, "Dr Ada Brenner")
    opened.save()
    assert rows(view)[0] == ("Red flag closed", "seen by Dr Ada Brenner: warm at rest")
    assert ("Red flag raised", "warm at rest") in rows(view)


def test_the_case_closed_last_stands_beside_the_open_one_with_its_name(opened, qtbot):
    closed: dict[str, Any] = {"case_id": "c0", "athlete_id": "a1"}
    opened.note(Case(on=day(-300), area="thigh", **closed), CaseClosed(on=day(-278), **closed))
    view = opened.show("a1")
    qtbot.waitUntil(lambda: bool(opened.page.portrait().earlier))
    assert ("Case closed", "cleared") in rows(view)
    days = {event.kind: event.day for event in view.events.model.rows}
    assert days["Case closed"] == "Wed 31 Dec 2025"
    assert days["Stage"] == "Mon 12 Oct"
    assert not view.events.table.isColumnHidden(1)
    cases = {view.events.model.index(n, 1).data() for n in range(view.events.model.rowCount())}
    assert cases == {"", "thigh"}
