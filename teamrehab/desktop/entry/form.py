"""A form: labelled fields that make values, with what is wrong shown beside each field."""

from collections.abc import Iterable, Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QDateTimeEdit,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QSizePolicy,
    QWidget,
)

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.maybe import Maybe
from teamrehab.desktop.entry.pair import Pair
from teamrehab.desktop.entry.pick import Pick
from teamrehab.desktop.forms import Field, form_layout, row, without_mnemonic
from teamrehab.domain.plausibility import Implausible
from teamrehab.language import _


class Form(QWidget):
    """Rows of fields; ``values`` makes domain values of them or says what is wrong.

    ``edited`` tells that a person changed something.
    """

    edited = Signal()

    columns = 1
    """How many columns of rows it has, for the window it is shown in."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows = form_layout(self)
        self.fields: dict[str, Field] = {}
        self._details: list[Field] = []
        self._touched = False

    @property
    def title(self) -> str:
        """Return what the form is for."""
        raise NotImplementedError

    @property
    def save_words(self) -> str:
        """Return the words on the button that saves."""
        raise NotImplementedError

    def values(self) -> tuple[Any, ...]:
        """Return what was typed as domain values, () while nothing was.

        Raises:
            TypedError: something cannot be read.
        """
        raise NotImplementedError

    def values_so_far(self) -> tuple[Any, ...]:
        """Return what was typed as values even while questions are still open.

        Raises:
            TypedError: something cannot be read.
        """
        return self.values()

    @property
    def touched(self) -> bool:
        """Return whether something was typed that would be lost."""
        return self._touched

    def add(
        self,
        label: str,
        widget: QWidget,
        hint: str = "",
        *,
        names: Iterable[str] = (),
        detail: bool = False,
    ) -> Field:
        """Add a row; trouble reported under the label or one of ``names`` is shown there.

        A ``detail`` is hidden until it is asked for.
        """
        field = row(self.rows, label, widget, hint, _filler(widget))
        for name in (without_mnemonic(label), *names):
            self.fields[name] = field
        if isinstance(widget, QComboBox):
            _let_shrink(widget)
        if isinstance(widget, Choice):
            widget.name_answers(without_mnemonic(label))
        if isinstance(widget, Pick):
            widget.name(without_mnemonic(label))
        if isinstance(widget, Pair):
            widget.name_sides(without_mnemonic(label))
        if isinstance(widget, Maybe):
            widget.name_parts(without_mnemonic(label))
        if detail:
            self._details.append(field)
        self._listen(widget)
        return field

    def add_heading(self, words: str) -> None:
        """Add a line of words above the fields that follow."""
        self.rows.addRow(text(words, Type.LEAD))

    def show_details(self, shown: bool) -> None:  # noqa: FBT001  a slot of a toggled button
        """Show or hide the rows that are not needed every evening."""
        for field in self._details:
            self.rows.setRowVisible(field, shown)
        self.details.setText(_("Show fewer &fields") if shown else _("Show &more fields"))

    def add_details_button(self, *, shown: bool = False) -> None:
        """Add the button that shows and hides the details."""
        self.details = QPushButton()
        self.details.setCheckable(True)
        self.details.setAutoDefault(False)
        self.details.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.details.toggled.connect(self.show_details)
        self.rows.addRow("", self.details)
        self.details.setChecked(shown)
        self.show_details(shown)

    def show_trouble(self, found: Sequence[Implausible]) -> tuple[Implausible, ...]:
        """Show what is wrong beside its field; return what belongs to no field here.

        The cursor stays where it is: this also runs while a person types.
        """
        said: dict[Field, list[str]] = {field: [] for field in self.fields.values()}
        elsewhere = []
        for one in found:
            field = self.fields.get(one.field)
            if field is None:
                elsewhere.append(one)
            else:
                said[field].append(str(one))
        for field, sentences in said.items():
            if field.complaint != "\n".join(sentences):
                field.complain("\n".join(sentences))
        return tuple(elsewhere)

    def go_to_trouble(self) -> QWidget | None:
        """Put the cursor into the first field that complains, what stands there selected."""
        at_fault = next((f for f in self.fields.values() if f.complaint), None)
        if at_fault is None:
            return None
        widget = at_fault.widget
        if isinstance(widget, Pair):
            widget = widget.at_fault(at_fault.complaint)
        widget.setFocus(Qt.FocusReason.OtherFocusReason)
        if isinstance(widget, QLineEdit):
            widget.selectAll()
        return widget

    def go_to_first(self) -> None:
        """Put the cursor where typing begins."""
        first = self if self.focusProxy() else next(iter(self.fields.values())).widget
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def begin(self) -> None:
        """Count from now on what a person changes: what the form starts from is no typing."""
        self._touched = False

    def note_edit(self) -> None:
        """Remember that a person changed something, and say so."""
        self._touched = True
        self.edited.emit()

    def _listen(self, widget: QWidget) -> None:
        for kind, signal in _EDITED.items():
            if isinstance(widget, kind):
                getattr(widget, signal).connect(self.note_edit)
                return


def _let_shrink(box: QComboBox) -> None:
    """Keep a very long answer from widening the form."""
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(16)


def _filler(widget: QWidget) -> QWidget | None:
    """Return what takes the room right of a narrow field, so that it stands left."""
    if widget.maximumWidth() >= _UNLIMITED:
        return None
    filler = QWidget()
    filler.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    return filler


_UNLIMITED = 10_000
"""More than any width that is set on purpose."""

_EDITED: dict[type[QWidget], str] = {
    QLineEdit: "textEdited",
    QPlainTextEdit: "textChanged",
    QComboBox: "activated",
    QDateTimeEdit: "dateTimeChanged",
    Choice: "chosen",
    Pair: "edited",
    Pick: "edited",
    Maybe: "edited",
    QAbstractButton: "clicked",
}
"""How each kind of field says that a person changed it."""
