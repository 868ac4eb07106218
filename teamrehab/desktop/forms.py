"""Forms: every field has a label, a name for screen readers, and room for its complaint."""

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Generic, TypeVar

from PySide6.QtCore import QRegularExpression, Qt
from PySide6.QtGui import QRegularExpressionValidator
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text

if TYPE_CHECKING:
    from teamrehab.domain.plausibility import Implausible

T = TypeVar("T")

_CURSOR_BORDER = 2
"""By how much a field with the cursor is higher inside, top and bottom together."""

_ARROWS = 40
"""More than the arrows take with which a list that was cut is scrolled."""

_WIDE = 200
"""A field takes all there is, as far as its own greatest width."""

_DIGITS = 6
"""More than any quantity we know needs, and few enough to be shown."""


class Field(QWidget):
    """A widget in a form with its help and, when there is one, its complaint beneath it."""

    def __init__(
        self, label: str, widget: QWidget, help_text: str, beside: QWidget | None = None
    ) -> None:
        super().__init__()
        self.widget = widget
        self._help_text = help_text
        self._complaint = text("", Type.COMPLAINT)
        self._complaint.setWordWrap(True)
        self._complaint.hide()
        widget.setAccessibleName(without_mnemonic(label))
        widget.setAccessibleDescription(help_text)
        self._help = text(help_text, Type.SMALL)
        self._lay_out(beside)

    @property
    def complaint(self) -> str:
        """Return the sentence shown, or an empty one."""
        return self._complaint.text()

    def complain(self, sentence: str) -> None:
        """Show what is wrong beside the field, and say it to a screen reader."""
        self._complaint.setText(sentence)
        self._complaint.setVisible(bool(sentence))
        self._help.setVisible(bool(self._help_text) and not sentence)
        self.widget.setProperty("wrong", bool(sentence))
        self.widget.setAccessibleDescription(sentence or self._help_text)
        self.widget.style().unpolish(self.widget)
        self.widget.style().polish(self.widget)

    def hide_help(self) -> None:
        """Take the help off the page where there is little room; it is still read out."""
        self._help_text = ""
        self._help.hide()

    def _lay_out(self, beside: QWidget | None) -> None:
        line = QHBoxLayout()
        line.addWidget(self.widget, _WIDE)
        line.addStretch(1)  # a field of limited width stays at the left
        if beside is not None:
            line.addWidget(beside)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, Space.TIGHT)
        column.setSpacing(Space.HAIR)
        column.addLayout(line)
        self._help.setWordWrap(True)
        column.addWidget(self._help)
        column.addWidget(self._complaint)
        self._help.setVisible(bool(self._help_text))  # in its place, or it were a window
        self.setFocusProxy(self.widget)


_WIDEST_CAPTION = 220
"""A longer caption wraps: two fields side by side keep their room beside it."""


def row(
    form: QFormLayout,
    label: str,
    widget: QWidget,
    help: str = "",  # noqa: A002
    beside: QWidget | None = None,
) -> Field:
    """Add a row to ``form`` and return it; ``&`` in ``label`` marks the letter for Alt.

    ``beside`` stands right of the field: a button that helps to fill it.
    """
    field = Field(label, widget, help, beside)
    caption = QLabel(label)
    caption.setBuddy(widget)
    if caption.sizeHint().width() > _WIDEST_CAPTION:
        caption.setWordWrap(True)
        caption.setFixedWidth(_WIDEST_CAPTION)
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


def show_troubles(fields: Mapping[str, Field], sentences: Mapping[str, str]) -> tuple[str, ...]:
    """Show each sentence beside its field, clear the others, go to the first at fault.

    Both are keyed by the name of the field. Returns the sentences that belong to no field
    here, for the page to show.
    """
    for name, field in fields.items():
        field.complain(sentences.get(name, ""))
    at_fault = next((field for field in fields.values() if field.complaint), None)
    if at_fault is not None:
        at_fault.widget.setFocus(Qt.FocusReason.OtherFocusReason)
    return tuple(sentence for name, sentence in sentences.items() if name not in fields)


def secret_field() -> QLineEdit:
    """Return a field that shows dots and takes no part in completion or spelling."""
    field = QLineEdit()
    field.setEchoMode(QLineEdit.EchoMode.Password)
    return field


def by_field(found: "Iterable[Implausible]") -> dict[str, str]:
    """Return what ``check`` found as one sentence a field."""
    sentences: dict[str, str] = {}
    for one in found:
        before = sentences.get(one.field)
        sentences[one.field] = f"{before}\n{one}" if before else str(one)
    return sentences


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

    @override
    def showPopup(self) -> None:
        """Open the list as high as all its answers need.

        Qt measures it without the wider border of a field that has the cursor, and then cuts
        the last answer.
        """
        super().showPopup()
        opened, layout = self.view().window(), self.view().window().layout()
        needed = opened.height() + _CURSOR_BORDER
        if self.view().verticalScrollBar().maximum() and layout is not None:
            for height in (needed + _ARROWS, needed):  # with room for its arrows they go
                opened.resize(opened.width(), height)
                layout.activate()

    @property
    def value(self) -> T | None:
        """Return the value chosen, itself and not Qt's copy of it."""
        index = self.currentIndex()
        return self._values[index] if index >= 0 else None

    def show_value(self, value: T | None) -> None:
        """Choose ``value``; None chooses nothing."""
        self.setCurrentIndex(-1 if value is None else self._values.index(value))
