"""A day or a moment, typed or picked from a calendar, as Python's own values."""

from datetime import date, datetime, time

from PySide6.QtCore import QDate, QDateTime, QTime
from PySide6.QtWidgets import QAbstractSpinBox, QDateEdit, QDateTimeEdit, QWidget
from typing_extensions import override

from teamrehab.language import _


class DayField(QDateEdit):
    """A day; the month is shown in letters so that no date can be misread."""

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
    def stepBy(self, steps: int) -> None:
        if not _step_days(self, steps):
            super().stepBy(steps)

    @override
    def stepEnabled(self) -> QAbstractSpinBox.StepEnabledFlag:
        return _BOTH_WAYS


_BOTH_WAYS = QAbstractSpinBox.StepEnabledFlag.StepUpEnabled | (
    QAbstractSpinBox.StepEnabledFlag.StepDownEnabled
)


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
