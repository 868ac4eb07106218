"""What an athlete may not do in training: one row an activity, never a body part."""

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.forms import ChoiceField, Field, NumberField
from teamrehab.domain.availability import Activity, Limit
from teamrehab.language import _
from teamrehab.reports.wording_limits import activity_words

_CAPPED = frozenset({Activity.PACE, Activity.SPRINT, Activity.MINUTES})
"""Activities that can be allowed up to a number."""


class LimitField(QWidget):
    """One activity: as usual, not at all, or at most a number."""

    edited = Signal()

    def __init__(self, activity: Activity) -> None:
        super().__init__()
        choices = [("usual", _("as usual")), ("none", _("not at all"))]
        if activity in _CAPPED:
            choices.append(("capped", _("at most")))
        self.choice: ChoiceField[str] = ChoiceField(choices, chosen="usual")
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
        """Show a limit stated before."""
        if limit is not None:
            capped = limit.at_most is not None
            self.choice.show_value("capped" if capped else "none")
            self.number.show_value(limit.at_most)

    def _show_number(self) -> None:
        self.number.setVisible(self.choice.value == "capped")

    def _tell(self) -> None:
        self.edited.emit()


class LimitsPart:
    """The rows of all activities in a form."""

    def __init__(self, form: Form) -> None:
        self._form = form
        self.fields = {activity: LimitField(activity) for activity in Activity}
        self._rows: list[Field] = []
        for activity, field in self.fields.items():
            self._rows.append(form.add(activity_words(activity), field))
            field.edited.connect(form.note_edit)

    def limits(self) -> tuple[Limit, ...]:
        """Return the limits chosen."""
        found = (field.limit(activity) for activity, field in self.fields.items())
        return tuple(limit for limit in found if limit is not None)

    def fill(self, limits: Iterable[Limit]) -> None:
        """Show limits stated before."""
        for limit in limits:
            self.fields[limit.activity].fill(limit)

    def show_rows(self, shown: bool) -> None:  # noqa: FBT001  as Qt's own
        """Show or hide the rows."""
        for row in self._rows:
            self._form.rows.setRowVisible(row, shown)


def _unit(activity: Activity) -> str:
    if activity is Activity.MINUTES:
        return _("min a session")
    return _("% of own speed") if activity in _CAPPED else ""
