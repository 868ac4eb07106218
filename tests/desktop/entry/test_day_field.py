"""Days changed by arrow keys, and how a language writes them."""

import gettext
from datetime import datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDateTimeEdit
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
