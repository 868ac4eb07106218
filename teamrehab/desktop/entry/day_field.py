"""A day or a moment, typed or picked from a calendar, as Python's own values."""

import re
from datetime import date, datetime, time

from PySide6.QtCore import QDate, QDateTime, Qt, QTime
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractSpinBox, QDateEdit, QDateTimeEdit, QWidget
from typing_extensions import override

from teamrehab.language import _


class DayField(QDateEdit):
    """A day; the month is shown in letters so that no date can be misread.

    Digits typed into it are the day of the month: its weekday follows by itself.
    """

    def __init__(self, day: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setCalendarPopup(True)
        self.setDisplayFormat(_("ddd d MMM yyyy"))
        self.show_day(day)

    @property
    def day(self) -> date:
        """Return the day shown."""
        return _day(self.date())

    def show_day(self, day: date) -> None:
        """Show a day."""
        self.setDate(QDate(day.year, day.month, day.day))

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in _BY_KEY:
            _go_to_number(self)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.text().isdecimal():
            _leave_weekday(self)
        super().keyPressEvent(event)

    @override
    def stepBy(self, steps: int) -> None:
        if not _step_days(self, steps):
            super().stepBy(steps)

    @override
    def stepEnabled(self) -> QAbstractSpinBox.StepEnabledFlag:
        return _BOTH_WAYS


class MomentField(QDateTimeEdit):
    """A day and an hour of the club's wall time."""

    def __init__(self, day: date, hour: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setCalendarPopup(True)
        self.setDisplayFormat(_("ddd d MMM yyyy, HH:mm"))
        self.setDateTime(QDateTime(QDate(day.year, day.month, day.day), QTime(hour, 0)))

    @property
    def moment(self) -> datetime:
        """Return the moment shown, as naive wall time."""
        shown = self.dateTime()
        clock = time(shown.time().hour(), shown.time().minute())
        return datetime.combine(_day(shown.date()), clock)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in _BY_KEY:
            _go_to_number(self)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.text().isdecimal():
            _leave_weekday(self)
        super().keyPressEvent(event)

    @override
    def stepBy(self, steps: int) -> None:
        if not _step_days(self, steps):
            super().stepBy(steps)

    @override
    def stepEnabled(self) -> QAbstractSpinBox.StepEnabledFlag:
        return _BOTH_WAYS


_BOTH_WAYS = QAbstractSpinBox.StepEnabledFlag.StepUpEnabled | (
    QAbstractSpinBox.StepEnabledFlag.StepDownEnabled
)


_BY_KEY = frozenset(
    {
        Qt.FocusReason.TabFocusReason,
        Qt.FocusReason.BacktabFocusReason,
        Qt.FocusReason.ShortcutFocusReason,
        Qt.FocusReason.OtherFocusReason,
    }
)
"""How one comes to a field without having pointed at a part of it."""


_QUOTED, _PARTS = re.compile(r"'[^']*'"), re.compile(r"d+|M+|y+|H+|m+")
"""What a format shows as it stands, and its parts."""


def _place_of_number(field: QDateTimeEdit) -> int:
    """Return which part shows the day of the month; the weekday is a day to Qt as well."""
    parts = _PARTS.findall(_QUOTED.sub("", field.displayFormat()))
    return next(place for place, part in enumerate(parts) if part in {"d", "dd"})


def _go_to_number(field: QDateTimeEdit) -> None:
    """Put the cursor on the day of the month: Qt begins at the weekday, deaf to digits."""
    field.setCurrentSectionIndex(_place_of_number(field))
    field.setSelectedSection(QDateTimeEdit.Section.DaySection)


def _leave_weekday(field: QDateTimeEdit) -> None:
    """Go on to the number where the weekday is what would be typed into."""
    on_a_day = field.currentSection() is QDateTimeEdit.Section.DaySection
    if on_a_day and field.currentSectionIndex() != _place_of_number(field):
        _go_to_number(field)


def _step_days(field: QDateTimeEdit, steps: int) -> bool:
    """Step to the day before or after, over the ends of weeks and months.

    Qt itself stops at Monday and at the first of a month. Returns whether a day was stepped.
    """
    if field.currentSection() is not QDateTimeEdit.Section.DaySection:
        return False
    field.setDate(field.date().addDays(steps))
    return True


def _day(shown: QDate) -> date:
    return date(shown.year(), shown.month(), shown.day())
