"""What an athlete may not do in training: one row an activity, never a body part."""

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.forms import ChoiceField, Field, NumberField
from teamrehab.domain.availability import Activity, Limit, Training
from teamrehab.domain.early import allowed_early
from teamrehab.domain.protocol import Stage
from teamrehab.language import _
from teamrehab.reports.wording_limits import activity_words

_CAPPED = frozenset({Activity.PACE, Activity.SPRINT, Activity.MINUTES})
"""Activities that can be allowed up to a number."""

_NOTHING = {Limit(activity) for activity in Activity}


class LimitField(QWidget):
    """One activity: as usual, not at all, or at most a number.

    It starts at not at all: what nobody opened is not allowed.
    """

    edited = Signal()

    def __init__(self, activity: Activity) -> None:
        super().__init__()
        choices = [("usual", _("as usual")), ("none", _("not at all"))]
        if activity in _CAPPED:
            choices.append(("capped", _("at most")))
        self.choice: ChoiceField[str] = ChoiceField(choices, chosen="none")
        self.number = NumberField(_unit(activity))
        self.number.setVisible(False)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.choice)
        layout.addWidget(self.number)
        layout.addStretch(1)
        self.choice.setAccessibleName(activity_words(activity))
        self.number.setAccessibleName(
            _("{activity}, at most").format(activity=activity_words(activity))
        )
        self.choice.currentIndexChanged.connect(self._show_number)
        self.choice.activated.connect(self._tell)
        self.number.textEdited.connect(self._tell)
        self.setFocusProxy(self.choice)

    def limit(self, activity: Activity) -> Limit | None:
        """Return the limit, None for as usual."""
        if self.choice.value == "usual":
            return None
        return Limit(activity, self.number.value if self.choice.value == "capped" else None)

    def fill(self, limit: Limit | None) -> None:
        """Show what was stated before, None for as usual."""
        at_most = None if limit is None else limit.at_most
        capped = "none" if at_most is None else "capped"
        self.choice.show_value("usual" if limit is None else capped)
        self.number.show_value(at_most)

    def _show_number(self) -> None:
        self.number.setVisible(self.choice.value == "capped")

    def _tell(self) -> None:
        self.edited.emit()


class LimitsPart:
    """The rows of all activities in a form, and what is to be minded about them.

    ``stage`` is the one that is open, None for a case that follows no protocol.
    """

    def __init__(self, form: Form, stage: Stage | None = None) -> None:
        self._form, self._stage = form, stage
        self._training: Training | None = None
        self.fields = {activity: LimitField(activity) for activity in Activity}
        self._rows: list[Field] = []
        for activity, field in self.fields.items():
            self._rows.append(form.add(activity_words(activity), field))
            field.edited.connect(form.note_edit)
            field.edited.connect(self._say)
        self.caution = text("", Type.COMPLAINT)
        self.caution.setWordWrap(True)
        form.rows.addRow(self.caution)
        self.show_for(None)

    def limits(self) -> tuple[Limit, ...]:
        """Return the limits chosen."""
        found = (field.limit(activity) for activity, field in self.fields.items())
        return tuple(limit for limit in found if limit is not None)

    def fill(self, limits: Iterable[Limit]) -> None:
        """Show limits stated before; what they do not name was allowed as usual."""
        stated = {limit.activity: limit for limit in limits}
        for activity, field in self.fields.items():
            field.fill(stated.get(activity))
        self._say()

    def show_for(self, training: Training | None) -> None:
        """Show the rows where training has limits, and what to mind of any training."""
        self._training = training
        for row in self._rows:
            self._form.rows.setRowVisible(row, training is Training.WITH_LIMITS)
        self._say()

    def _say(self) -> None:
        words = self._caution()
        self.caution.setText(words)
        self._form.rows.setRowVisible(self.caution, bool(words))

    def _caution(self) -> str:
        limits = self.limits()
        if self._training is Training.WITH_LIMITS and set(limits) == _NOTHING:
            return _("Nothing is allowed yet: open what the athlete may do, or choose none.")
        if self._stage is None:
            return ""
        early = allowed_early(self._training, limits, self._stage.phase)
        return _early_words(early, self._stage) if early else ""


def _unit(activity: Activity) -> str:
    if activity is Activity.MINUTES:
        return _("min a session")
    return _("% of own speed") if activity in _CAPPED else ""


def _early_words(early: Iterable[Activity], stage: Stage) -> str:
    said = _(
        "Allowed beyond {stage}, the stage that is open: {activities}. These commonly come"
        " later (common practice). The clinician decides."
    )
    return said.format(
        stage=stage.name, activities=", ".join(activity_words(each) for each in early)
    )
