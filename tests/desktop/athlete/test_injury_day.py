"""Injury day by real keys: the entry beside the pitch, its red flags, the day expected."""

import re
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.availability import (
    Activity,
    AvailabilityStated,
    Limit,
    Match,
    Training,
)
from teamrehab.domain.injuries import Case, Nature, RedFlag, ReturnDecision, Side, Urgency
from tests.builders import day
from tests.desktop.athlete.conftest import TODAY

KEYS_FOR_AN_INJURY = 12
"""Ctrl+I, l, Tab, l, Tab, Tab, n, Tab, n, Tab, n, Ctrl+Enter; words may be added."""

KEYS_FOR_AN_ILLNESS = 6
"""Ctrl+Shift+I, Tab, n, Tab, n, Ctrl+Enter; a word for the staff may be added."""

KEYS_FOR_A_RED_FLAG = 4
"""Ctrl+R, Tab, e, Ctrl+Enter, and the words of what was seen."""

TAB, CTRL = Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier


class Keyboard:
    """Presses keys wherever the cursor is, and counts them."""

    def __init__(self, qtbot):
        self.qtbot, self.pressed = qtbot, 0

    def press(self, *keys, modifier=Qt.KeyboardModifier.NoModifier):
        for key in keys:
            self.qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
            self.qtbot.keyClick(QApplication.focusWidget(), key, modifier)
            self.pressed += 1


@pytest.fixture
def keys(qtbot):
    return Keyboard(qtbot)


def ask(opened, keys, act):
    """Open a form as its shortcut does: one key."""
    keys.pressed += 1
    return opened.ask(act)


def save(opened, keys):
    before = opened.boards
    keys.press(Qt.Key.Key_Return, modifier=CTRL)
    opened.qtbot.waitUntil(lambda: opened.boards > before)


def test_an_injury_is_noted_by_no_more_keys_than_agreed(opened, keys):
    opened.show("a2")
    form = ask(opened, keys, Act.INJURY).form
    keys.press("l", TAB, "l", TAB, TAB, "n", TAB, "n", TAB, "n")
    save(opened, keys)
    assert form.occasion.athlete.athlete_id == "a2"
    (new,) = [c for c in opened.noted(Case) if c.athlete_id == "a2"]
    assert (new.side, new.area, new.on) == (Side.LEFT, "lower leg", TODAY)
    (said,) = [s for s in opened.noted(AvailabilityStated) if s.case_id == new.case_id]
    assert (said.training, said.match) == (Training.NONE, Match.UNDECIDED)
    assert keys.pressed <= KEYS_FOR_AN_INJURY


@pytest.mark.parametrize(
    ("typed", "area"),
    [
        ("calf", "lower leg"),
        ("ham", "thigh"),
        ("h", "hip and groin"),
        ("hea", "head"),
    ],
)
def test_letters_choose_a_part_of_the_body_or_what_is_injured_there(opened, qtbot, typed, area):
    opened.show("a2")
    form = opened.ask(Act.INJURY).form
    qtbot.keyClicks(form.area, typed)
    assert form.area.value == area
    assert form.touched


def test_all_that_is_asked_of_an_injury_fits_a_small_screen_without_scrolling(opened):
    opened.show("a2")
    dialog = opened.ask(Act.INJURY)
    dialog.resize(dialog.width(), 660)
    below = dialog.form.details.mapTo(dialog, dialog.form.details.rect().bottomLeft()).y()
    assert below < dialog.save.y()
    assert not dialog._scroll.verticalScrollBar().isVisible()
    dialog.reject()


def test_an_illness_is_noted_by_no_more_keys_than_agreed(opened, keys):
    opened.show("a2")
    ask(opened, keys, Act.ILLNESS)
    keys.press(TAB, "n", TAB, "n")
    save(opened, keys)
    (ill,) = [c for c in opened.noted(Case) if c.athlete_id == "a2"]
    assert (ill.nature, ill.on) == (Nature.ILLNESS, TODAY)
    assert opened.page.portrait().row.training is Training.NONE
    assert keys.pressed <= KEYS_FOR_AN_ILLNESS


def test_a_red_flag_is_raised_by_no_more_keys_than_agreed(opened, keys, qtbot):
    opened.show("a1")
    dialog = ask(opened, keys, Act.FLAG)
    qtbot.keyClicks(dialog.form.what, "calf warm")
    keys.press(TAB, "e")
    save(opened, keys)
    (flag,) = opened.noted(RedFlag)
    assert (flag.what, flag.urgency) == ("calf warm", Urgency.EMERGENCY)
    assert keys.pressed <= KEYS_FOR_A_RED_FLAG


def test_the_keys_that_open_these_forms_are_on_the_page(opened):
    acts = opened.show("a1").actions_bar.actions_by_act
    keys = {act: acts[act].shortcut().toString() for act in (Act.INJURY, Act.ILLNESS, Act.FLAG)}
    assert keys == {Act.INJURY: "Ctrl+I", Act.ILLNESS: "Ctrl+Shift+I", Act.FLAG: "Ctrl+R"}


@pytest.mark.parametrize("act", [Act.INJURY, Act.ILLNESS, Act.EXAMINE, Act.FLAG, Act.DECIDE])
def test_every_underlined_letter_of_a_form_leads_to_one_place(opened, act):
    opened.show("a1")
    dialog = opened.ask(act)
    said = [w.text() for kind in (QLabel, QAbstractButton) for w in dialog.findChildren(kind)]
    letters = [part.lower() for words in said for part in re.findall(r"&(\w)", words)]
    assert letters
    assert sorted(set(letters)) == sorted(letters)
    dialog.reject()


def test_the_two_questions_start_open_and_nothing_is_saved_without_them(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.INJURY)
    form = dialog.form
    assert [form.flags.chest.value(), form.flags.pop.value()] == [None, None]
    qtbot.keyClicks(form.side, "l")
    qtbot.keyClicks(form.area, "lower")
    qtbot.keyClicks(form.training, "n")
    opened.press(dialog)
    assert "Chest pain" in dialog.trouble.text()
    assert all(case.athlete_id != "a2" for case in opened.noted(Case))
    form._touched = False
    dialog.reject()


@pytest.mark.parametrize(
    ("chest", "pop", "urgency", "said"),
    [
        ("n", "y", Urgency.SAME_DAY, "A doctor sees the athlete today"),
        ("y", "n", Urgency.EMERGENCY, "call emergency medical care now"),
        ("y", "y", Urgency.EMERGENCY, "call emergency medical care now"),
    ],
)
def test_a_yes_says_what_to_do_and_takes_away_training_whatever_was_typed(
    opened, qtbot, chest, pop, urgency, said
):
    opened.show("a2")
    form = opened.ask(Act.INJURY).form
    qtbot.keyClicks(form.side, "r")
    qtbot.keyClicks(form.area, "lower")
    assert not form.flags.urgent.isVisible()
    qtbot.keyClicks(form.flags.chest, chest)
    qtbot.keyClicks(form.flags.pop, pop)
    assert said in form.flags.urgent.text()
    assert form.flags.urgent.isVisible()
    qtbot.keyClicks(form.training, "f")
    opened.save()
    (flag,) = opened.noted(RedFlag)
    assert (flag.urgency, flag.closed) == (urgency, None)
    row = opened.page.portrait().row
    assert (row.training, row.match) == (Training.NONE, Match.NOT_AVAILABLE)


def test_an_illness_takes_limits_a_day_expected_and_a_review(opened, qtbot):
    view = opened.show("a2")
    form = opened.ask(Act.ILLNESS).form
    qtbot.keyClicks(form.what, "cold")
    qtbot.keyClicks(form.flags.chest, "n")
    qtbot.keyClicks(form.training, "w")
    qtbot.keyClicks(form.limits.fields[Activity.GYM].choice, "as")
    qtbot.keyClick(form.expected.box, Qt.Key.Key_Space)
    form.expected.field.show_day(day(24))
    opened.save()
    (ill,) = [c for c in opened.noted(Case) if c.nature is Nature.ILLNESS]
    (opinion,) = opened.noted(ReturnDecision)
    assert (opinion.case_id, opinion.expected, opinion.not_before) == (
        ill.case_id,
        day(24),
        None,
    )
    (said,) = [s for s in opened.noted(AvailabilityStated) if s.case_id == ill.case_id]
    assert said.training is Training.WITH_LIMITS
    assert said.limits == tuple(Limit(each) for each in Activity if each is not Activity.GYM)
    assert said.next_update == ill.reassess_on
    assert ill.reassess_on.date() == TODAY + timedelta(days=2)
    assert "expected by the medical staff" in view.likely.words()


def test_a_day_expected_in_the_past_is_told_beside_its_field(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.ILLNESS)
    form = dialog.form
    qtbot.keyClicks(form.flags.chest, "n")
    qtbot.keyClicks(form.training, "n")
    qtbot.keyClick(form.expected.box, Qt.Key.Key_Space)
    form.expected.field.show_day(day(2))
    opened.press(dialog)
    assert form.fields["Expected back"].complaint
    assert opened.noted(Case)[-1].athlete_id == "a1"
    form.expected.field.show_day(day(26))
    opened.save()


def test_the_day_expected_is_changed_and_taken_back_by_a_decision(opened, qtbot):
    view = opened.show("a1")
    form = opened.ask(Act.DECIDE).form
    qtbot.keyClick(form.expected.box, Qt.Key.Key_Space)
    form.expected.field.show_day(day(30))
    opened.save()
    assert opened.page.portrait().row.likely.expected == day(30)
    form = opened.ask(Act.DECIDE).form
    assert form.expected.field.day == day(30)
    qtbot.keyClick(form.expected.box, Qt.Key.Key_Space)
    opened.save()
    assert "expected by the medical staff" not in view.likely.words()


def test_the_form_of_a_red_flag_says_what_to_do_now_and_what_holds_meanwhile(opened, qtbot):
    opened.show("a1")
    form = opened.ask(Act.FLAG).form
    assert "until a named doctor closes it" in form.meanwhile.text()
    assert form.meanwhile.isVisible()
    qtbot.keyClicks(form.urgency, "e")
    assert "call emergency medical care now" in form.to_do.text()
    qtbot.keyClicks(form.urgency, "d")
    assert "A doctor sees the athlete today" in form.to_do.text()
    assert "emergency" not in form.to_do.text()
    qtbot.keyClicks(form.what, "calf warm and swollen")
    opened.save()
    (flag,) = opened.noted(RedFlag)
    assert flag.urgency is Urgency.SAME_DAY
