"""What a case allows from a day on: training, matches, limits, until when, next word."""

from datetime import datetime
from typing import Any

from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.desktop.athlete.limits_part import LimitsPart
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.coach_words import CoachWords
from teamrehab.desktop.entry.day_field import DayField, MomentField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.maybe import Maybe
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading, TypedError
from teamrehab.desktop.forms import NumberField, without_mnemonic
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.implausible import Implausible
from teamrehab.domain.protocol import Stage
from teamrehab.language import _
from teamrehab.reports.wording import moment_words


class AvailabilityForm(Form):
    """States availability; starts from what was stated last, because that is a plan.

    Days and moments that have passed are no plan: they are left open. Where no limits were
    stated, nothing is allowed until a person opens it. ``stage`` is the open one of the case's
    protocol, ``now`` the club's wall time.
    """

    def __init__(
        self,
        occasion: Occasion,
        now: datetime,
        before: AvailabilityStated | None = None,
        stage: Stage | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._now = occasion, now.replace(tzinfo=None)
        self.day = DayField(occasion.today)
        self.add(_("&From"), self.day)
        self._training_words, self._match_words = _("&Training"), _("&Match")
        self._update_words = _("Next &update")
        self.training = Choice(training_answers())
        self.match = Choice(match_answers())
        self.add(self._training_words, self.training)
        self.limits = LimitsPart(self, stage)
        self.add(self._match_words, self.match)
        self.minutes = NumberField(_("min"))
        self._minutes_row = self.add(_("Minutes in the match"), self.minutes)
        self.role = CoachWords(self, _("Role in the match"))
        self._add_days(before)
        self.training.chosen.connect(self._show_limits)
        self.match.chosen.connect(self._show_limits)
        if before is not None:
            self._fill(before)
        self._show_limits()

    @property
    @override
    def title(self) -> str:
        return _("Availability and limits")

    @property
    @override
    def save_words(self) -> str:
        return _("State availability of {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        training = reading.answer(self.training, self._training_words)
        match = reading.answer(self.match, self._match_words)
        reading.finish()
        troubles = self._update_troubles()
        if match is Match.LIMITED:
            troubles += self.role.troubles()
        if troubles:
            raise TypedError(troubles)
        with_limits = training is Training.WITH_LIMITS
        limited = match is Match.LIMITED
        stated = AvailabilityStated(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.day.day,
            training=training or Training.NONE,
            match=match or Match.NOT_AVAILABLE,
            limits=self.limits.limits() if with_limits else (),
            until=self.until.field.day if self.until.ticked else None,
            match_minutes=self.minutes.value if limited else None,
            match_role=self.role.words if limited else "",
            next_update=self.update_at.field.moment if self.update_at.ticked else None,
        )
        return (stated,)

    def _add_days(self, before: AvailabilityStated | None) -> None:
        today = self._occasion.today
        until = before.until if before and before.until and before.until >= today else None
        told = before.next_update if before else None
        was_due = told if told is not None and told < self._now else None
        told = None if was_due else told
        self.until = Maybe(DayField(until or today), ticked=until is not None)
        next_word = MomentField((told or today), told.hour if told else 12)
        self.update_at = Maybe(next_word, ticked=told is not None)
        self.add(_("&Until"), self.until)
        due = _("was due {moment}").format(moment=moment_words(was_due)) if was_due else ""
        self.add(self._update_words, self.update_at, due)

    def _update_troubles(self) -> list[Implausible]:
        """Say that a moment which has passed is no promise to the coach."""
        if not self.update_at.ticked or self.update_at.field.moment >= self._now:
            return []
        passed = Implausible(
            field=without_mnemonic(self._update_words),
            value=moment_words(self.update_at.field.moment),
            allowed=_("this moment has passed"),
            remedy=_("Set a coming one, or untick it."),
        )
        return [passed]

    def _fill(self, before: AvailabilityStated) -> None:
        self.training.choose(before.training)
        self.match.choose(before.match)
        self.minutes.show_value(before.match_minutes)
        self.role.setText(before.match_role)
        if before.training is Training.WITH_LIMITS:
            self.limits.fill(before.limits)

    def _show_limits(self) -> None:
        self.limits.show_for(self.training.value())
        limited = self.match.value() is Match.LIMITED
        for part in (self._minutes_row, self.role.row):
            self.rows.setRowVisible(part, limited)


def training_answers() -> list[tuple[Training, str]]:
    """Return the answers for training as they are asked."""
    return [
        (Training.FULL, _("full")),
        (Training.WITH_LIMITS, _("with limits")),
        (Training.NONE, _("none")),
    ]


def training_hint() -> str:
    """Return what the answer says of matches where a case begins."""
    return _("full: matches stay available; otherwise they are to be decided")


def match_answers() -> list[tuple[Match, str]]:
    """Return the answers for matches as they are asked."""
    return [
        (Match.AVAILABLE, _("available")),
        (Match.LIMITED, _("limited")),
        (Match.UNDECIDED, _("decision on a date")),
        (Match.NOT_AVAILABLE, _("not available")),
    ]
