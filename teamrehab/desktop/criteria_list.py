"""What stands between an athlete and the next stage: each criterion with its numbers."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.marks import VERDICT_FILL, Mark
from teamrehab.domain.decision import CriterionResult
from teamrehab.reports.wording_clinical import (
    criterion_sentence,
    inside_error_words,
    numbers_words,
    verdict_words,
)
from teamrehab.reports.wording_criteria import open_words, short_words


class CriteriaList(QWidget):
    """Criteria below each other, each one reachable by Tab and read out as one sentence.

    ``brief``: in few words, where there is little room.
    """

    def __init__(self, *, brief: bool = False) -> None:
        super().__init__()
        self._brief = brief
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(Space.NEAR)
        self.rows: list[CriterionRow] = []

    def show_results(self, results: Sequence[CriterionResult]) -> None:
        """Show these criteria; what is not met stands first."""
        for row in self.rows:
            self._column.removeWidget(row)
            row.deleteLater()
        ordered = sorted(results, key=lambda result: result.met)
        self.rows = [CriterionRow(result, brief=self._brief) for result in ordered]
        for row in self.rows:
            self._column.addWidget(row)


class CriterionRow(QWidget):
    """One criterion: its mark and word, what is asked, the numbers behind it, a remark."""

    def __init__(self, result: CriterionResult, *, brief: bool = False) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setAccessibleName(spoken(result))
        lines = QGridLayout(self)
        lines.setContentsMargins(Space.TIGHT, Space.HAIR, 0, Space.HAIR)
        lines.setHorizontalSpacing(Space.NEAR)
        lines.setVerticalSpacing(0)
        lines.addWidget(Mark(VERDICT_FILL[result.verdict]), 0, 0, Qt.AlignmentFlag.AlignTop)
        if brief:
            what, below = short_words(result), [open_words(result)]
        else:
            what, below = result.criterion.sentence, details(result)
            verdict = text(verdict_words(result.verdict))
            verdict.setFixedWidth(self.fontMetrics().averageCharWidth() * 13)
            lines.addWidget(verdict, 0, 1, Qt.AlignmentFlag.AlignTop)
        lines.addWidget(_wrapped(what, Type.BODY), 0, 2)
        for number, sentence in enumerate(below, start=1):
            lines.addWidget(_wrapped(sentence, Type.SMALL), number, 2)
        lines.setColumnStretch(2, 1)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.setBackgroundRole(self.palette().ColorRole.Highlight)
        self.setAutoFillBackground(True)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.setAutoFillBackground(False)


def details(result: CriterionResult) -> list[str]:
    """Return the lines below a criterion: numbers, their error, and what is to be said."""
    lines = []
    if result.evidence:
        lines.append("; ".join(numbers_words(result)))
    if result.inside_error:
        lines.append(inside_error_words(result))
    if result.remark:
        lines.append(result.remark)
    return lines


def spoken(result: CriterionResult) -> str:
    """Return a criterion as a screen reader says it, in one go."""
    return " ".join([criterion_sentence(result), *details(result)[1:]])


def _wrapped(words: str, role: Type) -> QLabel:
    label = text(words, role)
    label.setWordWrap(True)
    label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return label
