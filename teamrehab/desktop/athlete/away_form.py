"""Time away for a reason that is not medical: why, from when, and the last day if known."""

from typing import Any

from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.maybe import Maybe
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.availability import Absence, AbsenceReason
from teamrehab.language import _


class AwayForm(Form):
    """Makes an Absence; ``standing`` is one to be changed, such as a return brought forward."""

    def __init__(
        self, occasion: Occasion, standing: Absence | None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._occasion, self._standing = occasion, standing
        self._reason_words = _("&Reason")
        self.reason = Choice(_reasons())
        self.first = DayField(standing.on if standing else occasion.today)
        until = standing.until if standing else None
        self.last = Maybe(
            DayField(until or occasion.today), _("known"), ticked=until is not None
        )
        self.add(self._reason_words, self.reason, _("the coach reads this reason"))
        self.add(_("&First day away"), self.first)
        self.add(_("&Last day away"), self.last, names=(_("Until"),))
        if standing is not None:
            self.reason.choose(standing.reason)

    @property
    @override
    def title(self) -> str:
        return _("Away")

    @property
    @override
    def save_words(self) -> str:
        return _("Note that {name} is away").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        reason = reading.answer(self.reason, self._reason_words)
        reading.finish()
        absence = Absence(
            absence_id=self._standing.absence_id if self._standing else self._occasion.new_id(),
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.first.day,
            reason=reason or AbsenceReason.OTHER,
            until=self.last.field.day if self.last.ticked else None,
        )
        return (absence,)


def _reasons() -> list[tuple[AbsenceReason, str]]:
    return [
        (AbsenceReason.SUSPENDED, _("suspended")),
        (AbsenceReason.NATIONAL_TEAM, _("national team")),
        (AbsenceReason.PERSONAL, _("personal")),
        (AbsenceReason.OTHER, _("other")),
    ]
