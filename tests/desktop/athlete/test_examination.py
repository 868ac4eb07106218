"""The examination two days after an injury, by real keys: findings, first values, the past."""

from dataclasses import fields
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.earlier_part import month_of
from teamrehab.domain.examination import (
    Activity,
    Character,
    EarlierInjury,
    Examination,
    Gait,
    OnsetKind,
    Resisted,
)
from teamrehab.domain.injuries import Case, Side
from teamrehab.domain.measures import (
    HeelRaiseTest,
    Hops,
    HopTest,
    KneeToWallTest,
    MorningResponse,
    Raises,
    SafetyCheck,
    Symptom,
)
from tests.builders import day
from tests.desktop.athlete.conftest import IDS, TODAY

FIELDS = 30
"""As many stops as there may be on the way through the form by Tab."""


@pytest.fixture
def hurt(opened):
    """A healthy athlete's new case of the left lower leg, two days old."""
    opened.note(
        Case(case_id="c2", athlete_id="a2", on=day(18), side=Side.LEFT, area="lower leg")
    )
    opened.show("a2")
    return opened


def answer_all(qtbot, form):
    """Type every finding of the form."""
    qtbot.keyClicks(form.onset, "g")
    qtbot.keyClicks(form.activity, "long")
    qtbot.keyClicks(form.character, "diff")
    qtbot.keyClicks(form.site, "deep, medial")
    qtbot.keyClicks(form.resisted_straight, "s")
    qtbot.keyClicks(form.resisted_bent, "w")
    qtbot.keyClicks(form.stretch_straight, "n")
    qtbot.keyClicks(form.stretch_bent, "y")
    qtbot.keyClicks(form.tender_where, "medial, lower third")
    qtbot.keyClicks(form.tender, "6.5")
    qtbot.keyClicks(form.walking, "l")
    qtbot.keyClicks(form.stairs, "n")
    qtbot.keyClicks(form.more_load, "y")
    qtbot.keyClicks(form.little_rest, "n")
    qtbot.keyClicks(form.text, "slept badly")


def test_every_question_starts_unanswered_and_opening_notes_nothing(hurt):
    dialog = hurt.ask(Act.EXAMINE)
    form = dialog.form
    found = form.examination()
    ids = {"examination_id", "case_id", "athlete_id", "on"}
    named = {f.name: getattr(found, f.name) for f in fields(found) if f.name not in ids}
    assert set(named.values()) == {None, ""}
    assert form.values() == ()
    hurt.press(dialog)
    assert "nothing to save" in dialog.trouble.text()
    dialog.reject()
    assert hurt.page.dialog is None


def test_the_findings_typed_are_the_findings_kept_and_the_diagnosis_is_offered(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    answer_all(qtbot, dialog.form)
    hurt.save()
    (found,) = hurt.noted(Examination)
    assert (found.on, found.onset, found.activity) == (
        TODAY,
        OnsetKind.GRADUAL,
        Activity.LONG_RUN,
    )
    assert (found.character, found.site) == (Character.DIFFUSE, "deep, medial")
    assert (found.resisted_straight, found.resisted_bent) == (Resisted.STRONG, Resisted.WEAK)
    assert (found.stretch_straight, found.stretch_bent) == (False, True)
    assert (found.tender_where, found.tender_mm) == ("medial, lower third", 65)
    assert (found.walking, found.stairs) == (Gait.LIMPS, Gait.UNABLE)
    asked = (found.more_load, found.little_rest, found.new_surface_or_shoe)
    assert asked == (True, False, None)
    qtbot.waitUntil(hurt.page.offer.isVisible)
    qtbot.keyClick(hurt.page.offer, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: hurt.page.dialog is not None)
    diagnosis = hurt.dialog()
    assert diagnosis.form.title == "Diagnosis and protocol"
    assert diagnosis.form.muscle.value in ("", None)
    diagnosis.reject()


def test_the_panel_weighs_the_findings_and_leaves_the_muscle_open(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    form, panel = dialog.form, hurt.page._asking._asked.beside
    assert not panel.pointing.isVisible()
    assert "bone stress" in panel.cautions.text()
    qtbot.keyClicks(form.onset, "g")
    qtbot.keyClicks(form.activity, "long")
    qtbot.keyClicks(form.character, "sharp")
    said = panel.pointing.text().splitlines()
    assert said == [
        "Points to Soleus: gradual onset, in long running (2 of 3 findings).",
        "Points to Gastrocnemius: sharp and local (1 of 3 findings).",
    ]
    assert "the decision is yours" in panel.nothing.text()
    qtbot.keyClicks(form.onset, "s")
    assert "Points to Gastrocnemius: sudden onset" in panel.pointing.text()
    form._touched = False
    dialog.reject()


def test_first_values_of_the_other_leg_are_tests_of_that_leg_alone(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    form = dialog.form
    qtbot.keyClicks(form.onset, "s")
    qtbot.keyClicks(form.measured.wall.left, "7.5")
    qtbot.keyClicks(form.measured.wall.right, "11")
    qtbot.keyClicks(form.measured.raises, "31")
    qtbot.keyClicks(form.measured.height, "92")
    qtbot.keyClicks(form.measured.hops, "25")
    hurt.press(dialog)
    assert "Full range" in dialog.trouble.text()
    assert "Painkiller" in dialog.trouble.text()
    qtbot.keyClicks(form.measured.range, "k")
    qtbot.keyClicks(form.measured.painkiller, "n")
    hurt.save()
    ours = [test for test in hurt.noted(HeelRaiseTest) if test.case_id == "c2"]
    assert [(t.left, t.right, t.full_range, t.painkiller) for t in ours] == [
        (None, Raises(31, 92), True, False)
    ]
    hops = [test for test in hurt.noted(HopTest) if test.case_id == "c2"]
    assert [(t.left, t.right, t.symptom) for t in hops] == [(None, Hops(25), None)]
    assert set(hurt.page.view.graphs.panels) >= {"raises", "hops", "knee_to_wall"}
    (wall,) = hurt.noted(KneeToWallTest)
    assert (wall.left_mm, wall.right_mm) == (75, 110)
    assert len(hurt.noted(Examination)) == 1


def test_an_earlier_injury_of_the_other_leg_warns_while_it_is_typed(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    form, block = dialog.form, dialog.form.past.blocks[0]
    assert not form.measured.warning.isVisible()
    assert not block.isVisible()
    qtbot.mouseClick(form.past.another, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is block.what)
    qtbot.keyClicks(block.what, "calf strain at another club")
    qtbot.keyClicks(block.month, f"{TODAY.month}/{TODAY.year}")
    qtbot.keyClicks(block.side, "r")
    qtbot.keyClicks(block.area, "lower")
    qtbot.keyClicks(block.days, "24")
    assert "the right leg was hurt itself" in form.measured.warning.text()
    assert form.measured.warning.isVisible()
    qtbot.keyClicks(form.onset, "s")
    hurt.save()
    (earlier,) = hurt.noted(EarlierInjury)
    assert (earlier.on, earlier.side, earlier.area, earlier.days_out) == (
        TODAY.replace(day=1),
        Side.RIGHT,
        "lower leg",
        24,
    )
    qtbot.waitUntil(hurt.page.offer.isVisible)
    hurt.page.offer.later.click()
    baseline = hurt.page.view.baseline
    qtbot.waitUntil(lambda: baseline.model.rowCount() == 1)
    assert baseline.model.index(0, 1).data() == "Earlier injury"
    baseline.table.setCurrentIndex(baseline.model.index(0, 0))
    assert not baseline.correct.isEnabled()
    qtbot.mouseClick(baseline.withdraw, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(hurt.dialog().form.reason, "another athlete's")
    hurt.save()
    assert hurt.noted(EarlierInjury) == []


def test_an_earlier_injury_without_a_month_is_named_and_nothing_is_saved(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    form, block = dialog.form, dialog.form.past.blocks[0]
    qtbot.mouseClick(form.past.another, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(form.onset, "s")
    qtbot.keyClicks(block.what, "hamstring")
    qtbot.keyClicks(block.month, "2024")
    hurt.press(dialog)
    assert "month and year are needed" in dialog.trouble.text()
    assert "a side is needed" in dialog.trouble.text()
    assert hurt.noted(Examination) == []
    qtbot.keyClicks(block.side, "l")
    qtbot.keyClicks(block.area, "thigh")
    block.month.clear()
    qtbot.keyClicks(block.month, "3/2024")
    hurt.save()
    assert [one.on for one in hurt.noted(EarlierInjury)] == [date(2024, 3, 1)]


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("3/2024", date(2024, 3, 1)),
        ("03.2024", date(2024, 3, 1)),
        ("12 2023", date(2023, 12, 1)),
        ("13/2024", None),
        ("0/2024", None),
        ("2024", None),
        ("March", None),
    ],
)
def test_a_month_is_read_as_it_is_typed_or_not_at_all(typed, read):
    assert month_of(typed) == read


def test_the_button_stands_there_until_the_case_has_an_examination(hurt, qtbot):
    bar = hurt.page.view.actions_bar
    button = bar.buttons[Act.EXAMINE]
    assert button.isVisible()
    assert button.text() == "Examination... (Ctrl+G)"
    wide = bar.minimumSizeHint().width()
    hurt.note(
        Examination(
            examination_id="e", case_id="c2", athlete_id="a2", on=TODAY, walking=Gait.LIMPS
        )
    )
    qtbot.waitUntil(lambda: not button.isVisible())
    assert wide <= bar.minimumSizeHint().width(), "the buttons need no more room than later"
    assert Act.EXAMINE in [action.data() for action in bar.more.menu().actions()]


def test_an_examination_is_listed_corrected_and_keeps_what_was_not_touched(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    answer_all(qtbot, dialog.form)
    hurt.save()
    qtbot.waitUntil(hurt.page.offer.isVisible)
    hurt.page.offer.later.click()
    (before,) = hurt.noted(Examination)
    entries = hurt.page.view.entries
    assert entries.model.index(0, 1).data() == "Examination"
    told = entries.model.index(0, 2).data()
    assert told.startswith("gradual onset, in long running, diffuse tightness, deep, medial")
    assert "tender: medial, lower third, 6.5 cm" in told
    entries.table.setCurrentIndex(entries.model.index(0, 0))
    qtbot.mouseClick(entries.correct, Qt.MouseButton.LeftButton)
    form = hurt.dialog().form
    assert form.values() == (before,)
    qtbot.keyClicks(form.walking, "c")
    hurt.save()
    (after,) = hurt.noted(Examination)
    assert (after.walking, after.stairs, after.examination_id) == (
        Gait.CLEAN,
        Gait.UNABLE,
        before.examination_id,
    )


def test_the_form_fits_a_low_screen_with_its_buttons_and_reads_down_each_column(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    assert dialog.width() <= 1366
    assert dialog.height() <= 768 - 68
    assert dialog.save.isVisible()
    form = dialog.form
    order = [form.onset, form.activity, form.character, form.site, form.more_load]
    order += [form.past.another, form.text, form.resisted_straight, form.tender]
    order += [form.walking, form.measured.wall, form.measured.raises, form.measured.painkiller]
    chain, widget = [], form.onset.focusProxy()
    for _step in range(200):
        chain.append(widget)
        widget = widget.nextInFocusChain()
    places = [min(n for n, w in enumerate(chain) if w is o or o.isAncestorOf(w)) for o in order]
    assert places == sorted(places)
    dialog.reject()


def test_mornings_and_answers_are_listed_in_words_and_can_only_be_taken_back(opened, qtbot):
    view = opened.show("a1")
    opened.note(
        MorningResponse(response_id="m", on=TODAY, symptom=Symptom(2), **IDS),
        SafetyCheck(
            check_id="k",
            on=TODAY,
            same_spot=True,
            swollen_or_warm=False,
            can_push_off=True,
            chest_or_breath=False,
            **IDS,
        ),
    )
    model = view.entries.model
    listed = {model.index(n, 1).data(): model.index(n, 2).data() for n in range(2)}
    assert listed == {
        "Next morning": "symptom 2",
        "Four questions": "same spot, not swollen or warm, can push off, "
        "nothing in chest or breath",
    }
    view.entries.table.setCurrentIndex(model.index(0, 0))
    assert not view.entries.correct.isEnabled()
    view.entries.table.setFocus()
    qtbot.keyClick(view.entries.table, Qt.Key.Key_Return)
    assert opened.page.dialog is None
    assert [b for b in view.entries.findChildren(QPushButton) if b is view.entries.withdraw]


def test_by_tab_alone_the_last_question_is_reached_and_scrolled_into_sight(hurt, qtbot):
    dialog = hurt.ask(Act.EXAMINE)
    wanted = dialog.form.measured.painkiller
    focused, pressed = dialog.focusWidget(), 0
    while not wanted.isAncestorOf(focused) and pressed < FIELDS:
        qtbot.keyClick(focused, Qt.Key.Key_Tab)
        focused, pressed = dialog.focusWidget(), pressed + 1
    assert wanted.isAncestorOf(focused)
    assert not focused.visibleRegion().isEmpty()
    assert dialog.form.values() == ()
    dialog.reject()
    assert hurt.page.dialog is None
