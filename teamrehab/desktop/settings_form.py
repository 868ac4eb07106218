"""The club's settings: how this club counts, where two clubs must differ."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.buttons import plain_button
from teamrehab.desktop.forms import NumberField, form_layout, row, show_troubles
from teamrehab.domain.settings import ClubSettings
from teamrehab.language import _

_ALLOWED = {
    "retest_days": (1, 90),
    "hop_retest_days": (1, 90),
    "assessing_hours": (0, 336),
    "sheet_valid_days": (1, 31),
}
"""Least and most of each number; outside it is a slip of the finger (common practice)."""


class SettingsForm(QWidget):
    """All club settings. ``saved(ClubSettings)`` comes when every number can stand."""

    saved = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.same_day = QCheckBox(_("Who is cleared on &match day may play that day"))
        self.numbers = {name: NumberField() for name in _ALLOWED}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        column.addWidget(self.same_day)
        inner = QWidget()
        form = form_layout(inner)
        self.fields = {
            name: row(form, label, self.numbers[name], help_text)
            for name, (label, help_text) in _words().items()
        }
        column.addWidget(inner)
        self.save = plain_button(_("&Save settings"), self._save)
        column.addWidget(self.save)
        column.setAlignment(self.save, Qt.AlignmentFlag.AlignLeft)

    def show_settings(self, settings: ClubSettings) -> None:
        """Show how the club counts now."""
        self.same_day.setChecked(settings.cleared_same_day)
        for name, field in self.numbers.items():
            field.show_value(getattr(settings, name))

    def settings(self) -> ClubSettings:
        """Return what is typed; an empty field is its default."""
        typed = {name: field.value for name, field in self.numbers.items()}
        known = {name: value for name, value in typed.items() if value is not None}
        return ClubSettings(cleared_same_day=self.same_day.isChecked(), **known)

    def _save(self) -> None:
        settings = self.settings()
        found = {name: _trouble(name, getattr(settings, name)) for name in _ALLOWED}
        show_troubles(self.fields, found)
        if not any(found.values()):
            self.show_settings(settings)
            self.saved.emit(settings)


def _trouble(name: str, value: int) -> str:
    least, most = _ALLOWED[name]
    if least <= value <= most:
        return ""
    return _("{value} typed; {least} to {most} can stand.").format(
        value=value, least=least, most=most
    )


def _words() -> dict[str, tuple[str, str]]:
    """Return label and help of each number, in the order they stand."""
    return {
        "retest_days": (_("&Days until a test is due again"), ""),
        "hop_retest_days": (_("The same for &hops, from Running on"), ""),
        "assessing_hours": (
            _("H&ours before a range is shown"),
            _("A younger case says: being assessed."),
        ),
        "sheet_valid_days": (_("Days a coach's sheet is &valid"), ""),
    }
