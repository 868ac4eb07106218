"""A number that cannot be: the cursor goes to the leg at fault, and nothing is judged by it."""

from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.entry.live_answer import LiveAnswer
from teamrehab.domain.measures import HeelRaiseTest


def test_a_number_typed_again_replaces_the_wrong_one_and_not_the_other_leg(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.TEST)
    part = dialog.form.parts[0]
    qtbot.keyClicks(part.count.left, "17")
    qtbot.keyClicks(part.count.right, "201")
    qtbot.keyClicks(part.symptom, "0")
    qtbot.keyClicks(part.range, "k")
    qtbot.keyClicks(dialog.form.painkiller, "n")
    opened.press(dialog)
    assert "Heel raises" in dialog.trouble.text()
    assert part.count.right.hasFocus()
    qtbot.keyClicks(part.count.right, "26")
    opened.save()
    newest = [test for test in opened.noted(HeelRaiseTest) if test.left.repetitions == 17]
    assert [test.right.repetitions for test in newest] == [26]


def test_nothing_is_judged_by_a_number_that_cannot_be(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.TEST)
    part = dialog.form.parts[0]
    qtbot.keyClicks(part.count.left, "36")
    qtbot.keyClicks(part.count.right, "201")
    live = dialog.findChild(LiveAnswer)
    assert not live.symmetry.isVisible()
    assert not live.criteria.isVisible()
    assert "corrected" in live.proposal.text()
    qtbot.keyClick(part.count.right, Qt.Key.Key_Backspace)
    assert live.criteria.isVisible()
    assert "180 %" in live.symmetry.text()


def test_a_question_left_open_is_brought_into_view_and_named_beside_the_button(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.TEST)
    dialog.resize(dialog.width(), 300)
    qtbot.keyClicks(dialog.form.parts[0].count.left, "17")
    opened.press(dialog)
    assert "Painkiller" in dialog.trouble.text()
    assert dialog.trouble.isVisible()


def test_every_form_begins_with_the_cursor_in_it(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.INJURY)
    assert dialog.form.isAncestorOf(dialog.focusWidget())
