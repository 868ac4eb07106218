"""The course of the case: the stages, and every criterion of the next gate with its numbers."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.stage_path import StagePath
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.criteria_list import CriteriaList
from teamrehab.domain.decision import Decision, Proposal
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _


class Progress(QWidget):
    """``reading`` asks for the text of the protocol the case follows."""

    reading = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.path, self.criteria = StagePath(), CriteriaList()
        self.missing, self.cautions = text("", Type.SMALL), text("", Type.SMALL)
        for label in (self.missing, self.cautions):
            label.setWordWrap(True)
        self.read = quiet_button("", self.reading.emit)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.read, 0, Qt.AlignmentFlag.AlignLeft)
        for part in (self.path, self.missing, self.criteria, self.cautions):
            column.addWidget(part)
        column.addStretch(1)

    def show_decision(self, decision: Decision, protocol: Protocol) -> None:
        """Show a decision by ``protocol``."""
        self.read.setText(_("Protocol: {name}").format(name=protocol.name))
        names = tuple(stage.name for stage in protocol.stages)
        self.path.show_stages(names, decision.stage)
        self.missing.setText(_asked_words(decision))
        self.criteria.show_results(decision.criteria)
        self.cautions.setText("\n".join(decision.cautions))


def _asked_words(decision: Decision) -> str:
    """Return what the list below says: why the athlete moves up, or why not."""
    if decision.proposal is Proposal.MOVE_UP:
        return _("Why {stage} can be opened").format(stage=decision.next_name)
    if not decision.next_name:
        return _("What sign-off asks for")
    return _("What {stage} asks for").format(stage=decision.next_name)
