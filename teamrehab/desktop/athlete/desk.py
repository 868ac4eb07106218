"""What is asked for, of whom, and by whom: a form, how it is saved, and the desk it lies on."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.portrait import Portrait
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.safety_questions import Watched
from teamrehab.domain.athletes import StaffMember
from teamrehab.domain.cautions import match_day_caution
from teamrehab.domain.history import History

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt

Save = Callable[["Casebook"], "Receipt"]


@dataclass(frozen=True, slots=True)
class Asked:
    """A form, how its values are saved, and what answers beside it while one types.

    ``saving`` is called on the window's thread; what it returns runs on the casebook's.
    ``next`` is what is offered once it is saved. ``watched`` asks the four questions before.
    """

    form: Form
    saving: Callable[[tuple[Any, ...]], Save]
    beside: QWidget | None = None
    next: Act | None = None
    watched: Watched | None = None


@dataclass(frozen=True, slots=True)
class Desk:
    """Where one asks: the portrait on the page, for what, who is at the desk, and when.

    ``now`` is aware, in the club's zone.
    """

    portrait: Portrait
    occasion: Occasion
    me: StaffMember
    now: datetime

    @property
    def match_day(self) -> str:
        """Return that nothing is tested to the limit that day, "" where no match is near."""
        return match_day_caution(self.portrait.squad.fixtures, self.occasion.today)

    @property
    def history(self) -> History:
        """Return the case on the page; asked only where there is one."""
        if self.portrait.history is None:
            raise LookupError("asked of a case where there is none")
        return self.portrait.history
