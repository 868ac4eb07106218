"""Tonight's test typed by keyboard, and what the form answers while one types."""

from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from teamrehab.desktop.entry.dialog import FormDialog
from teamrehab.desktop.entry.live_answer import LiveAnswer, symmetry_sentences
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.pair import Pair
from teamrehab.desktop.entry.session_form import SessionForm
from teamrehab.desktop.entry.tonight import TonightForm
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Feeling,
    FunctionCheck,
    HeelRaiseTest,
    Hops,
    HopTest,
    Raises,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.plausibility import check
from tests.builders import athlete, day, history

OCCASION = Occasion(
    athlete=athlete(),
    today=day(20),
    new_id=iter(f"t{n}" for n in range(10_000)).__next__,
    case_id="c1",
    injured=Side.LEFT,
    signer="Ines Duarte",
)
CASE = history()


def judged(values):
    return tuple(one for value in values for one in check(value, day(20), CASE))


@pytest.fixture
def opened(qtbot):
    """Opens a form in its window, over a page as in the program."""
    page = QWidget()
    qtbot.addWidget(page)
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()

    def open_form(form, beside=None):
        dialog = FormDialog(form, about="Sam Okafor", check=judged, beside=beside, parent=page)
        dialog.open()
        dialog.activateWindow()
        qtbot.waitUntil(dialog.isActiveWindow)
        return dialog

    return open_form


@pytest.fixture
def tonight(opened):
    return opened(TonightForm(OCCASION))


def answer(qtbot, choice, letter):
    qtbot.keyClicks(choice, letter)


def type_raises(qtbot, form, left, right):
    raises = form.parts[0]
    qtbot.keyClicks(raises.count.left, left)
    qtbot.keyClicks(raises.count.right, right)
    return raises


def typed_fields(form):
    return [field for field in form.findChildren(QLineEdit) if field.parent() is not form.day]


def ctrl_enter(qtbot, dialog):
    qtbot.keyClick(dialog, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)


def test_an_evening_typed_by_keys_becomes_two_tests(qtbot, tonight):
    form = tonight.form
    raises = type_raises(qtbot, form, "22", "28")
    qtbot.keyClicks(raises.symptom, "3t")
    answer(qtbot, raises.range, "k")
    qtbot.keyClicks(form.parts[1].count.left, "17")
    qtbot.keyClicks(form.parts[1].count.right, "24")
    qtbot.keyClicks(form.parts[1].symptom, "0")
    answer(qtbot, form.painkiller, "n")
    answer(qtbot, form.after, "a")
    with qtbot.waitSignal(tonight.asked) as asked:
        ctrl_enter(qtbot, tonight)
    (done, hops) = asked.args[0]
    assert isinstance(done, HeelRaiseTest)
    assert (done.left, done.right) == (Raises(22), Raises(28))
    assert done.symptom == Symptom(3, Feeling.TIGHTNESS)
    assert (done.full_range, done.painkiller, done.after_training) == (True, False, True)
    assert (hops.left, hops.right, hops.symptom) == (Hops(17), Hops(24), Symptom(0))
    assert {done.case_id, hops.case_id} == {"c1"}
    assert done.test_id != hops.test_id


KEYS_FOR_ONE_TEST = 14
"""2 2 Tab 2 8 Tab Tab Tab 0 Tab k Alt+P n Ctrl+Enter: where typing begins, and no key twice."""


def test_one_heel_raise_test_takes_no_more_keys_than_agreed(qtbot, tonight):
    pressed = 0

    def press(*keys, modifier=Qt.KeyboardModifier.NoModifier):
        nonlocal pressed
        for key in keys:
            qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
            qtbot.keyClick(QApplication.focusWidget(), key, modifier)
            pressed += 1

    tab, alt = Qt.Key.Key_Tab, Qt.KeyboardModifier.AltModifier
    press("2", "2", tab, "2", "8", tab, tab, tab, "0", tab, "k")
    press("p", modifier=alt)
    press("n")
    with qtbot.waitSignal(tonight.asked) as asked:
        press(Qt.Key.Key_Return, modifier=Qt.KeyboardModifier.ControlModifier)
    ((done,),) = asked.args
    assert (done.left, done.right) == (Raises(22), Raises(28))
    assert (done.symptom, done.full_range, done.painkiller) == (Symptom(0), True, False)
    assert pressed <= KEYS_FOR_ONE_TEST


def test_201_raises_are_told_beside_the_field_and_stay_typed(qtbot, tonight):
    raises = type_raises(qtbot, tonight.form, "22", "201")
    sentence = tonight.form.fields["Heel raises"].complaint
    assert "201" in sentence
    assert "0 to 200" in sentence
    answer(qtbot, raises.range, "k")
    answer(qtbot, tonight.form.painkiller, "n")
    answer(qtbot, tonight.form.after, "f")
    with qtbot.assertNotEmitted(tonight.asked):
        ctrl_enter(qtbot, tonight)
    assert raises.count.right.text() == "201"
    assert tonight.isVisible()
    qtbot.keyClick(raises.count.right, Qt.Key.Key_Backspace)
    assert tonight.form.fields["Heel raises"].complaint == ""


def test_a_number_out_of_range_is_told_beside_an_unreadable_symptom(qtbot, tonight):
    raises = type_raises(qtbot, tonight.form, "22", "201")
    qtbot.keyClicks(raises.symptom, "3")
    assert "201" in tonight.form.fields["Heel raises"].complaint
    assert "letter" in tonight.form.fields["Symptom in heel raises"].complaint


def test_a_test_in_the_future_is_told_at_the_day(qtbot, tonight):
    type_raises(qtbot, tonight.form, "22", "28")
    tonight.form.day.show_day(day(21))
    assert day(20).isoformat() in tonight.form.fields["Day"].complaint


def test_nothing_that_must_be_observed_is_filled_in(tonight):
    form = tonight.form
    assert {field.text() for field in typed_fields(form)} == {""}
    assert [form.painkiller.value(), form.after.value(), form.parts[0].range.value()] == [
        None
    ] * 3


def test_a_question_left_open_keeps_the_test_from_being_saved(qtbot, tonight):
    type_raises(qtbot, tonight.form, "22", "28")
    with qtbot.assertNotEmitted(tonight.asked):
        ctrl_enter(qtbot, tonight)
    assert "answer" in tonight.form.fields["Full range"].complaint
    assert "answer" in tonight.form.fields["Painkiller in the last 24 h"].complaint


@pytest.mark.parametrize("typed", ["11p", "3x", "p3", "-1", "3 4"])
def test_a_symptom_that_cannot_be_read_is_told_and_kept(qtbot, tonight, typed):
    raises = type_raises(qtbot, tonight.form, "22", "28")
    qtbot.keyClicks(raises.symptom, typed)
    assert typed in tonight.form.fields["Symptom in heel raises"].complaint
    assert raises.symptom.text() == typed


def test_an_empty_form_says_there_is_nothing_to_save(qtbot, tonight):
    ctrl_enter(qtbot, tonight)
    assert "nothing to save" in tonight.trouble.text()


def test_escape_leaves_an_untouched_form_at_once(qtbot, tonight):
    with qtbot.waitSignal(tonight.finished):
        qtbot.keyClick(tonight, Qt.Key.Key_Escape)


def test_escape_asks_before_typed_words_are_lost(qtbot, tonight):
    raises = type_raises(qtbot, tonight.form, "22", "")
    qtbot.keyClick(tonight, Qt.Key.Key_Escape)
    qtbot.mouseClick(tonight._question.keep, Qt.MouseButton.LeftButton)
    assert tonight.isVisible()
    assert raises.count.left.text() == "22"
    qtbot.keyClick(tonight, Qt.Key.Key_Escape)
    with qtbot.waitSignal(tonight.finished):
        qtbot.mouseClick(tonight._question.leave, Qt.MouseButton.LeftButton)


def test_a_save_that_is_refused_says_why_and_keeps_what_was_typed(qtbot, tonight):
    raises = type_raises(qtbot, tonight.form, "22", "28")
    tonight.refuse("The disk is full. Free some space and save again.")
    assert "disk is full" in tonight.trouble.text()
    assert tonight.save.isEnabled()
    assert raises.count.right.text() == "28"


def test_the_window_title_names_nobody(tonight):
    assert tonight.windowTitle() == "Tonight's test"


def test_a_correction_shows_the_test_and_keeps_its_id(qtbot, opened):
    old = HeelRaiseTest(
        test_id="h1",
        case_id="c1",
        athlete_id="a1",
        on=day(18),
        left=Raises(12, 90),
        right=Raises(28),
        symptom=Symptom(2, Feeling.CRAMP),
        painkiller=True,
        beat=60,
        shoe="running shoe",
        tester="Ada Brenner",
    )
    dialog = opened(TonightForm(OCCASION, old))
    assert dialog.form.values() == (old,)
    left = dialog.form.parts[0].count.left
    left.selectAll()
    qtbot.keyClicks(left, "21")
    with qtbot.waitSignal(dialog.asked) as asked:
        ctrl_enter(qtbot, dialog)
    (new,) = asked.args[0]
    assert (new.test_id, new.on, new.left, new.tester) == (
        "h1",
        day(18),
        Raises(21, 90),
        old.tester,
    )


@pytest.mark.parametrize(
    "old",
    [
        HopTest(
            test_id="p1", case_id="c1", athlete_id="a1", on=day(9), left=Hops(18, 210, 190)
        ),
        FunctionCheck(
            test_id="f1",
            case_id="c1",
            athlete_id="a1",
            on=day(3),
            walks_clean=True,
            no_signs=False,
            after_training=False,
        ),
    ],
)
def test_every_kind_of_test_comes_back_from_its_correction_unchanged(opened, old):
    dialog = opened(TonightForm(OCCASION, old))
    assert dialog.form.values() == (old,)


def test_the_symmetry_index_follows_every_key(qtbot, opened):
    form = TonightForm(OCCASION)
    live = LiveAnswer(form, Side.LEFT, lambda _values: None, lambda _values: True)
    opened(form, live)
    type_raises(qtbot, form, "27", "30")
    # 27 of 30 is an index of 90 (Knee Surg Sports Traumatol Arthrosc 2010;18:258,
    # doi 10.1007/s00167-009-0889-7)
    assert live.symmetry.text() == "Heel raises: the injured leg is 90 % of the other"
    right = form.findChildren(Pair)[0].right
    qtbot.keyClick(right, Qt.Key.Key_Backspace)
    assert live.symmetry.text() == "Heel raises: the injured leg is 900 % of the other"


def test_nothing_of_nothing_has_no_symmetry():
    zeros = HopTest(
        test_id="p", case_id="c1", athlete_id="a1", on=day(9), left=Hops(0), right=Hops(0)
    )
    assert symmetry_sentences([zeros], Side.LEFT) == ["Hops: no symmetry index of 0 and 0"]


def test_fields_for_rare_details_wait_until_asked_for(qtbot, tonight):
    assert not tonight.form.surface.isVisible()
    qtbot.mouseClick(tonight.form.details, Qt.MouseButton.LeftButton)
    assert tonight.form.surface.isVisible()


def test_every_field_is_named_for_a_screen_reader(tonight):
    assert [f for f in typed_fields(tonight.form) if not f.accessibleName()] == []
    raises = tonight.form.parts[0].count
    assert raises.left.accessibleName() == "Heel raises, left"
    assert raises.right.accessibleName() == "Heel raises, right"


@pytest.mark.parametrize(
    ("letter", "name"), [("h", "Heel raises, left"), ("p", "Painkiller in the last 24 h: no")]
)
def test_an_underlined_letter_leads_to_its_row(qtbot, tonight, letter, name):
    tonight.form.parts[0].symptom.setFocus()
    focused = QApplication.focusWidget()
    qtbot.keyClick(focused, letter, Qt.KeyboardModifier.AltModifier)
    reached = QApplication.focusWidget()
    assert reached is not None
    assert reached.accessibleName() == name


def test_a_session_is_noted_as_it_was_done(qtbot, opened):
    dialog = opened(SessionForm(OCCASION))
    form = dialog.form
    with qtbot.assertNotEmitted(dialog.asked):
        ctrl_enter(qtbot, dialog)
    qtbot.keyClicks(form.kind, "rehab")
    qtbot.keyClicks(form.minutes, "45")
    qtbot.keyClicks(form.effort, "6")
    answer(qtbot, form.limp, "n")
    answer(qtbot, form.painkiller, "y")
    with qtbot.waitSignal(dialog.asked) as asked:
        ctrl_enter(qtbot, dialog)
    (entry,) = asked.args[0]
    assert isinstance(entry, SessionEntry)
    assert (entry.kind, entry.minutes, entry.effort) == (SessionKind.REHAB, 45, 6)
    assert (entry.limp, entry.painkiller, entry.symptom) == (False, True, None)


def test_a_limp_and_a_painkiller_nobody_asked_about_stay_not_asked(qtbot, opened):
    dialog = opened(SessionForm(OCCASION))
    qtbot.keyClicks(dialog.form.kind, "rehab")
    with qtbot.waitSignal(dialog.asked) as asked:
        ctrl_enter(qtbot, dialog)
    (entry,) = asked.args[0]
    assert (entry.limp, entry.painkiller, entry.effort, entry.minutes) == (None,) * 4


def test_a_symptom_of_which_nobody_said_the_kind_is_corrected_without_one(qtbot, opened):
    old = SessionEntry(
        session_id="s1",
        case_id="c1",
        athlete_id="a1",
        on=day(18),
        kind=SessionKind.REHAB,
        symptom=Symptom(2),
    )
    form = opened(SessionForm(OCCASION, old)).form
    assert form.values() == (old,)
    form.symptom.clear()
    qtbot.keyClicks(form.symptom, "2")
    with pytest.raises(TypedError, match="a letter is needed"):
        form.values()


def test_a_corrected_session_keeps_what_the_form_does_not_ask_for(qtbot, opened):
    hopped = ExerciseDone(exercise="hop", level=2, sets=3, faults=("soft_knee",))
    old = SessionEntry(
        session_id="s1",
        case_id="c1",
        athlete_id="a1",
        on=day(18),
        kind=SessionKind.REHAB,
        effort=6,
        painkiller=True,
        done=Done.PARTLY,
        exercises=(hopped,),
    )
    dialog = opened(SessionForm(OCCASION, old))
    assert dialog.form.values() == (old,)
    dialog.form.effort.selectAll()
    qtbot.keyClicks(dialog.form.effort, "7")
    assert dialog.form.values() == (replace(old, effort=7),)


def test_an_effort_beyond_ten_is_told_beside_the_field(qtbot, opened):
    dialog = opened(SessionForm(OCCASION))
    qtbot.keyClicks(dialog.form.effort, "11")
    assert "0 to 10" in dialog.form.fields["Effort (RPE)"].complaint


@pytest.mark.parametrize(
    ("left", "right", "wrong"), [("22", "201", "right"), ("201", "22", "left")]
)
def test_the_caret_goes_to_the_leg_that_is_wrong_with_its_number_selected(
    qtbot, tonight, left, right, wrong
):
    raises = type_raises(qtbot, tonight.form, left, right)
    ctrl_enter(qtbot, tonight)
    field: Any = getattr(raises.count, wrong)
    assert QApplication.focusWidget() == field
    assert field.selectedText() == "201"
