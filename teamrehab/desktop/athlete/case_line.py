"""The case in two lines: what it is, since when, and what it has cost so far."""

from collections.abc import Mapping, Sequence
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import plain_button
from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.days_lost import days_lost
from teamrehab.domain.history import History
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.protocol import InjuryKind
from teamrehab.language import _, counted
from teamrehab.reports.returning import again_words
from teamrehab.reports.wording import day_words, moment_words
from teamrehab.reports.wording_clinical import problem_words, side_words


class CaseLine(QWidget):
    """``flag_closing`` carries a red flag that a doctor has seen to."""

    flag_closing = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.problem, self.course = text("", Type.TITLE), text("", Type.SMALL)
        self.problem.setWordWrap(True)
        self.course.setWordWrap(True)
        self._flags: tuple[RedFlag, ...] = ()
        self.flag = text("", Type.COMPLAINT)
        self.flag.setWordWrap(True)
        self.close_flag = plain_button(_("A doctor has seen it..."), self._closing)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.HAIR)
        for part in (self.problem, self.course, self.flag):
            column.addWidget(part)
        column.addWidget(self.close_flag, 0, Qt.AlignmentFlag.AlignLeft)

    def show_case(
        self,
        history: History,
        catalogue: Mapping[str, InjuryKind],
        today: date,
        earlier: Sequence[History] = (),
    ) -> None:
        """Show one case as it stands; ``earlier`` are the athlete's closed cases."""
        self.problem.setText(case_words(history, catalogue))
        self.course.setText(" · ".join(_course(history, today, earlier)))
        self._flags = history.open_red_flags
        self.flag.setText("\n".join(_flag_words(flag) for flag in self._flags))
        self.flag.setVisible(bool(self._flags))
        self.close_flag.setVisible(bool(self._flags))

    def _closing(self) -> None:
        self.flag_closing.emit(self._flags[0])


def case_words(history: History, catalogue: Mapping[str, InjuryKind]) -> str:
    """Return the problem with its side and grade."""
    diagnosis = history.diagnosis
    kind = catalogue.get(diagnosis.injury) if diagnosis else None
    words = problem_words(history, kind)
    if side_words(history.case.side):
        words = _("{problem}, {side}").format(problem=words, side=side_words(history.case.side))
    if diagnosis is not None and diagnosis.grade is not None:
        words = _("{problem}, grade {grade}").format(problem=words, grade=diagnosis.grade)
    return words


def _course(history: History, today: date, earlier: Sequence[History]) -> list[str]:
    case = history.case
    lost = days_lost(case.on, history.of(AvailabilityStated), today)
    told = [
        _("Onset {day}, day {number}").format(
            day=day_words(case.on), number=(today - case.on).days
        ),
        counted("{count} day lost", "{count} days lost", lost.lost),
    ]
    if lost.with_limits:
        told.append(
            counted(
                "{count} of them with limits", "{count} of them with limits", lost.with_limits
            )
        )
    if again := again_words(history, earlier):
        told.append(again)
    if case.reassess_on is not None and case.reassess_on.date() >= today:
        told.append(_("reassess {when}").format(when=moment_words(case.reassess_on)))
    return told


def _flag_words(flag: RedFlag) -> str:
    if flag.urgency is Urgency.EMERGENCY:
        return _("Red flag: {what}. Emergency: get medical help now.").format(what=flag.what)
    return _("Red flag: {what}. A doctor sees the athlete today.").format(what=flag.what)
