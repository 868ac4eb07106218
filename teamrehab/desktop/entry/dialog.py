"""A form in a window of its own: saves with Ctrl+Enter, never loses what was typed."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import main_button, plain_button
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.safety_questions import SafetyQuestions, Watched
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.desktop.leaving import Leaving, Unsaved
from teamrehab.domain.measures import SafetyCheck
from teamrehab.domain.plausibility import Implausible
from teamrehab.language import _

Check = Callable[[tuple[Any, ...]], tuple[Implausible, ...]]
"""Says what cannot stand among the values of a form."""


_WIDEST, _WIDE, _NARROW, _HIGH = 1300, 1080, 660, 660
"""Sizes that fit on a screen of 1366x768 with its bars."""

_SHARE = 0.86
"""How much of a higher screen a form may take."""

_AROUND = 240
"""Height of what stands above and below a form, with room for what is wrong."""


class FormDialog(QDialog):
    """Stays open until ``saved`` is called, so that nothing is lost when saving fails.

    ``asked`` carries the form's values once nothing about them is implausible.
    ``about`` names the athlete; it stands first and large, never in the window's title.
    Where ``watched`` says so the four questions come first, and ``asked`` carries their
    answers last; an edit takes the questions back.
    """

    asked = Signal(object)

    def __init__(
        self,
        form: Form,
        *,
        about: str,
        check: Check,
        beside: QWidget | None = None,
        watched: Watched | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.form, self._check, self._watched = form, check, watched
        self._about = about
        self.setWindowTitle(form.title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.trouble = text("", Type.COMPLAINT)
        self.trouble.setWordWrap(True)
        self.trouble.hide()
        words = _("{save} (Ctrl+Enter)").format(save=form.save_words.replace("&", "&&"))
        self.save = main_button(words, self._ask)
        self.save.setDefault(False)  # Enter alone must not save half a form
        self.leave = plain_button(_leave_words(), self.reject)
        self.questions = SafetyQuestions()
        self.questions.hide()
        self._held: tuple[Any, ...] = ()
        self._came_from: QWidget | None = None
        self._small = self.size()
        self._lay_out(about, beside)
        self._connect()
        form.begin()
        form.go_to_first()

    def saved(self) -> None:
        """Close: what was typed is in the casebook."""
        self.done(QDialog.DialogCode.Accepted)

    def refuse(self, why: str) -> None:
        """Say why nothing was saved; all that was typed stays."""
        self._tell(why)
        self.save.setEnabled(True)

    @property
    def unsaved(self) -> tuple[Unsaved, ...]:
        """Return what is typed here and would be lost."""
        return (Unsaved(self.form.title, self._about),) if self.form.touched else ()

    @override
    def reject(self) -> None:
        """Leave, but ask before what was typed is lost; open questions go first."""
        if self.questions.isVisible():
            self._give_up()
            return
        if not self.form.touched:
            super().reject()
            return
        self._question = Leaving(self, self.unsaved)
        self._question.finished.connect(self._answered)
        self._question.open()

    def _lay_out(self, about: str, beside: QWidget | None) -> None:
        scroll = self._scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # Tab goes from field to field
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(_top_aligned(self.form))
        body = QHBoxLayout()
        body.setSpacing(Space.WIDE)
        body.addWidget(scroll, 3 if self.form.columns == 1 else 7)
        if beside is not None:
            body.addWidget(beside, 2)
        buttons = QHBoxLayout()
        buttons.addWidget(self.save)
        buttons.addWidget(self.leave)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(Space.WIDE, Space.APART, Space.WIDE, Space.APART)
        layout.setSpacing(Space.NEAR)
        if about:
            whom = text(about, Type.DISPLAY)
            whom.setWordWrap(True)
            layout.addWidget(whom)
        layout.addWidget(text(self.form.title, Type.TITLE))
        layout.addLayout(body, 1)
        layout.addWidget(self.questions)
        layout.addWidget(self.trouble)
        layout.addLayout(buttons)
        self._take_size(beside is not None)

    def _take_size(self, something_beside: bool) -> None:  # noqa: FBT001
        """Be as large as the form needs, within the screen."""
        high = min(self.form.sizeHint().height() + _AROUND, self._highest())
        wide = _WIDE if something_beside else _NARROW
        self.resize(_WIDEST if self.form.columns > 1 else wide, high)

    def _highest(self) -> int:
        return max(_HIGH, int(self.screen().availableGeometry().height() * _SHARE))

    def _connect(self) -> None:
        self.form.edited.connect(self._judge)
        self.form.edited.connect(self._put_questions_away)
        self.questions.answered.connect(self._send_answered)
        self.questions.given_up.connect(self._give_up)
        for key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            keys = QKeySequence(Qt.KeyboardModifier.ControlModifier | key)
            QShortcut(keys, self).activated.connect(self.save.click)

    def _judge(self) -> None:
        """Say beside each field what cannot stand; questions still open are not yet wrong."""
        try:
            found = self._check(self.form.values())
        except TypedError as trouble:
            found = (*trouble.unreadable, *self._check(trouble.values))
        self._tell(_in_words(self.form.show_trouble(found)))

    def _ask(self) -> None:
        try:
            values = self.form.values()
            found = self._check(values)
        except TypedError as trouble:
            values, found = (), (*trouble.found, *self._check(trouble.values))
        if found:
            elsewhere = _in_words(self.form.show_trouble(found))
            self._tell("\n".join(said for said in (elsewhere, _named(found)) if said))
            self._show(self.form.go_to_trouble())
        elif not values:
            self._tell(_("Nothing was typed yet, so there is nothing to save."))
        elif self._watched is not None and (why := self._watched.why(values)):
            self._ask_questions(self._watched, why, values)
        else:
            self._send(values)

    def _ask_questions(
        self, watched: Watched, why: tuple[str, ...], values: tuple[Any, ...]
    ) -> None:
        """Ask before these values are saved; open already, they are waiting for answers."""
        if self.questions.isVisible():
            self.questions.setFocus(Qt.FocusReason.OtherFocusReason)
            self.questions.keep_answers()
            return
        self._held, self._came_from = values, self.focusWidget()
        self.questions.keep.setText(
            _("{save} (Enter)").format(save=self.form.save_words.replace("&", "&&"))
        )
        self.questions.show()
        self.save.hide()
        self.leave.setText(_("Back to what was typed (Esc)"))
        self.questions.ask(why, watched.case, values[0].on)
        self._small = self.size()
        wanted = self.height() + self.questions.sizeHint().height() + Space.NEAR
        self._resize_in_place(
            QSize(self.width(), max(self.height(), min(wanted, self._highest())))
        )

    def _send_answered(self, check: SafetyCheck) -> None:
        self._send((*self._held, check))

    def _send(self, values: tuple[Any, ...]) -> None:
        if self.save.isEnabled():  # or a second Enter would save a second time
            self.save.setEnabled(False)
            self.asked.emit(values)

    def _put_questions_away(self) -> None:
        if self.questions.isVisible():
            self.questions.hide()
            self.save.show()
            self.leave.setText(_leave_words())
            self._resize_in_place(self._small)

    def _resize_in_place(self, size: QSize) -> None:
        """Take another size around the same middle, so that no button leaves the screen."""
        top = self.y() + (self.height() - size.height()) // 2
        self.resize(size)
        self.move(self.x(), max(top, self.screen().availableGeometry().top()))

    def _give_up(self) -> None:
        """Go back to what was typed, to the field the keys were in."""
        self._put_questions_away()
        if self._came_from is not None:
            self._came_from.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self, field: QWidget | None) -> None:
        if field is not None:
            self._scroll.ensureWidgetVisible(field)

    def _tell(self, words: str) -> None:
        self.trouble.setText(words)
        self.trouble.setVisible(bool(words))

    def _answered(self, _result: int) -> None:
        if self._question.left:
            super().reject()


def _top_aligned(form: Form) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(0, 0, Space.APART, 0)
    column.addWidget(form)
    column.addStretch(1)
    return page


def _leave_words() -> str:
    return _("Leave (Esc)")


def _named(found: tuple[Implausible, ...]) -> str:
    """Return one line for beside the button: which fields keep the form from being saved."""
    fields = ", ".join(dict.fromkeys(one.field for one in found))
    return _("Not saved yet, look at: {fields}").format(fields=fields)


def _in_words(found: tuple[Implausible, ...]) -> str:
    return "\n".join(str(one) for one in found)
