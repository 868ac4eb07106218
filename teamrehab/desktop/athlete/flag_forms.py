"""Red flags: raised by whoever sees one, closed by a named doctor."""

from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Type, as_type, text
from teamrehab.desktop.athlete.flag_words import meanwhile_words, what_to_do
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.language import _

_LINES = 4
"""Room for what is done now, at either urgency."""


class RedFlagForm(Form):
    """Notes a sign that needs a doctor before anything else is loaded."""

    def __init__(self, occasion: Occasion, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._occasion = occasion
        self._flag_id = occasion.new_id()
        self._what_words, self._urgency_words = _("&What was seen"), _("&How soon")
        self.what = QLineEdit()
        hint = _("clinical; never on the coach's sheet")
        self.add(self._what_words, self.what, hint, names=(_("What happened"),))
        self.urgency = Choice(
            [
                (Urgency.EMERGENCY, _("emergency now")),
                (Urgency.SAME_DAY, _("doctor the same day")),
            ]
        )
        self.add(self._urgency_words, self.urgency)
        self.to_do = text("\n".join(what_to_do(each) for each in Urgency))
        self.to_do.setWordWrap(True)
        self.to_do.setMinimumHeight(_LINES * self.fontMetrics().lineSpacing())
        self.rows.addRow(self.to_do)
        meanwhile = _("From then on: {meanwhile}").format(meanwhile=meanwhile_words())
        self.meanwhile = text(meanwhile)
        self.meanwhile.setWordWrap(True)
        self.rows.addRow(self.meanwhile)
        self.urgency.chosen.connect(self._say)

    def _say(self) -> None:
        if (urgency := self.urgency.value()) is not None:
            self.to_do.setText(what_to_do(urgency))
            as_type(self.to_do, Type.COMPLAINT)

    @property
    @override
    def title(self) -> str:
        return _("Red flag")

    @property
    @override
    def save_words(self) -> str:
        return _("Raise the red flag for {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        what = reading.words(self.what, self._what_words)
        urgency = reading.answer(self.urgency, self._urgency_words)
        reading.finish()
        flag = RedFlag(
            flag_id=self._flag_id,
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self._occasion.today,
            what=what,
            urgency=urgency or Urgency.EMERGENCY,
        )
        return (flag,)


class CloseFlagForm(Form):
    """Closes a red flag in the name of the doctor who saw the athlete."""

    def __init__(
        self, occasion: Occasion, flag: RedFlag, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._occasion, self._flag = occasion, flag
        self.add_heading(flag.what)
        self._doctor_words = _("&Doctor who saw the athlete")
        self.doctor = QLineEdit()
        self.add(self._doctor_words, self.doctor)

    @property
    @override
    def title(self) -> str:
        return _("Close a red flag")

    @property
    @override
    def save_words(self) -> str:
        return _("Close the red flag of {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        doctor = reading.words(self.doctor, self._doctor_words)
        reading.finish()
        return (replace(self._flag, closed_on=self._occasion.today, closed_by=doctor),)
