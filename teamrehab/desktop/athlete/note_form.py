"""A free note of the medical staff on a case."""

from typing import Any

from PySide6.QtWidgets import QPlainTextEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.domain.injuries import Remark
from teamrehab.language import _

_LINES = 6


class NoteForm(Form):
    """Writes a note or, with ``correcting``, rewrites one."""

    def __init__(
        self,
        occasion: Occasion,
        correcting: Remark | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._correcting = occasion, correcting
        self._remark_id = correcting.remark_id if correcting else occasion.new_id()
        self.day = DayField(correcting.on if correcting else occasion.today)
        self.text = QPlainTextEdit(correcting.text if correcting else "")
        self.text.setTabChangesFocus(True)
        self.text.setFixedHeight(_LINES * self.text.fontMetrics().lineSpacing())
        self.add(_("&Day"), self.day)
        self.add(_("&Note"), self.text, _("clinical; never on the coach's sheet"))
        self.setFocusProxy(self.text)

    @property
    @override
    def title(self) -> str:
        return _("Correct a note") if self._correcting else _("Note")

    @property
    @override
    def save_words(self) -> str:
        name = self._occasion.athlete.name
        if self._correcting:
            return _("Save the corrected note of {name}").format(name=name)
        return _("Save the note of {name}").format(name=name)

    @override
    def values(self) -> tuple[Any, ...]:
        note = Remark(
            remark_id=self._remark_id,
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self.day.day,
            text=self.text.toPlainText().strip(),
        )
        return (note,) if self.touched or self._correcting else ()
