"""What was in the way of somebody who saw the page for the first time."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QLabel

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.injuries import Case, Clearance, Nature, ReturnDecision, Scope, StageMoved
from teamrehab.domain.measures import FunctionCheck, HeelRaiseTest, Raises
from tests.builders import athlete, day
from tests.desktop.athlete.conftest import IDS
from tests.desktop.athlete.test_athlete_page import click, stands

_HEALTHY = HeelRaiseTest(
    test_id="b1", case_id="", athlete_id="a1", on=day(-90), left=Raises(31), right=Raises(33)
)


def cells(entries, column):
    keys = [c.key for c in entries.model.columns]
    rows = range(entries.model.rowCount())
    return [entries.model.index(n, keys.index(column)).data() for n in rows]


def correct(opened, qtbot, entries, count):
    click(qtbot, entries.correct)
    dialog = opened.dialog()
    left = dialog.form.parts[0].count.left
    left.selectAll()
    qtbot.keyClicks(left, count)
    opened.save()


def test_a_reason_alone_decides_nothing_and_asks_for_a_day_or_a_match(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.DECIDE)
    qtbot.keyClicks(dialog.form.why, "not before the scan")
    opened.press(dialog)
    assert "a day or a match is needed" in dialog.form.fields["Not before"].complaint
    assert opened.page.dialog is dialog
    qtbot.keyClick(dialog.form.ruled_out["m1"], Qt.Key.Key_Space)
    opened.save()
    assert stands(opened, ReturnDecision)[-1].why == "not before the scan"


@pytest.mark.parametrize("signed", ["  INES   duarte ", "Dr. Inés Duarte", "dr ines duarte"])
def test_a_signature_needs_neither_title_nor_accents_nor_capitals(opened, qtbot, signed):
    opened.show("a1")
    form = opened.ask(Act.CLEAR).form
    form.scope.choose(Scope.TEAM_TRAINING)
    qtbot.keyClicks(form.reason, "seen in training")
    form.signature.insert(signed)  # a key for an accent cannot be pressed in a test
    opened.save()
    assert stands(opened, Clearance)[-1].signed_by == "Ines Duarte"


@pytest.mark.parametrize("signed", ["Dr.", "Duarte", "Ines Duarte-Silva"])
def test_another_name_or_a_bare_title_signs_nothing(opened, qtbot, signed):
    opened.show("a1")
    dialog = opened.ask(Act.CLEAR)
    dialog.form.scope.choose(Scope.TEAM_TRAINING)
    qtbot.keyClicks(dialog.form.reason, "seen in training")
    qtbot.keyClicks(dialog.form.signature, signed)
    opened.press(dialog)
    assert "your own name" in dialog.form.fields["Sign with your name"].complaint
    dialog.done(0)


def test_an_empty_reason_is_asked_for_in_words_that_fit(opened):
    opened.show("a1")
    dialog = opened.ask(Act.FLAG)
    opened.press(dialog)
    assert "observed" not in dialog.form.fields["What was seen"].complaint
    assert "Type them" in dialog.form.fields["What was seen"].complaint


def test_a_correction_is_marked_in_a_column_of_its_own_and_stays_chosen(opened, qtbot):
    view = opened.show("a1")
    entries = view.entries
    line = next(n for n, told in enumerate(cells(entries, "result")) if "14 left" in told)
    entries.table.setCurrentIndex(entries.model.index(line, 0))
    correct(opened, qtbot, entries, "16")
    line = entries.table.currentIndex().row()
    assert "16 left" in cells(entries, "result")[line]
    assert cells(entries, "changed")[line] == "corrected"
    assert cells(entries, "by")[line] == "Ines Duarte"


def test_of_one_evening_the_entry_noted_last_stands_first(opened):
    view = opened.show("a1")
    for test_id, count in (("h8", 12), ("h9", 13)):
        test = HeelRaiseTest(test_id=test_id, on=day(20), left=Raises(count), **IDS)
        opened.note(test)
    assert [told[:7] for told in cells(view.entries, "result")[:2]] == ["13 left", "12 left"]


def test_an_illness_offers_what_an_illness_needs(opened):
    ill = Case(
        case_id="c9", athlete_id="a2", on=day(19), nature=Nature.ILLNESS, what="feverish"
    )
    opened.note(athlete(athlete_id="a2", surname="Silva", number=9), ill)
    view = opened.show("a2")
    bar = view.actions_bar
    shown = [act for act, button in bar.buttons.items() if button.isVisible()]
    left_to_right = sorted(shown, key=lambda act: bar.buttons[act].x())
    assert left_to_right[:3] == [Act.AVAILABILITY, Act.DECIDE, Act.CLOSE]
    assert not view.progress.isVisible()


def test_healthy_values_stay_readable_and_correctable_while_a_case_is_open(opened, qtbot):
    opened.note(_HEALTHY)
    view = opened.show("a1")
    qtbot.waitUntil(view.baseline.isVisible)
    assert "31 left" in cells(view.baseline, "result")[0]
    assert not any("31 left" in told for told in cells(view.entries, "result"))
    view.baseline.table.setCurrentIndex(view.baseline.model.index(0, 0))
    click(qtbot, view.baseline.correct)
    dialog = opened.dialog()
    left = dialog.form.parts[0].count.left
    left.selectAll()
    qtbot.keyClicks(left, "30")
    opened.save()
    healthy = [t for t in opened.noted(HeelRaiseTest) if t.test_id == "b1"]
    assert [(t.case_id, t.left) for t in healthy] == [("", Raises(30))]


def test_the_test_form_shows_first_what_the_next_stage_asks_for_in_its_words(opened, qtbot):
    opened.note(StageMoved(on=day(20), stage=3, proposed=3, **IDS))
    view = opened.show("a1")
    dialog = opened.ask(Act.TEST)
    form = dialog.form
    open_ones = {r.accessibleName() for r in view.progress.criteria.rows}
    assert any("No signs or symptoms" in told for told in open_ones)
    seen = form.fields["No signs or symptoms"].widget
    assert seen.isVisible()
    assert not form.fields["Walks without limp or symptom"].isVisible()
    run = form.fields["Fastest run, of own speed"].widget
    assert seen.mapTo(form, QPoint()).y() < run.mapTo(form, QPoint()).y()
    qtbot.keyClicks(seen, "y")
    qtbot.keyClicks(form.fields["Symptom in the check"].widget, "0")
    qtbot.keyClicks(form.painkiller, "n")
    opened.save()
    assert [check.no_signs for check in opened.noted(FunctionCheck)] == [True]


def test_a_bent_knee_is_asked_for_where_a_criterion_waits_for_it(opened):
    opened.show("a1")
    assert opened.ask(Act.TEST).form.fields["Knee"].isVisible()
    opened.page.dialog.done(0)


def test_left_and_right_stand_over_the_counts_wherever_these_stand(opened):
    opened.note(StageMoved(on=day(20), stage=4, proposed=4, **IDS))
    opened.show("a1")
    form = opened.ask(Act.TEST).form
    heading = next(w for w in form.findChildren(QLabel) if w.text() == "Left, injured")
    run = form.fields["Fastest run, of own speed"].widget
    count = form.fields["Heel raises"].widget
    at = [w.mapTo(form, QPoint()).y() for w in (run, heading, count)]
    assert at == sorted(at)
    assert run.hasFocus()
    opened.page.dialog.done(0)
