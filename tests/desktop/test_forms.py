"""Forms and their fields."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QWidget

from teamrehab.desktop import forms
from teamrehab.domain.athletes import Role
from teamrehab.domain.plausibility import Implausible


@pytest.fixture
def page(qtbot):
    widget = QWidget()
    qtbot.addWidget(widget)
    return widget


def trouble(field="Left", value="201"):
    return Implausible(
        field=field, value=value, allowed="0 to 200", remedy="Type what was counted."
    )


def test_a_row_names_its_field_for_everyone(page):
    field = forms.row(
        forms.form_layout(page), "&Team:", QLineEdit(), "As the league writes it."
    )
    label = next(w for w in page.findChildren(QLabel) if w.text() == "&Team:")
    assert label.buddy() is field.widget
    assert field.widget.accessibleName() == "Team"
    assert field.widget.accessibleDescription() == "As the league writes it."


def test_trouble_is_shown_beside_its_field_and_read_aloud_until_it_is_mended(page):
    form = forms.form_layout(page)
    left = forms.row(form, "Left", forms.NumberField(), "Raises")
    right = forms.row(form, "Right", forms.NumberField())
    found = forms.by_field([trouble(), trouble("Elsewhere")])
    rest = forms.show_troubles({"Left": left, "Right": right}, found)
    assert left.complaint == str(trouble())
    assert left.widget.accessibleDescription() == str(trouble())
    assert right.complaint == ""
    assert rest == (str(trouble("Elsewhere")),)
    forms.show_troubles({"Left": left, "Right": right}, {})
    assert left.complaint == ""
    assert left.widget.accessibleDescription() == "Raises"


def test_the_first_field_at_fault_gets_the_keyboard(page, qtbot):
    form = forms.form_layout(page)
    left = forms.row(form, "Left", forms.NumberField())
    right = forms.row(form, "Right", forms.NumberField())
    page.show()
    qtbot.waitExposed(page)
    forms.show_troubles({"Left": left, "Right": right}, {"Right": "too many"})
    assert page.focusWidget() is right.widget


@pytest.mark.parametrize(
    ("typed", "value"), [("", None), ("25", 25), ("2x5-", 25), ("201", 201), ("٢٥", 25)]
)
def test_a_number_field_takes_digits_of_any_script_and_clips_nothing(page, typed, value):
    field = forms.NumberField("mm", page)
    for letter in typed:
        field.insert(letter)
    assert field.value == value


def test_two_troubles_with_one_field_are_both_said():
    found = forms.by_field([trouble(value="201"), trouble(value="999")])
    assert found["Left"].count("Type what was counted.") == 2


def test_nothing_is_prefilled(page):
    assert forms.NumberField("", page).value is None
    assert forms.ChoiceField([(Role.PHYSIO, "Physio")], parent=page).value is None


def test_a_choice_gives_back_the_value_itself(page):
    field = forms.ChoiceField([(Role.DOCTOR, "Doctor"), (Role.PHYSIO, "Physio")], parent=page)
    field.setCurrentIndex(1)
    assert field.value is Role.PHYSIO
    field.show_value(Role.DOCTOR)
    assert field.currentText() == "Doctor"
    field.show_value(None)
    assert field.value is None


@pytest.mark.qt_log_ignore("This plugin does not support")  # of a list without a screen
@pytest.mark.parametrize("count", [3, 8, 12])
def test_a_list_opened_by_key_shows_its_last_answer_whole(page, qtbot, count):
    field = forms.ChoiceField([(n, f"answer {n}") for n in range(count)], 0, page)
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    qtbot.keyClick(field, Qt.Key.Key_F4)
    answers = field.view()
    qtbot.waitUntil(answers.isVisible)
    last = answers.visualRect(answers.model().index(count - 1, 0))
    assert last.bottom() < answers.viewport().height()
    field.hidePopup()


@pytest.mark.parametrize(("label", "said"), [("&Team:", "Team"), ("R && &D", "R & D")])
def test_a_label_is_read_without_its_mnemonic(label, said):
    assert forms.without_mnemonic(label) == said
