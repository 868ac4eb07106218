"""Opening a stage, or going back to one: a person decides, and says why against a proposal."""

from typing import Any

from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.desktop.athlete.reason_field import ReasonField
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.forms import ChoiceField
from teamrehab.domain.decision import Decision
from teamrehab.domain.injuries import StageMoved
from teamrehab.language import _
from teamrehab.reports.wording_clinical import proposal_sentence


class MoveForm(Form):
    """Confirms in words which stage is opened for whom; ``chosen`` stands there first."""

    def __init__(
        self,
        occasion: Occasion,
        decision: Decision,
        names: tuple[str, ...],
        chosen: int,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._decision, self._names = occasion, decision, names
        self.add_heading(proposal_sentence(decision))
        self.day = DayField(occasion.today)
        self.add(_("&Day"), self.day)
        stages = [(n, _numbered(n, name)) for n, name in enumerate(names, start=1)]
        self.stage = ChoiceField(stages, chosen=chosen)
        self.add(_("&Stage to open"), self.stage)
        self.why = ReasonField(self, _("needed where it goes against the proposal"))

    @property
    @override
    def title(self) -> str:
        return _("Open a stage")

    @property
    @override
    def save_words(self) -> str:
        return _("Open it for {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        moved = StageMoved(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.day.day,
            stage=self.stage.value or self._decision.stage,
            proposed=self._decision.proposed_stage,
            why=self.why.words,
        )
        return (moved,)


def _numbered(number: int, name: str) -> str:
    return _("{number} {stage}").format(number=number, stage=name)
