"""A sentence the athlete agreed to have on the sheet: typed, never filled in."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from PySide6.QtWidgets import QCheckBox, QWidget
from typing_extensions import override

from teamrehab.desktop.entry.coach_words import CoachWords
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.typed import Reading, TypedError
from teamrehab.desktop.forms import ChoiceField, without_mnemonic
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.plausibility import Implausible
from teamrehab.domain.sheets import Disclosed
from teamrehab.language import _


class DisclosedForm(Form):
    """Athlete, sentence, consent; whoever is at the desk took the consent."""

    def __init__(
        self,
        athletes: Sequence[Athlete],
        today: date,
        valid_until: date,
        me: str,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._today, self._me = today, me
        self._athlete_words, self._consent_words = _("&Athlete"), _("&Consent")
        names = [(a.athlete_id, a.name) for a in athletes]
        self.athlete: ChoiceField[str] = ChoiceField(names)
        self.add(self._athlete_words, self.athlete)
        self.sentence = CoachWords(self, _("&Sentence for the coach"))
        self.until = DayField(valid_until)
        self.add(_("&Until"), self.until)
        self.consent = QCheckBox(
            _("The athlete agreed to this sentence, today, without pressure")
        )
        self.add(self._consent_words, self.consent)
        self.consent.setAccessibleName(self.consent.text())

    @property
    @override
    def title(self) -> str:
        return _("A sentence the athlete agreed to")

    @property
    @override
    def save_words(self) -> str:
        return _("Put it on the sheet")

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        athlete_id = reading.chosen(self.athlete, self._athlete_words)
        sentence = reading.words(self.sentence, _("&Sentence for the coach"))
        reading.finish()
        troubles = self.sentence.troubles()
        missing = [] if self.consent.isChecked() else [self._no_consent()]
        if troubles or missing:
            raise TypedError(troubles, missing)
        agreed = Disclosed(
            athlete_id=athlete_id or "",
            on=self._today,
            until=self.until.day,
            sentence=sentence,
            consent_taken_by=self._me,
        )
        return (agreed,)

    def _no_consent(self) -> Implausible:
        return Implausible(
            field=without_mnemonic(self._consent_words),
            value=_("not given"),
            allowed=_("a sentence needs the athlete's consent"),
            remedy=_("Ask the athlete, or leave the sentence out."),
        )
