"""Time away for another than a medical reason, by real keys, over a real casebook."""

from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.availability import Absence, AbsenceReason, Match, Training
from tests.builders import day
from tests.desktop.athlete.conftest import TODAY


def test_an_athlete_away_with_the_national_team_neither_trains_nor_plays(opened, qtbot):
    view = opened.show("a2")
    dialog = opened.ask(Act.AWAY)
    qtbot.keyClicks(dialog.form.reason, "n")
    opened.save()
    (absence,) = opened.noted(Absence)
    assert (absence.reason, absence.on, absence.until) == (
        AbsenceReason.NATIONAL_TEAM,
        TODAY,
        None,
    )
    row = opened.page.portrait().row
    assert (row.training, row.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert "with the national team" in view.heading.limits.text()


def test_a_return_brought_forward_changes_what_was_noted(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.AWAY)
    qtbot.keyClicks(dialog.form.reason, "p")
    opened.save()
    dialog = opened.ask(Act.AWAY)
    assert dialog.form.reason.value() is AbsenceReason.PERSONAL
    qtbot.keyClick(dialog.form.last.box, Qt.Key.Key_Space)
    dialog.form.last.field.show_day(day(22))
    opened.save()
    (absence,) = opened.noted(Absence)
    assert absence.until == day(22)


def test_a_last_day_before_the_first_is_told_beside_its_field(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.AWAY)
    qtbot.keyClicks(dialog.form.reason, "o")
    qtbot.keyClick(dialog.form.last.box, Qt.Key.Key_Space)
    dialog.form.last.field.show_day(day(2))
    opened.press(dialog)
    assert dialog.form.fields["Until"].complaint
    assert opened.noted(Absence) == []
    dialog.form.last.field.show_day(day(25))
    opened.save()


def test_an_athlete_who_was_never_away_is_put_right_where_the_absence_is_shown(opened, qtbot):
    view = opened.show("a2")
    never = view.actions_bar.buttons[Act.NEVER_AWAY]
    assert not never.isVisible()
    dialog = opened.ask(Act.AWAY)
    qtbot.keyClicks(dialog.form.reason, "p")
    opened.save()
    assert never.isVisible()
    qtbot.mouseClick(never, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(opened.dialog().form.reason, "noted for the wrong athlete")
    opened.save()
    assert opened.noted(Absence) == []
    assert opened.page.portrait().row.training is Training.FULL
    assert not never.isVisible()
