"""One session as it was done: kind, minutes, effort, symptom, limp. Nothing is filled in."""

from collections.abc import Collection
from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtWidgets import QCheckBox, QWidget
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
    """Notes a session or, with ``correcting``, rewrites what it asks for of one.

    Limp and painkiller start at "not asked"; what else is known of a corrected session stays.
    ``others`` are the days that have an entry: another one needs a tick.
    """

    def __init__(
        self,
        occasion: Occasion,
        correcting: SessionEntry | None = None,
        others: Collection[date] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._correcting, self._others = occasion, correcting, others
        self._session_id = correcting.session_id if correcting else occasion.new_id()
        self.day = DayField(correcting.on if correcting else occasion.today)
        self.add(_("&Day"), self.day)
        self._add_second()
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
        entry = replace(
            self._correcting or self._fresh(),
            on=self.day.day,
            kind=kind or SessionKind.REHAB,
            minutes=self.minutes.value,
            effort=self.effort.value,
            symptom=reading.symptom(self.symptom),
            limp=self.limp.value(),
            painkiller=self.painkiller.value(),
        )
        reading.finish((entry,))
        return (entry,)

    @property
    def is_second(self) -> bool:
        """Return whether another session of that day is meant beside the one that stands."""
        return self.second.isChecked() and self.rows.isRowVisible(self._second)

    def _add_second(self) -> None:
        self.second = QCheckBox(_("There is an entry of this day: this was another session"))
        self._second = self.add(_("&Second session"), self.second)
        self.day.dateChanged.connect(self._ask_whether_second)
        self._ask_whether_second()

    def _ask_whether_second(self) -> None:
        taken = self._correcting is None and self.day.day in self._others
        self.rows.setRowVisible(self._second, taken)

    def _fresh(self) -> SessionEntry:
        """Return a session of which nothing is known yet."""
        return SessionEntry(
            session_id=self._session_id,
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.day.day,
            kind=SessionKind.REHAB,
        )

    def _add_fields(self) -> None:
        self._kind_words = _("&Kind")
        self.kind: ChoiceField[SessionKind] = ChoiceField(_kinds())
        self.minutes, self.effort = NumberField(_("min")), NumberField(_("0 to 10"))
        self.limp, self.painkiller = _asked_or_not(), _asked_or_not()
        self.add(self._kind_words, self.kind)
        self.add(_("&Minutes"), self.minutes)
        self.add(_("&Effort (RPE)"), self.effort, _("as the athlete says, 0 to 10"))
        self.symptom = SymptomField(self, _("&Symptom"))
        self.add(_("&Limp during or after"), self.limp)
        self.add(_("&Painkiller in the last 24 h"), self.painkiller)

    def _fill(self, entry: SessionEntry) -> None:
        self.kind.show_value(entry.kind)
        self.minutes.show_value(entry.minutes)
        self.effort.show_value(entry.effort)
        self.symptom.fill(entry.symptom)
        self.limp.choose(entry.limp)
        self.painkiller.choose(entry.painkiller)


def session_words(kind: SessionKind) -> str:
    """Return where an athlete trained, in words."""
    return dict(_kinds())[kind]


def _asked_or_not() -> Choice[bool | None]:
    return Choice([(False, _("no")), (True, _("yes")), (None, _("not asked"))], at_first=2)


def _kinds() -> list[tuple[SessionKind, str]]:
    return [
        (SessionKind.REHAB, _("rehab session")),
        (SessionKind.TEAM_WITH_LIMITS, _("team session with limits")),
        (SessionKind.TEAM_FULL, _("full team session")),
    ]
