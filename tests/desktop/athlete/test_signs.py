"""The red flags of the protocol asked from the athlete's page, by real keys."""

import pytest
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.athlete.actions import Act
from teamrehab.domain.guidance import WarningSign
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.signs_asked import SignsAsked
from tests.desktop.athlete.conftest import CALF_SIGNS


@pytest.fixture
def dialog(opened):
    opened.show("a1")
    return opened.ask(Act.SIGNS)


def answer(qtbot, form, letters):
    form.go_to_first()
    for letter in letters:
        qtbot.keyClick(QApplication.focusWidget(), letter)


def letters(*seen: str) -> str:
    return "".join("y" if sign.key in seen else "n" for sign in CALF_SIGNS)


def test_the_form_asks_every_sign_of_the_protocol_and_says_why_today(dialog):
    assert len(dialog.form.answers) == len(CALF_SIGNS)
    assert set(dialog.form.fields) == {sign.sentence for sign in CALF_SIGNS}
    assert all(answer.value() is None for answer in dialog.form.answers)


def test_a_letter_a_sign_answers_them_all_and_none_raises_a_flag(qtbot, opened, dialog):
    answer(qtbot, dialog.form, letters())
    assert dialog.form.urgent.isHidden()
    opened.save()
    (asked,) = opened.noted(SignsAsked)
    assert asked.asked == tuple(sign.key for sign in CALF_SIGNS)
    assert asked.seen == ()
    assert opened.noted(RedFlag) == []


def test_a_yes_says_at_once_what_to_do_and_raises_a_flag_on_saving(qtbot, opened, dialog):
    answer(qtbot, dialog.form, letters("clot"))
    assert dialog.form.urgent.isVisible()
    assert "raises a red flag" in dialog.form.urgent.text()
    opened.save()
    (flag,) = opened.noted(RedFlag)
    assert flag.urgency is Urgency.SAME_DAY
    assert "clot" in flag.what
    assert opened.noted(SignsAsked)[0].seen == ("clot",)


def test_a_sign_left_open_is_named_and_nothing_is_written(qtbot, opened, dialog):
    sign: WarningSign = CALF_SIGNS[-1]
    answer(qtbot, dialog.form, letters()[:-1])
    opened.press(dialog)
    assert dialog.form.fields[sign.sentence].complaint
    assert opened.noted(SignsAsked) == []
