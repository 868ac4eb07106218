"""Where the athlete stands, what is missing for the next stage, and what is proposed."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.stage_path import StagePath
from teamrehab.desktop.buttons import main_button, plain_button, quiet_button
from teamrehab.desktop.criteria_list import CriteriaList
from teamrehab.domain.decision import Decision, Proposal
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _
from teamrehab.reports.wording_clinical import proposal_sentence


class Progress(QWidget):
    """``moving`` asks for a stage to be opened, ``clearing`` for a signature.

    ``diagnosing`` asks for a protocol where the case follows none, ``reading`` for the text
    of the one it follows.
    """

    moving = Signal()
    clearing = Signal()
    diagnosing = Signal()
    reading = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.path, self.criteria = StagePath(), CriteriaList()
        self.proposal, self.cautions = text("", Type.LEAD), text("", Type.SMALL)
        self.missing = text("", Type.SMALL)
        for label in (self.proposal, self.cautions, self.missing):
            label.setWordWrap(True)
        self.move_on = plain_button("", self.moving.emit)
        self.sign = plain_button(_("Sign a clearance..."), self.clearing.emit)
        self.read = quiet_button("", self.reading.emit)
        self.diagnose = main_button(_("Diagnosis and protocol..."), self.diagnosing.emit)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.read, 0, Qt.AlignmentFlag.AlignLeft)
        for part in (
            self.read,
            self.path,
            self.proposal,
            self.missing,
            self.criteria,
            self.cautions,
        ):
            column.addWidget(part)
        for button in (self.move_on, self.sign, self.diagnose):
            column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)

    def show_decision(self, decision: Decision | None, protocol: Protocol | None) -> None:
        """Show a decision by ``protocol``; both are None where the case follows none."""
        self._show_parts(decision)
        if decision is None or protocol is None:
            self.proposal.setText(_("No protocol yet: nothing is proposed."))
            return
        self.read.setText(_("Protocol: {name}").format(name=protocol.name))
        names = tuple(stage.name for stage in protocol.stages)
        self.path.show_stages(names, decision.stage)
        self.proposal.setText(proposal_sentence(decision))
        self.missing.setText(_asked_words(decision))
        self.criteria.show_results(decision.criteria)
        self.cautions.setText("\n".join(decision.cautions))
        self.move_on.setText(_("Open {stage}...").format(stage=decision.next_name))

    def _show_parts(self, decision: Decision | None) -> None:
        for part in (self.path, self.missing, self.criteria, self.cautions):
            part.setVisible(decision is not None)
        last = decision is not None and not decision.next_name
        self.move_on.setVisible(decision is not None and not last)
        self.sign.setVisible(last)
        self.diagnose.setVisible(decision is None)


def _asked_words(decision: Decision) -> str:
    """Return what the list below says: why the athlete moves up, or why not."""
    if decision.proposal is Proposal.MOVE_UP:
        return _("Why {stage} can be opened").format(stage=decision.next_name)
    if not decision.next_name:
        return _("What sign-off asks for")
    return _("What {stage} asks for").format(stage=decision.next_name)
