"""How the criteria answer to what is being typed, before anything is saved."""

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.criteria_list import CriteriaList
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.domain.decision import Decision
from teamrehab.domain.formulas import symmetry_index
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import HeelRaiseTest, HopTest, JumpTest, Knee, KneeToWallTest
from teamrehab.language import _
from teamrehab.reports.wording_clinical import proposal_sentence, symmetry_words

Answer = Callable[[Sequence[Any]], Decision | None]
"""Gives the decision as it would be if these values were saved; None without a protocol."""

CanStand = Callable[[Sequence[Any]], bool]
"""Says whether nothing about these values is implausible."""


class LiveAnswer(QWidget):
    """Symmetry and criteria beside a form; follows every key.

    ``brief``: in few words. ``caution`` stands first, whatever is typed.
    """

    def __init__(
        self,
        form: Form,
        injured: Side,
        answer: Answer,
        can_stand: CanStand,
        *,
        brief: bool = False,
        caution: str = "",
    ) -> None:
        super().__init__()
        self._form, self._injured = form, injured
        self._answer, self._can_stand = answer, can_stand
        self.symmetry = text("", Type.LEAD)
        self.symmetry.setWordWrap(True)
        self.proposal = text("")
        self.proposal.setWordWrap(True)
        self.criteria = CriteriaList(brief=brief)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        if caution:
            self.caution = text(caution)
            self.caution.setWordWrap(True)
            column.addWidget(self.caution)
        self.heading = text(_("If saved as typed"), Type.SMALL)
        column.addWidget(self.heading)
        for part in (self.symmetry, self.proposal, self.criteria):
            column.addWidget(part)
        column.addStretch(1)
        form.edited.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Answer to what stands in the form now; an unreadable form keeps the last answer."""
        try:
            values = self._form.values_so_far()
        except TypedError:
            return
        sound = self._can_stand(values)
        self.criteria.setVisible(sound)
        if not sound:
            self.symmetry.hide()
            self.proposal.setText(_("Cannot be judged until it is corrected."))
            self.proposal.show()
            self.heading.show()
            return
        self.symmetry.setText("\n".join(symmetry_sentences(values, self._injured)))
        self.symmetry.setVisible(bool(self.symmetry.text()))
        decision = self._answer(values)
        self.proposal.setVisible(decision is not None)
        self.heading.setVisible(decision is not None or bool(self.symmetry.text()))
        if decision is not None:
            self.proposal.setText(proposal_sentence(decision))
            self.criteria.show_results(decision.criteria)


def symmetry_sentences(values: Sequence[Any], injured: Side) -> list[str]:
    """Return the symmetry index of each test of both legs, the injured over the other."""
    sentences = []
    for value in values:
        match value:
            case HeelRaiseTest(left=left, right=right) if left and right:
                counts = {Side.LEFT: left.repetitions, Side.RIGHT: right.repetitions}
                bent = value.knee is Knee.BENT
                name = _("Heel raises, knee bent") if bent else _("Heel raises")
                sentences.append(_symmetry(name, counts, injured))
            case HopTest(left=left, right=right) if left and right:
                counts = {Side.LEFT: left.hops, Side.RIGHT: right.hops}
                sentences.append(_symmetry(_("Hops"), counts, injured))
            case JumpTest(left_mm=int() as left, right_mm=int() as right):
                lengths = {Side.LEFT: left, Side.RIGHT: right}
                sentences.append(_symmetry(_("Single-leg jump"), lengths, injured))
            case KneeToWallTest(left_mm=int() as left, right_mm=int() as right):
                lengths = {Side.LEFT: left, Side.RIGHT: right}
                sentences.append(_symmetry(_("Knee to wall"), lengths, injured))
            case _:
                continue
    return sentences


def _symmetry(test: str, counts: dict[Side, int], injured: Side) -> str:
    involved = injured if injured in counts else Side.LEFT
    index = symmetry_index(counts[involved], counts[involved.other])
    if index is None:
        return _("{test}: no symmetry index of {one} and 0").format(
            test=test, one=counts[involved]
        )
    return symmetry_words(test, index, injured=injured in counts)
