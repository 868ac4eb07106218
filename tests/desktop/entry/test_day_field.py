"""Days changed by arrow keys and by digits, and how a language writes them."""

import gettext
from datetime import datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDateTimeEdit, QLineEdit, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.entry.day_field import DayField, MomentField
from teamrehab.language import use
from tests.builders import ONSET, day


@pytest.mark.parametrize(("key", "step"), [(Qt.Key.Key_Down, -1), (Qt.Key.Key_Up, 1)])
def test_an_arrow_key_goes_to_the_next_day_over_weeks_and_months(qtbot, key, step):
    field = DayField(ONSET)
    qtbot.addWidget(field)
    for number in range(1, 41):
        qtbot.keyClick(field, key)
        assert field.day == day(step * number)


def test_a_moment_keeps_its_hour_when_the_day_is_stepped(qtbot):
    field = MomentField(ONSET, 12)
    qtbot.addWidget(field)
    qtbot.keyClick(field, Qt.Key.Key_Down)
    assert field.moment == datetime(2026, 10, 4, 12)  # noqa: DTZ001  wall time


@pytest.mark.parametrize(
    ("section", "wanted"), [("MonthSection", day(31)), ("YearSection", day(365))]
)
def test_months_and_years_are_still_stepped_by_themselves(qtbot, section, wanted):
    field = DayField(ONSET)
    qtbot.addWidget(field)
    field.setSelectedSection(QDateTimeEdit.Section[section])
    qtbot.keyClick(field, Qt.Key.Key_Up)
    assert field.day == wanted


@pytest.fixture(params=[DayField, lambda day: MomentField(day, 12)], ids=["day", "moment"])
def after_a_line(qtbot, request):
    """A day after a line to type in, as in a form, with the cursor in the line."""
    page = QWidget()
    line, field = QLineEdit(), request.param(day(20))
    column = QVBoxLayout(page)
    column.addWidget(line)
    column.addWidget(field)
    qtbot.addWidget(page)
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    line.setFocus()
    return page, field


def shown_day(field):
    return field.day if isinstance(field, DayField) else field.moment.date()


def test_digits_typed_on_coming_to_a_day_are_the_day_of_the_month(qtbot, after_a_line):
    page, field = after_a_line
    qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Tab)
    qtbot.keyClicks(page.focusWidget(), "27")
    assert shown_day(field) == day(22)


def test_digits_typed_on_the_weekday_are_the_day_of_the_month(qtbot, after_a_line):
    page, field = after_a_line
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_Home)
    assert page.focusWidget() is field
    qtbot.keyClicks(field, "07")
    assert shown_day(field) == day(2)


class YearFirst(gettext.NullTranslations):
    """A language in which a date is written year first."""

    @override
    def gettext(self, message):
        return message.replace("ddd d MMM yyyy", "yyyy MMM d")


@pytest.fixture
def other_language():
    use(YearFirst())
    yield
    use(gettext.NullTranslations())


@pytest.mark.usefixtures("other_language")
def test_a_language_writes_days_in_its_own_order(qtbot):
    shown = DayField(ONSET), MomentField(ONSET, 12)
    for field in shown:
        qtbot.addWidget(field)
    assert [field.text() for field in shown] == ["2026 Oct 5", "2026 Oct 5, 12:00"]
