"""Above the rows of an evening: which evening, how many rows are entered, and its end."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import main_button, quiet_button
from teamrehab.language import _, counted
from teamrehab.reports.wording import day_words, month_words


class EveningHeader(QWidget):
    """Names the evening; ``earlier_asked``, ``later_asked`` and ``closing_asked``."""

    earlier_asked = Signal()
    later_asked = Signal()
    closing_asked = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.day, self.count = text("", Type.TITLE), text("", Type.LEAD)
        self.remark = text("", Type.COMPLAINT)
        self.remark.setWordWrap(True)
        self.earlier = quiet_button(_("Earlier day (Alt+Left)"), self._earlier)
        self.later = quiet_button(_("Later day (Alt+Right)"), self._later)
        self.close_evening = main_button(_("Close the evening (Ctrl+Enter)"), self._close)
        for button in (self.earlier, self.later, self.close_evening):
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        line = QHBoxLayout()
        line.setSpacing(Space.APART)
        for part in (self.day, self.earlier, self.later):
            line.addWidget(part)
        line.addStretch(1)
        line.addWidget(self.count)
        line.addWidget(self.close_evening)
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.APART, 0, Space.APART, 0)
        column.setSpacing(Space.TIGHT)
        column.addLayout(line)
        column.addWidget(self.remark)

    def show_evening(
        self, day: date, today: date, *, turned: bool, waiting: str, stopped: str
    ) -> None:
        """Show which evening it is; ``turned``: the club's day changed while it was typed.

        ``waiting`` words what is typed and not saved on other days, ``stopped`` of whom the
        coach reads something else than that they are stopped.
        """
        words = _("{weekday} {day} {month}, after training")
        self.day.setText(
            words.format(weekday=long_weekday(day), day=day.day, month=month_words(day))
        )
        self.later.setEnabled(day < today)
        remarks = (late_words(day, today, turned=turned), waiting, stopped)
        self.remark.setText(" ".join(part for part in remarks if part))
        self.remark.setVisible(bool(self.remark.text()))

    def show_count(self, entered: int, rows: int) -> None:
        """Show how many rows are entered."""
        words = _("{entered} of {rows} entered")
        self.count.setText(words.format(entered=entered, rows=rows))

    def _earlier(self) -> None:
        self.earlier_asked.emit()

    def _later(self) -> None:
        self.later_asked.emit()

    def _close(self) -> None:
        self.closing_asked.emit()


def late_words(day: date, today: date, *, turned: bool) -> str:
    """Return what is to be said of an evening that is over, "" of tonight's."""
    late = (today - day).days
    if late < 1:
        return ""
    if turned:
        said = _("The club's day turned at 04:00. What you type stays with {day}.")
        return said.format(day=day_words(day))
    if late == 1:
        return _("Entered the morning after.")
    return counted("Entered {count} day after.", "Entered {count} days after.", late)


def long_weekday(day: date) -> str:
    """Return the whole name of the weekday."""
    names = (
        *(_("Monday"), _("Tuesday"), _("Wednesday"), _("Thursday")),
        *(_("Friday"), _("Saturday"), _("Sunday")),
    )
    return names[day.weekday()]
