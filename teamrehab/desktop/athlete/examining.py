"""The examination as it is asked for from the athlete's page, and what is offered after it."""

from typing import Any

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMessageBox, QWidget

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.desk import Asked, Desk, Save
from teamrehab.desktop.athlete.examination_form import ExaminationForm
from teamrehab.desktop.athlete.intake_panel import IntakePanel, fitting, muscle_names
from teamrehab.desktop.athlete.observing import watched
from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.language import _
from teamrehab.protocols import body_areas
from teamrehab.tasks.examining import note_examination


def examination(desk: Desk, correcting: Examination | None = None) -> Asked:
    """Return the form of an examination with what its findings point to beside it."""
    history, portrait = desk.history, desk.portrait
    baseline = (fact.value for fact in portrait.baseline)
    form = ExaminationForm(
        desk.occasion,
        body_areas(),
        history.case,
        cases=[h.case for h in (*portrait.cases, *portrait.earlier)],
        earlier=[value for value in baseline if isinstance(value, EarlierInjury)],
        correcting=correcting,
    )
    panel = IntakePanel(
        form,
        form.examination,
        fitting(history, portrait.protocols, portrait.catalogue),
        muscle_names(portrait.catalogue),
    )

    def saving(values: tuple[Any, ...]) -> Save:
        return lambda book: note_examination(book, history, values)

    offered = Act.DIAGNOSIS if history.diagnosis is None and correcting is None else None
    return Asked(form, saving, panel, offered, watched(desk))


class DiagnosisOffer(QMessageBox):
    """Offers the diagnosis after an examination; ``clickedButton()`` is ``now`` where taken."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(_("The examination is saved. What is the problem held to be?"))
        self.now = self.addButton(
            _("Diagnosis and protocol... (Ctrl+D)"), QMessageBox.ButtonRole.AcceptRole
        )
        self.now.setShortcut(QKeySequence("Ctrl+D"))
        self.later = self.addButton(_("Not now (Esc)"), QMessageBox.ButtonRole.RejectRole)
        self.setDefaultButton(self.now)
        self.setEscapeButton(self.later)
