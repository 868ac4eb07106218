"""What is not accepted silently on the athlete's page: the four questions come first."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.measures import (
    Done,
    ExerciseDone,
    Feeling,
    HeelRaiseTest,
    MorningResponse,
    Raises,
    SafetyCheck,
    SessionEntry,
    SessionKind,
    Symptom,
)
from tests.builders import day
from tests.desktop.athlete.conftest import IDS, TODAY

CALM = SessionEntry(
    session_id="t1",
    on=TODAY,
    kind=SessionKind.REHAB,
    symptom=Symptom(1),
    done=Done.PARTLY,
    exercises=(ExerciseDone(exercise="raise_straight", level=1, sets=2),),
    **IDS,
)


def stands(opened, kind):
    return [value for value in opened.noted(kind) if value.case_id == "c1"]


def type_session(opened, qtbot, symptom, limp="n"):
    """Type a session on the page and press Ctrl+Enter; return the form's window."""
    dialog = opened.ask(Act.SESSION)
    qtbot.keyClicks(dialog.form.kind, "rehab")
    qtbot.keyClicks(dialog.form.symptom, symptom)
    qtbot.keyClicks(dialog.form.limp, limp)
    opened.press(dialog)
    return dialog


def answer(opened, qtbot, dialog, keys):
    """Answer by keys, Enter last, and wait until the page has seen what was saved."""
    before = opened.boards
    qtbot.keyClicks(dialog.questions, keys)
    qtbot.keyClick(dialog.questions, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: opened.boards > before)
    assert opened.page.dialog is None


def choose(view, thing):
    rows = [row.fact.value for row in view.entries.model.rows]
    line = next(n for n, value in enumerate(rows) if thing(value))
    view.entries.table.setCurrentIndex(view.entries.model.index(line, 0))


def correct(opened, qtbot, view, thing):
    choose(view, thing)
    qtbot.mouseClick(view.entries.correct, Qt.MouseButton.LeftButton)
    return opened.dialog()


@pytest.mark.parametrize(
    ("symptom", "limp", "why"),
    [("9s", "y", "sharp"), ("4p", "n", "Symptom 4"), ("0", "y", "limp"), ("1s", "n", "sharp")],
)
def test_a_session_that_is_not_accepted_silently_is_asked_about_first(
    opened, qtbot, symptom, limp, why
):
    opened.show("a1")
    dialog = type_session(opened, qtbot, symptom, limp)
    assert why in dialog.questions.reason.text()
    assert dialog.questions.hasFocus()
    assert stands(opened, SessionEntry) == []
    answer(opened, qtbot, dialog, "ynyn")
    (check,) = stands(opened, SafetyCheck)
    (noted,) = stands(opened, SessionEntry)
    assert (check.on, check.same_spot, check.can_push_off) == (noted.on, True, True)
    assert stands(opened, RedFlag) == []


def test_what_follows_is_read_before_it_is_saved_and_a_red_flag_comes_in_the_same_save(
    opened, qtbot
):
    view = opened.show("a1")
    dialog = type_session(opened, qtbot, "5p")
    qtbot.keyClicks(dialog.questions, "yny")
    assert not dialog.questions.meaning.text()
    qtbot.keyClicks(dialog.questions, "y")
    assert dialog.questions.meaning.text().startswith("Emergency now.")
    assert "Sam Okafor" in dialog.questions.keep.text()
    assert stands(opened, SessionEntry) == []
    answer(opened, qtbot, dialog, "")
    assert [flag.urgency for flag in stands(opened, RedFlag)] == [Urgency.EMERGENCY]
    assert len(stands(opened, SessionEntry)) == 1
    assert view.case.flag.isVisible()


def test_ctrl_enter_with_questions_open_saves_nothing_before_all_four_are_answered(
    opened, qtbot
):
    opened.show("a1")
    dialog = type_session(opened, qtbot, "9s")
    qtbot.keyClicks(dialog.questions, "yny")
    opened.press(dialog)
    assert stands(opened, SessionEntry) == []
    qtbot.keyClicks(dialog.questions, "n")
    opened.save()
    assert len(stands(opened, SafetyCheck)) == len(stands(opened, SessionEntry)) == 1


def test_escape_goes_back_to_what_was_typed_and_a_calm_symptom_is_saved_without_questions(
    opened, qtbot
):
    opened.show("a1")
    dialog = type_session(opened, qtbot, "9s")
    qtbot.keyClicks(dialog.questions, "yy")
    qtbot.keyClick(dialog.questions, Qt.Key.Key_Escape)
    assert not dialog.questions.isVisible()
    assert dialog.save.isVisible()
    assert dialog.form.isAncestorOf(dialog.focusWidget())
    assert dialog.form.symptom.text() == "9s"
    dialog.form.symptom.selectAll()
    qtbot.keyClicks(dialog.form.symptom, "1p")
    opened.save()
    assert [one.symptom for one in stands(opened, SessionEntry)] == [Symptom(1, Feeling.PAIN)]
    assert stands(opened, SafetyCheck) == []


def test_an_edit_takes_open_questions_back_so_that_no_answer_is_kept_of_another_symptom(
    opened, qtbot
):
    opened.show("a1")
    dialog = type_session(opened, qtbot, "9s")
    qtbot.keyClicks(dialog.questions, "ynyn")
    dialog.form.symptom.selectAll()
    qtbot.keyClicks(dialog.form.symptom, "5p")
    assert not dialog.questions.isVisible()
    opened.press(dialog)
    assert dialog.questions.check is None
    assert "Symptom 5" in dialog.questions.reason.text()
    answer(opened, qtbot, dialog, "nnyn")
    assert [check.same_spot for check in stands(opened, SafetyCheck)] == [False]


def test_a_morning_that_rose_is_asked_about_with_the_session_of_that_day(opened, qtbot):
    for number, score in ((18, 0), (20, 2)):
        morning = MorningResponse(
            response_id=f"m{number}", on=day(number), symptom=Symptom(score), **IDS
        )
        opened.note(morning)
    opened.show("a1")
    dialog = type_session(opened, qtbot, "0")
    assert "rose from 0 to 2" in dialog.questions.reason.text()
    answer(opened, qtbot, dialog, "ynyn")
    assert len(stands(opened, SafetyCheck)) == 1


def test_a_painful_test_is_asked_about_and_its_correction_too(opened, qtbot):
    view = opened.show("a1")
    dialog = opened.ask(Act.TEST)
    part = dialog.form.parts[0]
    qtbot.keyClicks(part.count.left, "9")
    qtbot.keyClicks(part.symptom, "6p")
    qtbot.keyClicks(part.range, "k")
    qtbot.keyClicks(dialog.form.painkiller, "n")
    opened.press(dialog)
    answer(opened, qtbot, dialog, "ynyn")
    assert [t.symptom for t in stands(opened, HeelRaiseTest)][-1] == Symptom(6, Feeling.PAIN)
    dialog = correct(opened, qtbot, view, lambda v: getattr(v, "test_id", "") == "h1")
    symptom = dialog.form.parts[0].symptom
    symptom.selectAll()
    qtbot.keyClicks(symptom, "2s")
    opened.press(dialog)
    assert "sharp" in dialog.questions.reason.text()
    answer(opened, qtbot, dialog, "yyyn")
    assert [flag.on for flag in stands(opened, RedFlag)] == [day(12)]
    corrected = next(t for t in stands(opened, HeelRaiseTest) if t.test_id == "h1")
    assert corrected.symptom == Symptom(2, Feeling.SHARP)


def test_a_session_corrected_to_a_sharp_symptom_is_asked_about_and_keeps_its_exercises(
    opened, qtbot
):
    view = opened.show("a1")
    opened.note(CALM)
    dialog = correct(opened, qtbot, view, lambda v: isinstance(v, SessionEntry))
    dialog.form.symptom.selectAll()
    qtbot.keyClicks(dialog.form.symptom, "8s")
    opened.press(dialog)
    answer(opened, qtbot, dialog, "ynyn")
    (noted,) = stands(opened, SessionEntry)
    assert noted.symptom == Symptom(8, Feeling.SHARP)
    assert (noted.done, noted.exercises) == (CALM.done, CALM.exercises)
    assert len(stands(opened, SafetyCheck)) == 1


def test_a_correction_of_what_was_corrected_meanwhile_is_refused_and_stays_typed(opened, qtbot):
    view = opened.show("a1")
    opened.note(CALM)
    dialog = correct(opened, qtbot, view, lambda v: isinstance(v, SessionEntry))
    newer = replace(CALM, minutes=50)
    opened.note(newer)
    qtbot.keyClicks(dialog.form.effort, "7")
    opened.press(dialog)
    qtbot.waitUntil(dialog.trouble.isVisible)
    assert stands(opened, SessionEntry) == [newer]
    assert dialog.form.effort.text() == "7"
    dialog.form._touched = False
    dialog.reject()


def test_a_second_session_of_a_day_is_saved_only_when_a_person_says_it_was_another(
    opened, qtbot
):
    opened.show("a1")
    opened.note(CALM)
    dialog = type_session(opened, qtbot, "0")
    qtbot.waitUntil(lambda: "already" in dialog.trouble.text())
    assert stands(opened, SessionEntry) == [CALM]
    qtbot.keyClick(dialog.form.second, Qt.Key.Key_Space)
    opened.save()
    assert len(stands(opened, SessionEntry)) == 2


def test_a_healthy_athletes_test_has_no_case_to_stop_and_is_saved(opened, qtbot):
    opened.show("a2")
    dialog = opened.ask(Act.TEST)
    part = dialog.form.parts[0]
    qtbot.keyClicks(part.count.left, "30")
    qtbot.keyClicks(part.symptom, "5t")
    qtbot.keyClicks(part.range, "k")
    qtbot.keyClicks(dialog.form.painkiller, "n")
    opened.save()
    (noted,) = [t for t in opened.noted(HeelRaiseTest) if t.athlete_id == "a2"]
    assert noted.left == Raises(30)
