"""What is known of the start of a case, corrected."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtWidgets import QCheckBox, QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.athlete.onset_forms import side_answers
from teamrehab.desktop.entry.areas import AreaField
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.desktop.forms import without_mnemonic
from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Case, Nature
from teamrehab.domain.plausibility import Implausible
from teamrehab.language import _
from teamrehab.reports.wording import day_words


class CaseForm(Form):
    """Starts from the case as it stands; an illness has neither side nor area."""

    def __init__(
        self, history: History, areas: Sequence[str], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._history, case = history, history.case
        self.side, self.area = Choice(side_answers()), AreaField(areas, case.area)
        self.side.choose(case.side)
        self.what, self.day = QLineEdit(case.what), DayField(case.on)
        self.head = _ticked(_("the head was hit or shaken"), on=case.head_injury)
        self.operation = _ticked(_("operated on"), on=case.operation)
        self.sensitive = _ticked(_("show it only on the case"), on=case.sensitive)
        self._day_words = _("&Day of onset")
        self._add_rows(injury=case.nature is Nature.INJURY)

    @property
    @override
    def title(self) -> str:
        return _("Correct the case")

    @property
    @override
    def save_words(self) -> str:
        return _("Correct the case of {name}").format(name=self._history.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        case = self._typed()
        first = self._first_entry()
        if first is not None and case.on > first:
            raise TypedError([self._too_late(case.on, first)], values=(case,))
        return (case,) if case != self._history.case else ()

    def _add_rows(self, *, injury: bool) -> None:
        clinical = _("clinical; never on the coach's sheet")
        if injury:
            self.add(_("&Side"), self.side)
            self.add(_("W&here"), self.area, names=(_("Part of the body"),))
        self.add(_("&What happened"), self.what, clinical)
        self.add(self._day_words, self.day)
        if injury:
            self.add(_("Head &injury"), self.head)
            self.add(_("&Operation"), self.operation)
        else:
            for unasked in (self.side, self.area, self.head, self.operation):
                unasked.setParent(self)
                unasked.hide()
        self.add(_("S&ensitive"), self.sensitive)

    def _typed(self) -> Case:
        case = self._history.case
        return replace(
            case,
            on=self.day.day,
            side=self.side.value() or case.side,
            area=self.area.value or "",
            what=self.what.text().strip(),
            head_injury=self.head.isChecked(),
            operation=self.operation.isChecked(),
            sensitive=self.sensitive.isChecked(),
        )

    def _first_entry(self) -> date | None:
        """Return the earliest day of what is known of the case, but of what it allowed."""
        own = [f for f in self._history.facts if not isinstance(f.value, _MAY_BE_EARLIER)]
        return min((fact.value.on for fact in own), default=None)

    def _too_late(self, on: date, first: date) -> Implausible:
        return Implausible(
            field=without_mnemonic(self._day_words),
            value=on.isoformat(),
            allowed=_("something of this case was noted on {day}").format(day=day_words(first)),
            remedy=_("Choose that day or an earlier one, or correct the entry first."),
        )


_MAY_BE_EARLIER = (Case, AvailabilityStated)
"""What is stated before the onset counts from the onset on."""


def _ticked(words: str, *, on: bool) -> QCheckBox:
    box = QCheckBox(words)
    box.setChecked(on)
    return box
