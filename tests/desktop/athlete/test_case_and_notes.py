"""The start of a case corrected, and free notes, by real keys over a real casebook."""

from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.injuries import Case, Nature, RedFlag, Remark, Side
from tests.builders import day
from tests.desktop.athlete.conftest import TODAY, no_red_flag


def the_case(opened):
    (case,) = opened.noted(Case)
    return case


def test_a_case_of_the_wrong_side_is_rewritten(opened, qtbot):
    opened.show("a1")
    form = opened.ask(Act.CASE).form
    assert (form.side.value(), form.area.value) == (Side.LEFT, "lower leg")
    qtbot.keyClicks(form.side, "r")
    qtbot.keyClicks(form.what, "pulled up in a sprint")
    qtbot.keyClick(form.operation, Qt.Key.Key_Space)
    opened.save()
    case = the_case(opened)
    assert (case.side, case.what, case.operation) == (Side.RIGHT, "pulled up in a sprint", True)
    assert not case.sensitive


def test_an_onset_after_the_first_entry_is_told_at_its_field(opened):
    opened.show("a1")
    dialog = opened.ask(Act.CASE)
    dialog.form.day.show_day(day(3))
    opened.press(dialog)
    assert "Wed 7 Oct" in dialog.form.fields["Day of onset"].complaint
    dialog.form.day.show_day(day(2))
    opened.save()
    assert the_case(opened).on == day(2)


def test_a_case_left_as_it_was_writes_nothing(opened):
    opened.show("a1")
    dialog = opened.ask(Act.CASE)
    opened.press(dialog)
    assert "nothing to save" in dialog.trouble.text()
    dialog.reject()


def test_a_case_found_to_be_a_head_injury_raises_a_red_flag(opened, qtbot):
    view = opened.show("a1")
    form = opened.ask(Act.CASE).form
    qtbot.keyClick(form.head, Qt.Key.Key_Space)
    opened.save()
    assert the_case(opened).head_injury
    assert [flag.on for flag in opened.noted(RedFlag)] == [TODAY]
    assert view.case.flag.isVisible()


def test_an_illness_is_asked_for_neither_side_nor_operation(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.ILLNESS)
    qtbot.keyClicks(dialog.form.flags.chest, "n")
    qtbot.keyClicks(dialog.form.training, "n")
    opened.save()
    dialog = opened.ask(Act.CASE)
    assert not {"Side", "Where", "Operation", "Head injury"} & set(dialog.form.fields)
    qtbot.keyClick(dialog.form.sensitive, Qt.Key.Key_Space)
    opened.save()
    (ill,) = [c for c in opened.noted(Case) if c.athlete_id == "a2"]
    assert (ill.nature, ill.side, ill.sensitive) == (
        Nature.ILLNESS,
        Side.NOT_APPLICABLE,
        True,
    )


def test_rare_fields_of_a_new_injury_wait_until_asked_for(opened, qtbot):
    opened.show("a2")
    form = opened.ask(Act.INJURY).form
    assert not form.operation.isVisible()
    qtbot.mouseClick(form.details, Qt.MouseButton.LeftButton)
    qtbot.keyClick(form.operation, Qt.Key.Key_Space)
    qtbot.keyClick(form.sensitive, Qt.Key.Key_Space)
    qtbot.keyClicks(form.side, "l")
    qtbot.keyClicks(form.area, "thigh")
    no_red_flag(qtbot, form)
    qtbot.keyClicks(form.training, "n")
    opened.save()
    (new,) = [c for c in opened.noted(Case) if c.athlete_id == "a2"]
    assert (new.operation, new.sensitive) == (True, True)


def test_a_note_is_written_listed_corrected_and_taken_back(opened, qtbot):
    view = opened.show("a1")
    form = opened.ask(Act.NOTE).form
    qtbot.keyClicks(form.text, "asks for a second opinion")
    qtbot.keyClick(form.text, Qt.Key.Key_Return)
    qtbot.keyClicks(form.text, "on Friday")
    opened.save()
    (note,) = opened.noted(Remark)
    assert (note.on, note.text) == (TODAY, "asks for a second opinion\non Friday")
    entries = view.entries
    cells = [entries.model.index(0, column).data() for column in range(3)]
    assert cells[1:] == ["Note", "asks for a second opinion on Friday"]
    entries.table.setCurrentIndex(entries.model.index(0, 0))
    qtbot.mouseClick(entries.correct, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(opened.dialog().form.text, "Now: ")
    opened.save()
    assert opened.noted(Remark)[0].text.startswith("Now: asks")
    qtbot.mouseClick(entries.withdraw, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(opened.dialog().form.reason, "another athlete's")
    opened.save()
    assert opened.noted(Remark) == []


def test_an_empty_note_is_not_saved(opened, qtbot):
    opened.show("a1")
    dialog = opened.ask(Act.NOTE)
    qtbot.keyClicks(dialog.form.text, " ")
    opened.press(dialog)
    assert "text is needed" in dialog.form.fields["Note"].complaint
    dialog.form._touched = False
    dialog.reject()
