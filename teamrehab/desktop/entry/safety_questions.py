"""The four questions asked in place before a symptom that is not accepted silently is saved."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, as_type, text
from teamrehab.desktop.buttons import main_button, quiet_button
from teamrehab.domain import safety
from teamrehab.domain.injuries import Case, Urgency
from teamrehab.domain.measures import SafetyCheck
from teamrehab.language import _
from teamrehab.tasks.cases import new_id

_YES, _NO = Qt.Key.Key_Y, Qt.Key.Key_N
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


@dataclass(frozen=True, slots=True)
class Watched:
    """A case, and why the questions are asked before given values of it are saved.

    ``why`` answers in sentences; empty: they are saved as they are.
    """

    case: Case
    why: Callable[[tuple[Any, ...]], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class _Asked:
    """Whom the answers are about; a second try at saving keeps the id."""

    check_id: str
    case: Case
    on: date


class SafetyQuestions(QFrame):
    """Y or N answers a question, Backspace goes back to the one before, Enter keeps the four.

    What the answers mean is shown as soon as the fourth is given, before anything is saved.
    ``answered`` carries the ``SafetyCheck``. ``given_up`` comes with Esc, or with Backspace at
    the first question: what was typed is to be looked at again.
    """

    answered = Signal(object)
    given_up = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("notice", True)  # noqa: FBT003  Qt's own signature
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._asked: _Asked | None = None
        self._answers: list[bool] = []
        self.reason, self.meaning = text("", Type.COMPLAINT), text("", Type.COMPLAINT)
        for label in (self.reason, self.meaning):
            label.setWordWrap(True)
        self.questions = [text(words) for words in question_words()]
        self.answers = [text("") for _question in self.questions]
        self.keep = main_button(_("Keep these answers (Enter)"), self.keep_answers)
        self._lay_out()

    def ask(self, why: tuple[str, ...], case: Case, on: date) -> None:
        """Begin at the first question; ``why`` are the sentences on what was typed."""
        self._asked = _Asked(new_id(), case, on)
        self._answers = []
        self.reason.setText(" ".join(why))
        self._show()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def check(self) -> SafetyCheck | None:
        """Return what the answers say, None before all four are given."""
        if self._asked is None or len(self._answers) < len(self.questions):
            return None
        same_spot, swollen, push_off, chest = self._answers
        return SafetyCheck(
            check_id=self._asked.check_id,
            case_id=self._asked.case.case_id,
            athlete_id=self._asked.case.athlete_id,
            on=self._asked.on,
            same_spot=same_spot,
            swollen_or_warm=swollen,
            can_push_off=push_off,
            chest_or_breath=chest,
        )

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take an answer, take one back, keep them or give up; no other key leaves here."""
        key = event.key()
        if key in (_YES, _NO):
            self._answer(yes=key == _YES)
        elif key == Qt.Key.Key_Backspace and self._answers:
            self._answers.pop()
            self._show()
        elif key in (Qt.Key.Key_Backspace, Qt.Key.Key_Escape):
            self.given_up.emit()
        elif key in _ENTER:
            self.keep_answers()
        elif key in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            super().keyPressEvent(event)

    def _answer(self, *, yes: bool) -> None:
        if len(self._answers) < len(self.questions):
            self._answers.append(yes)
            self._show()

    def _yes(self) -> None:
        self._answer(yes=True)

    def _no(self) -> None:
        self._answer(yes=False)

    def keep_answers(self) -> None:
        """Hand over the answers once all four are given."""
        if self.check is not None:
            self.answered.emit(self.check)

    def _show(self) -> None:
        """Show the answers, which question is asked now, and what all four mean."""
        now = len(self._answers)
        for number, (question, answer) in enumerate(
            zip(self.questions, self.answers, strict=True)
        ):
            answer.setText(self._answer_words(number))
            as_type(question, Type.SMALL if number > now else Type.BODY)
            _embolden(question, bold=number == now)
        check = self.check
        self.meaning.setText("" if check is None else meaning_words(safety.answered(check)))
        self.keep.setEnabled(check is not None)
        self._say_aloud(now)

    def _answer_words(self, number: int) -> str:
        if number < len(self._answers):
            return _("yes") if self._answers[number] else _("no")
        return _("Y or N?") if number == len(self._answers) else ""

    def _say_aloud(self, now: int) -> None:
        """Give a screen reader the question that is asked, or what the answers mean."""
        asked = self.questions[now].text() if now < len(self.questions) else ""
        self.setAccessibleName(asked or self.meaning.text())
        self.setAccessibleDescription(self.reason.text())

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(Space.WIDE)
        grid.setVerticalSpacing(Space.HAIR)
        for number, pair in enumerate(zip(self.questions, self.answers, strict=True)):
            for place, label in enumerate(pair):
                grid.addWidget(label, number, place)
        grid.setColumnMinimumWidth(1, self.fontMetrics().horizontalAdvance("M" * 8))
        grid.setColumnStretch(2, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.APART, Space.NEAR, Space.APART, Space.NEAR)
        column.setSpacing(Space.TIGHT)
        column.addWidget(self.reason)
        column.addLayout(grid)
        column.addWidget(self.meaning)
        column.addLayout(self._buttons())

    def _buttons(self) -> QHBoxLayout:
        line = QHBoxLayout()
        yes, no = quiet_button(_("Yes (Y)"), self._yes), quiet_button(_("No (N)"), self._no)
        for button in (self.keep, yes, no):
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the keys stay with the questions
            line.addWidget(button)
        line.addWidget(
            text(_("Backspace: the question before. Esc: what was typed."), Type.SMALL)
        )
        line.addStretch(1)
        return line


def meaning_words(answered: safety.Answered) -> str:
    """Return what four answers mean: how soon a doctor is needed, and what to do now."""
    if answered.urgency is Urgency.EMERGENCY:
        return _("Emergency now. {sentence}").format(sentence=answered.sentence)
    if answered.urgency is Urgency.SAME_DAY:
        return _("Doctor the same day. {sentence}").format(sentence=answered.sentence)
    return answered.sentence


def question_words() -> tuple[str, ...]:
    """Return the four questions, in the order of the fields of a ``SafetyCheck``."""
    return (
        _("Is it the same spot as the injury?"),
        _("Is it swollen or warm?"),
        _("Can the athlete push off on this leg?"),
        _("Pain in the chest, or short of breath?"),
    )


def _embolden(label: QLabel, *, bold: bool) -> None:
    font = label.font()
    font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    label.setFont(font)
