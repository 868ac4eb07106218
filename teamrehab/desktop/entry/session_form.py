"""One session as it was done: kind, minutes, effort, symptom, limp. Nothing is filled in."""

from typing import Any

from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.parts import SymptomField
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.forms import ChoiceField, NumberField
from teamrehab.domain.measures import SessionEntry, SessionKind
from teamrehab.language import _


class SessionForm(Form):
    """Notes a session or, with ``correcting``, rewrites one."""

    def __init__(
        self,
        occasion: Occasion,
        correcting: SessionEntry | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._correcting = occasion, correcting
        self._session_id = correcting.session_id if correcting else occasion.new_id()
        self.day = DayField(correcting.on if correcting else occasion.today)
        self.add(_("&Day"), self.day)
        self._add_fields()
        if correcting is not None:
            self._fill(correcting)

    @property
    @override
    def title(self) -> str:
        return _("Correct a session") if self._correcting else _("Session done")

    @property
    @override
    def save_words(self) -> str:
        name = self._occasion.athlete.name
        if self._correcting:
            return _("Save the corrected session of {name}").format(name=name)
        return _("Save the session of {name}").format(name=name)

    @override
    def values(self) -> tuple[Any, ...]:
        if not self.touched and self._correcting is None:
            return ()
        reading = Reading()
        kind = reading.chosen(self.kind, self._kind_words)
        limp = reading.answer(self.limp, self._limp_words)
        painkiller = reading.answer(self.painkiller, self._painkiller_words)
        symptom = reading.symptom(self.symptom)
        entry = SessionEntry(
            session_id=self._session_id,
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.day.day,
            kind=kind or SessionKind.REHAB,
            minutes=self.minutes.value,
            effort=self.effort.value,
            symptom=symptom,
            limp=bool(limp),
            painkiller=bool(painkiller),
        )
        reading.finish((entry,))
        return (entry,)

    def _add_fields(self) -> None:
        self._kind_words, self._limp_words = _("&Kind"), _("&Limp during or after")
        self._painkiller_words = _("&Painkiller in the last 24 h")
        self.kind: ChoiceField[SessionKind] = ChoiceField(_kinds())
        self.minutes, self.effort = NumberField(_("min")), NumberField(_("0 to 10"))
        self.limp = Choice([(False, _("no")), (True, _("yes"))])
        self.painkiller = Choice([(False, _("no")), (True, _("yes"))])
        self.add(self._kind_words, self.kind)
        self.add(_("&Minutes"), self.minutes)
        self.add(_("&Effort (RPE)"), self.effort, _("as the athlete says, 0 to 10"))
        self.symptom = SymptomField(self, _("&Symptom"))
        self.add(self._limp_words, self.limp)
        self.add(self._painkiller_words, self.painkiller)

    def _fill(self, entry: SessionEntry) -> None:
        self.kind.show_value(entry.kind)
        self.minutes.show_value(entry.minutes)
        self.effort.show_value(entry.effort)
        self.symptom.fill(entry.symptom)
        for field, answer in ((self.limp, entry.limp), (self.painkiller, entry.painkiller)):
            if answer is not None:
                field.choose(answer)


def session_words(kind: SessionKind) -> str:
    """Return where an athlete trained, in words."""
    return dict(_kinds())[kind]


def _kinds() -> list[tuple[SessionKind, str]]:
    return [
        (SessionKind.REHAB, _("rehab session")),
        (SessionKind.TEAM_WITH_LIMITS, _("team session with limits")),
        (SessionKind.TEAM_FULL, _("full team session")),
    ]
