"""Above the grid: which session it is, and its length, typed once."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.forms import ChoiceField, NumberField, without_mnemonic
from teamrehab.language import _
from teamrehab.tasks.group import Occasion

_SESSIONS_A_DAY = 4


class SessionHeader(QWidget):
    """``chosen`` says that another session is meant, ``length_typed`` carries its length.

    ``done`` comes with Enter in the length: typing goes on in the grid.
    """

    chosen = Signal()
    length_typed = Signal(str)
    done = Signal()

    def __init__(self, today: date) -> None:
        super().__init__()
        self.day = DayField(today)
        self.session = ChoiceField(
            [(number, str(number)) for number in range(1, _SESSIONS_A_DAY + 1)], chosen=1
        )
        self.kind = Choice([(False, _("training")), (True, _("match"))], at_first=0)
        self.length = NumberField()
        self._lay_out()
        self.day.dateChanged.connect(self._tell)
        self.session.currentIndexChanged.connect(self._tell)
        self.kind.chosen.connect(self.chosen)
        self.length.textChanged.connect(self.length_typed)
        self.length.returnPressed.connect(self.done)

    @property
    def occasion(self) -> Occasion:
        """Return which session is meant."""
        return Occasion(
            on=self.day.day, match=bool(self.kind.value()), session=self.session.value or 1
        )

    def show_occasion(self, occasion: Occasion, length: str) -> None:
        """Show another session, as when a draft is restored."""
        self.day.show_day(occasion.on)
        self.session.show_value(occasion.session)
        self.kind.choose(occasion.match)
        self.length.setText(length)

    def _tell(self, _value: object) -> None:
        self.chosen.emit()

    def _lay_out(self) -> None:
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(Space.NEAR)
        for words, field in (
            (_("&Day"), self.day),
            (_("Sess&ion of the day"), self.session),
            (_("&Kind"), self.kind),
            (_("&Length of the session (min)"), self.length),
        ):
            caption = QLabel(words)
            caption.setBuddy(field)
            field.setAccessibleName(without_mnemonic(words))
            line.addWidget(caption)
            line.addWidget(field)
            line.addSpacing(Space.APART)
        self.kind.name_answers(_("Kind"))
        line.addStretch(1)
