"""Earlier injuries, also from before this club: what, side, where, month and year, days out."""

import re
from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.athlete.onset_forms import side_answers
from teamrehab.desktop.buttons import quiet_button
from teamrehab.desktop.entry.areas import AreaField
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.forms import ChoiceField, NumberField
from teamrehab.domain.examination import EarlierInjury
from teamrehab.domain.implausible import Implausible
from teamrehab.domain.injuries import Side
from teamrehab.language import _

AT_MOST = 4
"""Blocks for one examination; another examination can note more."""

_LETTERS = 8
"""Room for a side or a part of the body in a narrow column; lists open wider."""

_MONTH = re.compile(r"(\d{1,2})\s*[/.\- ]\s*(\d{4})")


def month_of(typed: str) -> date | None:
    """Return the first of the month typed as "3/2024", None where it is none."""
    found = _MONTH.fullmatch(typed.strip())
    if found is None or not 1 <= int(found[1]) <= 12 or int(found[2]) < 1900:
        return None
    return date(int(found[2]), int(found[1]), 1)


class EarlierBlock(QWidget):
    """One earlier injury; it counts as soon as anything is typed."""

    edited = Signal()

    def __init__(self, occasion: Occasion, areas: Sequence[str], number: int) -> None:
        super().__init__()
        self._occasion, self._earlier_id = occasion, occasion.new_id()
        self.what, self.month = QLineEdit(), QLineEdit()
        self.side: ChoiceField[Side] = ChoiceField(side_answers())
        self.area = AreaField(areas)
        self.days = NumberField(_("days out"))
        self.what.setPlaceholderText(_("what it was"))
        self.month.setPlaceholderText(_("month/year, 3/2024"))
        self.side.setPlaceholderText(_("side"))
        self.area.setPlaceholderText(_("part of the body"))
        self._name(number)
        self._lay_out()
        for line in (self.what, self.month, self.days):
            line.textEdited.connect(self._tell)
        for box in (self.side, self.area):
            box.activated.connect(self._tell)

    @property
    def used(self) -> bool:
        """Return whether anything of it was typed."""
        typed = (self.what.text(), self.month.text(), self.days.text())
        chosen = (self.side.value, self.area.value)
        return any(t.strip() for t in typed) or any(c is not None for c in chosen)

    def read(self) -> tuple[EarlierInjury | None, list[Implausible]]:
        """Return the injury, or what of it is missing or cannot be read."""
        day, side = month_of(self.month.text()), self.side.value
        found = []
        if day is None:
            found.append(_month_needed(self.month.text()))
        if side is None:
            found.append(_side_needed())
        if day is None or side is None:
            return None, found
        injury = EarlierInjury(
            earlier_id=self._earlier_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=day,
            side=side,
            area=self.area.value or "",
            what=self.what.text().strip(),
            days_out=self.days.value,
        )
        return injury, []

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, Space.TIGHT)
        grid.setSpacing(Space.TIGHT)
        grid.addWidget(self.what, 0, 0, 1, 2)
        grid.addWidget(self.month, 0, 2)
        grid.addWidget(self.side, 1, 0)
        grid.addWidget(self.area, 1, 1)
        grid.addWidget(self.days, 1, 2)
        for column in range(3):
            grid.setColumnStretch(column, 1)
        for box in (self.side, self.area):
            box.setMinimumContentsLength(_LETTERS)
            box.setSizeAdjustPolicy(
                ChoiceField.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )

    def _name(self, number: int) -> None:
        named = (
            (self.what, _("Earlier injury {number}: what it was")),
            (self.month, _("Earlier injury {number}: month and year")),
            (self.side, _("Earlier injury {number}: side")),
            (self.area, _("Earlier injury {number}: part of the body")),
            (self.days, _("Earlier injury {number}: days out")),
        )
        for widget, words in named:
            widget.setAccessibleName(words.format(number=number))

    def _tell(self) -> None:
        self.edited.emit()


class EarlierPart(QWidget):
    """The earlier injuries of one examination, shown one by one as they are asked for."""

    edited = Signal()

    def __init__(self, occasion: Occasion, areas: Sequence[str]) -> None:
        super().__init__()
        self.blocks = [EarlierBlock(occasion, areas, n + 1) for n in range(AT_MOST)]
        self.another = quiet_button(_("Add an earlier &injury..."), self._show_another)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        for block in self.blocks:
            block.hide()
            block.edited.connect(self._tell)
            column.addWidget(block)
        column.addWidget(self.another)
        self.setFocusProxy(self.another)

    def read(self) -> tuple[tuple[EarlierInjury, ...], list[Implausible]]:
        """Return the injuries typed, and what of others cannot be read."""
        read = [block.read() for block in self.blocks if block.used]
        injuries = tuple(injury for injury, _found in read if injury is not None)
        return injuries, [one for _injury, found in read for one in found]

    def _show_another(self) -> None:
        hidden = [block for block in self.blocks if block.isHidden()]
        hidden[0].show()
        self.another.setVisible(len(hidden) > 1)
        hidden[0].what.setFocus()

    def _tell(self) -> None:
        self.edited.emit()


def _month_needed(typed: str) -> Implausible:
    return Implausible(
        field=_("Earlier injuries"),
        value=typed.strip()[:40] or _("no month typed"),
        allowed=_("month and year are needed"),
        remedy=_("Type them like 3/2024, as near as it is remembered."),
    )


def _side_needed() -> Implausible:
    return Implausible(
        field=_("Earlier injuries"),
        value=_("no side"),
        allowed=_("a side is needed"),
        remedy=_("Choose left, right, both or not applicable."),
    )
