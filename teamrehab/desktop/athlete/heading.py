"""Who the page is about, and what the athlete may do today."""

from datetime import date, datetime

from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.marks import MATCH_FILL, TRAINING_FILL, Mark
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Availability
from teamrehab.language import _
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.wording import (
    absence_words,
    day_words,
    match_sentence,
    moment_words,
    training_words,
)
from teamrehab.reports.wording_limits import limits_words


class Heading(QWidget):
    """Number and name, age and position, and the two answers with their limits."""

    def __init__(self) -> None:
        super().__init__()
        self.name, self.about = text("", Type.DISPLAY), text("", Type.SMALL)
        self.training, self.match = text(""), text("")
        self.limits = text("", Type.SMALL)
        self._training_mark = Mark(TRAINING_FILL[Availability().training])
        self._match_mark = Mark(MATCH_FILL[Availability().match])
        self.name.setWordWrap(True)
        self.limits.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.HAIR)
        who = QHBoxLayout()
        who.setSpacing(Space.APART)
        who.addWidget(self.name, 1)
        who.addWidget(self.about)
        column.addLayout(who)
        column.addLayout(self._answers())

    def show_athlete(
        self, athlete: Athlete, row: SquadRow, today: date, now: datetime | None
    ) -> None:
        """Show who it is and what is allowed; ``now`` is the club's wall time."""
        self.name.setText(_name(athlete))
        self.about.setText(" · ".join(_about(athlete, today)))
        allowed = row.availability
        self._training_mark.show_fill(TRAINING_FILL[allowed.training])
        self._match_mark.show_fill(MATCH_FILL[allowed.match])
        self.training.setText(
            _("Training: {answer}").format(answer=training_words(allowed.training))
        )
        self.match.setText(_("Match: {answer}").format(answer=match_sentence(allowed)))
        self.limits.setText(" · ".join(_allowed(allowed, now)))

    def _answers(self) -> QHBoxLayout:
        line = QHBoxLayout()
        line.setSpacing(Space.TIGHT)
        for mark, words in (
            (self._training_mark, self.training),
            (self._match_mark, self.match),
        ):
            pair = QGridLayout()
            pair.setHorizontalSpacing(Space.TIGHT)
            pair.addWidget(mark, 0, 0)
            pair.addWidget(words, 0, 1)
            line.addLayout(pair)
            line.addSpacing(Space.APART)
        line.addWidget(self.limits, 1)
        return line


def _name(athlete: Athlete) -> str:
    if athlete.number is None:
        return athlete.name
    return _("{number} {name}").format(number=athlete.number, name=athlete.name)


def _about(athlete: Athlete, today: date) -> list[str]:
    age = athlete.age_on(today)
    told = []
    if age is not None:
        minor = athlete.is_minor_on(today)
        years = _("{age} years, under 18") if minor else _("{age} years")
        told.append(years.format(age=age))
    return [*told, athlete.position] if athlete.position else told


def _allowed(allowed: Availability, now: datetime | None) -> list[str]:
    """Return limits, their end, the next word (or when it was due), why someone is away."""
    told = [limits_words(allowed.limits)] if allowed.limits else []
    if allowed.until is not None:
        told.append(_("until {day}").format(day=day_words(allowed.until)))
    if allowed.next_update is not None:
        told.append(_update(allowed.next_update, now))
    if allowed.absence is not None:
        told.append(_("away: {why}").format(why=absence_words(allowed.absence, allowed.until)))
    if allowed.unsettled:
        told.append(_("two versions stand: the more restrictive one counts until settled"))
    return told


def _update(due: datetime, now: datetime | None) -> str:
    past = now is not None and due.replace(tzinfo=None) < now.replace(tzinfo=None)
    message = _("next update was due {when}") if past else _("next update {when}")
    return message.format(when=moment_words(due))
