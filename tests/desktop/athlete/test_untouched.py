"""A form that nobody typed into is left by Esc without a question, whatever it starts from."""

from datetime import datetime, time

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.examination_form import ExaminationForm
from teamrehab.desktop.entry.dialog import FormDialog
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.leaving import Leaving
from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    Activity,
    AvailabilityStated,
    Limit,
    Match,
    Training,
)
from teamrehab.domain.examination import Examination
from teamrehab.domain.injuries import ReturnDecision
from teamrehab.protocols import body_areas
from tests.builders import athlete, case, day
from tests.desktop.athlete.conftest import IDS, TODAY

SOON = day(23)
FILLED = (
    AvailabilityStated(
        on=TODAY,
        training=Training.WITH_LIMITS,
        match=Match.UNDECIDED,
        limits=(Limit(Activity.PACE, 70), Limit(Activity.CONTACT)),
        until=SOON,
        next_update=datetime.combine(SOON, time(9)),
        **IDS,
    ),
    ReturnDecision(on=TODAY, not_before=SOON, expected=day(30), why="as agreed", **IDS),
    Absence(
        absence_id="b1", athlete_id="a1", on=day(21), reason=AbsenceReason.OTHER, until=SOON
    ),
)


@pytest.mark.parametrize("act", Act)
def test_escape_leaves_a_form_nobody_typed_into_and_asks_nothing(opened, qtbot, act):
    opened.show("a1")
    opened.note(*FILLED)
    if not opened.page.view.actions_bar.actions_by_act[act].isEnabled():
        pytest.skip("not asked of this case")
    dialog = opened.ask(act)
    qtbot.waitUntil(lambda: dialog.focusWidget() is not None)
    for key in (Qt.Key.Key_Tab, Qt.Key.Key_Tab, Qt.Key.Key_Escape):
        qtbot.keyClick(dialog.focusWidget(), key)
    assert not isinstance(QApplication.activeModalWidget(), Leaving)
    qtbot.waitUntil(lambda: opened.page.dialog is None)


def test_an_examination_opened_to_be_corrected_counts_as_typed_only_once_it_is_changed(qtbot):
    found = Examination(examination_id="e1", on=TODAY, text="as on the day before", **IDS)
    occasion = Occasion(athlete=athlete(), today=TODAY, new_id=str, case_id="c1")
    form = ExaminationForm(occasion, body_areas(), case(), correcting=found)
    dialog = FormDialog(form, about="", check=lambda _values: ())
    qtbot.addWidget(dialog)
    dialog.open()
    assert not form.touched
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()
    qtbot.keyClicks(form.text, "!")
    assert [str(one) for one in dialog.unsaved] == ["Correct an examination"]


def test_escape_asks_once_anything_was_changed(opened, qtbot):
    opened.show("a1")
    opened.note(*FILLED)
    dialog = opened.ask(Act.AVAILABILITY)
    qtbot.keyClick(dialog.form.day, Qt.Key.Key_Up)
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    box = QApplication.activeModalWidget()
    assert isinstance(box, Leaving)
    qtbot.mouseClick(box.leave, Qt.MouseButton.LeftButton)
