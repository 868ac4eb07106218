"""Forms: every field has a label, a name for screen readers, and room for its complaint."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Generic, TypeVar

from PySide6.QtCore import QRegularExpression, Qt
from PySide6.QtGui import QRegularExpressionValidator
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.domain.plausibility import Implausible

T = TypeVar("T")

_DIGITS = 6
"""More than any quantity we know needs, and few enough to be shown."""


class Field(QWidget):
    """A widget in a form with its help and, when there is one, its complaint beneath it."""

    def __init__(self, label: str, widget: QWidget, help_text: str) -> None:
        super().__init__()
        self.widget = widget
        self._help_text = help_text
        self._complaint = text("", Type.COMPLAINT)
        self._complaint.setWordWrap(True)
        self._complaint.hide()
        widget.setAccessibleName(without_mnemonic(label))
        widget.setAccessibleDescription(help_text)
        self._lay_out(help_text)

    @property
    def complaint(self) -> str:
        """Return the sentence shown, or an empty one."""
        return self._complaint.text()

    def complain(self, sentence: str) -> None:
        """Show what is wrong beside the field, and say it to a screen reader."""
        self._complaint.setText(sentence)
        self._complaint.setVisible(bool(sentence))
        self.widget.setProperty("wrong", bool(sentence))
        self.widget.setAccessibleDescription(sentence or self._help_text)
        self.widget.style().unpolish(self.widget)
        self.widget.style().polish(self.widget)

    def _lay_out(self, help_text: str) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, Space.TIGHT)
        column.setSpacing(Space.HAIR)
        column.addWidget(self.widget)
        if help_text:
            help_label = text(help_text, Type.SMALL)
            help_label.setWordWrap(True)
            column.addWidget(help_label)
        column.addWidget(self._complaint)
        self.setFocusProxy(self.widget)


def row(form: QFormLayout, label: str, widget: QWidget, help: str = "") -> Field:  # noqa: A002
    """Add a row to ``form`` and return it; ``&`` in ``label`` marks the letter for Alt."""
    field = Field(label, widget, help)
    caption = QLabel(label)
    caption.setBuddy(widget)
    form.addRow(caption, field)
    return field


def form_layout(parent: QWidget) -> QFormLayout:
    """Return an empty form: labels beside their fields, fields as wide as there is room."""
    form = QFormLayout(parent)
    form.setContentsMargins(0, 0, 0, 0)
    form.setHorizontalSpacing(Space.APART)
    form.setVerticalSpacing(Space.NEAR)
    form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
    return form


def show_troubles(
    fields: Mapping[str, Field], troubles: Iterable[Implausible]
) -> tuple[Implausible, ...]:
    """Show each trouble beside its field, clear the others, go to the first field at fault.

    ``fields`` is keyed by what ``Implausible.field`` says. Returns the troubles that no field
    of this form is about, for the page to show.
    """
    told = {name: [t for t in troubles if t.field == name] for name in fields}
    for name, field in fields.items():
        field.complain("\n".join(str(trouble) for trouble in told[name]))
    at_fault = next((fields[name] for name in fields if told[name]), None)
    if at_fault is not None:
        at_fault.widget.setFocus(Qt.FocusReason.OtherFocusReason)
    return tuple(trouble for trouble in troubles if trouble.field not in fields)


def without_mnemonic(label: str) -> str:
    """Return a label as it is read aloud: ``&&`` is an ampersand, ``&`` marks a letter."""
    return label.replace("&&", "\0").replace("&", "").replace("\0", "&").rstrip(":")


class NumberField(QLineEdit):
    """A whole number, digits only, of any script. It starts empty: nothing is prefilled.

    It does not clip: what is typed is kept, and ``check`` says what is wrong with it.
    """

    def __init__(self, unit: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        pattern = QRegularExpression(
            rf"\d{{0,{_DIGITS}}}",
            QRegularExpression.PatternOption.UseUnicodePropertiesOption,
        )
        self.setValidator(QRegularExpressionValidator(pattern, self))
        self.setPlaceholderText(unit)
        self.setMaximumWidth(self.fontMetrics().averageCharWidth() * (_DIGITS + len(unit) + 8))

    @property
    def value(self) -> int | None:
        """Return the number typed, or None while the field is empty."""
        return int(self.text()) if self.text() else None

    def show_value(self, value: int | None) -> None:
        """Show a number that was recorded before, as when an entry is corrected."""
        self.setText("" if value is None else str(value))


class ChoiceField(QComboBox, Generic[T]):
    """One of several values. Without ``chosen`` nothing is chosen and ``value`` is None."""

    def __init__(
        self,
        choices: Sequence[tuple[T, str]],
        chosen: T | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._values = [value for value, _label in choices]
        self.addItems([label for _value, label in choices])
        self.show_value(chosen)

    @property
    def value(self) -> T | None:
        """Return the value chosen, itself and not Qt's copy of it."""
        index = self.currentIndex()
        return self._values[index] if index >= 0 else None

    def show_value(self, value: T | None) -> None:
        """Choose ``value``; None chooses nothing."""
        self.setCurrentIndex(-1 if value is None else self._values.index(value))
