"""What is asked of anyone who comes up at the end of the evening: who, and tomorrow."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.athlete.availability_form import training_answers, training_hint
from teamrehab.desktop.athlete.limits_part import LimitsPart
from teamrehab.desktop.athlete.onset_forms import REASSESS_AFTER
from teamrehab.desktop.athlete.onset_parts import ExpectedField, OnsetFlags
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import MomentField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.pick import Candidate, Pick
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Training
from teamrehab.language import _

REASSESS_HOUR = 12
"""The hour at which a new complaint is looked at again, unless another is typed."""


class AnyoneForm(Form):
    """Asks who and what tomorrow allows; each answer by key leads to the next question.

    ``known`` words by athlete id what is open already: the same complaint is not begun twice.
    """

    def __init__(
        self,
        athletes: Sequence[Athlete],
        known: Mapping[str, str],
        today: date,
        new_id: Callable[[], str],
    ) -> None:
        super().__init__()
        self.today, self._known = today, known
        self.case_id, self._flag_id = new_id(), new_id()
        self._who_words, self._training_words = _("&Who"), _("Can &train tomorrow")
        self.whom, self.already = text("", Type.DISPLAY), text("")
        for label in (self.whom, self.already):
            label.setWordWrap(True)
            label.hide()
            self.rows.addRow(label)
        self.who = Pick(
            [Candidate(one, one.name, one.number) for one in athletes],
            _("a part of the name, or the number; Enter takes the one marked"),
        )
        self.training = Choice(training_answers())
        self.add(self._who_words, self.who)
        self.who.edited.connect(self._show_whom)
        self.who.picked.connect(self.after_who)

    def add_flags(self, *, of_injury: bool) -> None:
        """Add the questions about red flags; the last answered leads to tomorrow."""
        self.flags = OnsetFlags(self, self._flag_id, of_injury=of_injury)
        self.flags.chest.lettered.connect(self._after_chest)
        if self.flags.pop is not None:
            self.flags.pop.lettered.connect(self.after_flags)

    def add_training(self) -> None:
        """Add the question about tomorrow, the limits it may bring, and the next look."""
        self._training_row = self.add(self._training_words, self.training, training_hint())
        self.limits = LimitsPart(self)
        self.training.chosen.connect(self._show_limits)
        self.training.lettered.connect(self.after_training)
        self.reassess = MomentField(self.today + REASSESS_AFTER, REASSESS_HOUR)
        hint = _("the coach is told this as the next update")
        self.add(_("Reassess &on"), self.reassess, hint)
        self.expected = ExpectedField(self, self.today)

    @property
    def reassess_on(self) -> datetime:
        """Return when the athlete is looked at again."""
        return self.reassess.moment

    def after_who(self) -> None:
        """Go on after the athlete was taken."""
        raise NotImplementedError

    def after_flags(self) -> None:
        """Go on after the last question about red flags."""
        go_to(self.training)

    def after_training(self) -> None:
        """Go on after the answer about tomorrow: to the limits, or where saving is told."""
        if self.training.value() is Training.WITH_LIMITS:
            go_to(next(iter(self.limits.fields.values())))
        else:
            self.after_all()

    def after_all(self) -> None:
        """Go where only words that may be left out remain."""
        raise NotImplementedError

    def show_training(self, shown: bool) -> None:  # noqa: FBT001  as Qt's own
        """Show or hide the question about tomorrow."""
        self.rows.setRowVisible(self._training_row, shown)
        self.limits.show_for(self.training.value() if shown else None)

    def _after_chest(self) -> None:
        if self.flags.pop is not None:
            go_to(self.flags.pop)
        else:
            self.after_flags()

    def _show_limits(self) -> None:
        self.limits.show_for(self.training.value())

    def _show_whom(self) -> None:
        athlete = self.who.value
        open_case = "" if athlete is None else self._known.get(athlete.athlete_id, "")
        self.whom.setText("" if athlete is None else athlete.name.upper())
        self.already.setText(_("Open already: {case}").format(case=open_case))
        self.whom.setVisible(athlete is not None)
        self.already.setVisible(bool(open_case))


def go_to(widget: QWidget) -> None:
    """Put the cursor there."""
    widget.setFocus(Qt.FocusReason.OtherFocusReason)
