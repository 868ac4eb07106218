"""Another level than the one proposed: a person decides, and says why."""

from typing import Any

from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Type, prose
from teamrehab.desktop.athlete.reason_field import ReasonField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.forms import ChoiceField
from teamrehab.domain.injuries import LevelMoved
from teamrehab.domain.levels import LevelProposal
from teamrehab.language import _


class LevelForm(Form):
    """Starts at the level the athlete works at: nothing moves unless it is chosen."""

    def __init__(
        self, occasion: Occasion, proposal: LevelProposal, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._occasion, self._proposal = occasion, proposal
        self.rows.addRow(prose(proposal.reason, Type.LEAD))
        levels = [
            (number, _("{number} {level}").format(number=number, level=level.name))
            for number, level in enumerate(proposal.ladder.levels, start=1)
        ]
        self.level = ChoiceField(levels, chosen=proposal.level)
        self.add(_("&Level"), self.level)
        self.why = ReasonField(self, _("needed where it goes against the proposal"))

    @property
    @override
    def title(self) -> str:
        return _("{ladder}: decide the level").format(ladder=self._proposal.ladder.name)

    @property
    @override
    def save_words(self) -> str:
        return _("Set the level of {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        moved = LevelMoved(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self._occasion.today,
            ladder=self._proposal.ladder.key,
            level=self.level.value or self._proposal.level,
            proposed=self._proposal.proposed,
            why=self.why.words,
        )
        return (moved,) if self.touched else ()
