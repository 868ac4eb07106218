"""What stands first on the athlete page: the answer, the next session, what is missing."""

from collections.abc import Mapping, Sequence
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import main_button, plain_button
from teamrehab.desktop.marks import VERDICT_FILL, Mark
from teamrehab.domain.decision import CriterionResult
from teamrehab.domain.injuries import Nature
from teamrehab.language import _
from teamrehab.reports import wording_session, wording_steps
from teamrehab.reports.next_steps import Answer, NextSteps
from teamrehab.reports.open_gates import OpenGate
from teamrehab.reports.wording_criteria import open_words, short_words

_TWO_COLUMNS_FROM = 1100
"""Width in pixels from which the next session stands beside what is missing."""


class StepsPanel(QWidget):
    """``moving``, ``clearing`` and ``diagnosing`` ask for the form that follows the answer."""

    moving = Signal()
    clearing = Signal()
    diagnosing = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.answer, self.session, self.missing = _Part(), _Part(), _Part(2)
        self.ladders = _Part()
        self.plain = _wrapped("", Type.SMALL)
        self.move_on = plain_button("", self.moving.emit)
        self.sign = plain_button(_("Sign a clearance..."), self.clearing.emit)
        self.diagnose = main_button(_("Diagnosis and protocol..."), self.diagnosing.emit)
        for button in (self.move_on, self.sign, self.diagnose):
            self.answer.top.addWidget(button)
        self._places = QGridLayout(self)
        self._places.setContentsMargins(0, 0, 0, 0)
        self._places.setHorizontalSpacing(Space.WIDE)
        self._places.setVerticalSpacing(Space.NEAR)
        self._lay_out(wide=False)

    def show_steps(self, steps: NextSteps, today: date, names: Mapping[str, str]) -> None:
        """Show what comes next as of ``today``; ``names`` are those of the staff by id."""
        self._show_answer(steps, names)
        self._show_session(steps, today)
        self._show_missing(steps, today)
        self._show_ladders(steps, today)
        self._show_buttons(steps)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        wide = self.width() >= _TWO_COLUMNS_FROM
        if wide is not self._wide:
            self._lay_out(wide=wide)

    def _lay_out(self, *, wide: bool) -> None:
        """Put the parts below each other, or what is missing beside the next session."""
        self._wide = wide
        across, top = 1 + wide, Qt.AlignmentFlag.AlignTop
        self._places.addWidget(self.answer, 0, 0, 1, across)
        self._places.addWidget(self.session, 1, 0, top)
        self._places.addWidget(self.missing, 1 if wide else 2, 1 if wide else 0, top)
        self._places.addWidget(self.plain, 3, 0, 1, across)
        self._places.addWidget(self.ladders, 4, 0, 1, across)
        for column in range(2):
            self._places.setColumnStretch(column, 1 if column < across else 0)

    def _show_buttons(self, steps: NextSteps) -> None:
        decision = steps.decision
        ahead = decision is not None and bool(decision.next_name)
        stopped = steps.answer is Answer.STOP
        self.move_on.setVisible(steps.back or (ahead and not stopped))
        self.sign.setVisible(decision is not None and not ahead and not stopped)
        ill = steps.history.case.nature is Nature.ILLNESS
        self.diagnose.setVisible(decision is None and not ill)
        if decision is not None:
            self.move_on.setText(_move_words(steps, decision.next_name))
            self.move_on.setProperty("main", steps.answer is Answer.MOVE_UP)
            self.sign.setProperty("main", steps.answer is Answer.SIGN_OFF)
        for button in (self.move_on, self.sign):
            button.style().unpolish(button)
            button.style().polish(button)

    def _show_answer(self, steps: NextSteps, names: Mapping[str, str]) -> None:
        part, decision = self.answer, steps.decision
        where = wording_steps.stage_line(decision) if decision is not None else ""
        said = (where, wording_steps.who_decides(decision))
        part.start(wording_steps.answer_words(steps.answer), " · ".join(filter(None, said)))
        alarm = steps.answer is Answer.STOP
        for sentence in wording_steps.answer_sentences(steps):
            part.say(sentence, Type.COMPLAINT if alarm else Type.BODY)
        for prompt in steps.prompts:
            part.say(prompt)
        part.say(wording_steps.notes_words(steps, names), Type.SMALL)
        part.finish()

    def _show_session(self, steps: NextSteps, today: date) -> None:
        part = self.session
        part.start(wording_session.session_title(steps, today))
        for lift in steps.lifts:
            part.say(wording_steps.lift_words(lift))
        for exercise, done in wording_session.session_lines(steps):
            part.pair(exercise, done)
        small = (
            wording_session.symptom_line(steps),
            wording_session.plan_notes(steps),
            wording_session.no_plan_words(steps),
        )
        part.say(" ".join(words for words in small if words), Type.SMALL)
        part.finish()
        plain = wording_session.plain_words(steps)
        self.plain.setText(plain)
        self.plain.setVisible(bool(plain))

    def _show_ladders(self, steps: NextSteps, today: date) -> None:
        part, lines = self.ladders, wording_session.outlook_lines(steps, today)
        part.start(_("What moves each ladder up"))
        for ladder, needs in lines:
            part.pair(ladder, needs)
        part.finish()
        part.setVisible(bool(lines))

    def _show_missing(self, steps: NextSteps, today: date) -> None:
        part = self.missing
        earliest = wording_steps.earliest_words(steps, today)
        part.start(wording_steps.missing_title(steps), earliest)
        several = len(steps.gates) > 1
        for place, gate in enumerate(steps.gates):
            if several and (place or not wording_steps.tested(gate)):
                part.say(
                    wording_steps.gate_paragraph(gate, today),
                    Type.SMALL if place else Type.BODY,
                )
                continue
            part.say(wording_steps.gate_title(gate, today) if several else "", Type.SMALL)
            _show_gate(part, gate)
        if not steps.missing and steps.decision is not None:
            _show_results(part, steps.decision.criteria)
        part.finish()


def _move_words(steps: NextSteps, stage: str) -> str:
    """Return what the button does: against a proposal it says so."""
    if steps.back:
        return _("Go back a stage...")
    if steps.answer is Answer.MOVE_UP:
        return _("Open {stage}...").format(stage=stage)
    return _("Open {stage} anyway...").format(stage=stage)


def _show_gate(part: "_Part", gate: OpenGate) -> None:
    _show_results(part, wording_steps.tested(gate))
    part.say(wording_steps.untested_words(gate))


def _show_results(part: "_Part", results: Sequence[CriterionResult]) -> None:
    for result in results:
        mark = Mark(VERDICT_FILL[result.verdict])
        part.pair(short_words(result), open_words(result), mark)


class _Part(QWidget):
    """One answer under its heading; Tab reaches it, and it is read out as a whole.

    ``first`` is how wide the first column of a pair is where the second is 2; 0: as its words.
    """

    def __init__(self, first: int = 0) -> None:
        super().__init__()
        self._first = first
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.title, self.beside = text("", Type.TITLE), text("", Type.SMALL)
        self.beside.setWordWrap(True)
        self.top = QHBoxLayout()
        self.top.setSpacing(Space.NEAR)
        self.top.addWidget(self.title)
        self.top.addWidget(self.beside, 1)
        self._said: list[str] = []
        self._lines = QWidget()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(Space.HAIR)
        self._column.addLayout(self.top)
        self._column.addWidget(self._lines)

    def words(self) -> str:
        """Return everything it says."""
        return "\n".join(self._said)

    def start(self, title: str, beside: str = "") -> None:
        """Begin anew under another heading."""
        self.title.setText(title)
        self.beside.setText(beside)
        self._said = [title, beside] if beside else [title]
        self._column.removeWidget(self._lines)
        self._lines.hide()
        self._lines.deleteLater()
        self._lines = QWidget()
        self._grid = QGridLayout(self._lines)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(Space.NEAR)
        self._grid.setVerticalSpacing(0)
        self._grid.setColumnStretch(1, self._first)
        self._grid.setColumnStretch(2, 2)

    def say(self, words: str, role: Type = Type.BODY) -> None:
        """Add a line across the whole width; nothing for ""."""
        if words:
            label = _wrapped(words, role)
            self._grid.addWidget(label, self._grid.rowCount(), 0, 1, 3)
            self._said.append(words)

    def pair(self, what: str, how: str, mark: Mark | None = None) -> None:
        """Add a line of two: what it is, and beside it how it stands or is done."""
        row, top = self._grid.rowCount(), Qt.AlignmentFlag.AlignTop
        if mark is not None:
            self._grid.addWidget(mark, row, 0, top)
        first = 0 if mark is None else 1
        named = _wrapped(what, Type.BODY)
        named.setWordWrap(bool(self._first))
        self._grid.addWidget(named, row, first, 1, 2 - first)
        self._grid.addWidget(_wrapped(how, Type.SMALL), row, 2)
        self._said.append(f"{what}: {how}")

    def finish(self) -> None:
        """Show what was said since the start."""
        self._column.addWidget(self._lines)
        self._lines.show()
        self.setAccessibleName(self.words())

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.setBackgroundRole(self.palette().ColorRole.Highlight)
        self.setAutoFillBackground(True)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.setAutoFillBackground(False)


def _wrapped(words: str, role: Type) -> QLabel:
    label = text(words, role)
    label.setWordWrap(True)
    label.setAlignment(Qt.AlignmentFlag.AlignTop)
    return label
