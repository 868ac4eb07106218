"""One line of the morning on screen, with the four questions beneath it when they are asked."""

from datetime import date

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import (
    QFont,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import QFrame, QVBoxLayout
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, as_type, text
from teamrehab.desktop.entry.safety_questions import SafetyQuestions
from teamrehab.desktop.evening import morning_typed as typing
from teamrehab.desktop.evening.morning_columns import WIDTHS, columns_in_line, name_begins
from teamrehab.desktop.evening.morning_lines import MorningLine
from teamrehab.desktop.evening.morning_typed import MorningDraft, TypedMorning
from teamrehab.desktop.evening.morning_words import cells_of, in_short, stop_words
from teamrehab.domain.measures import MorningResponse
from teamrehab.language import _
from teamrehab.reports.closing import Proposed
from teamrehab.tasks.cases import new_id

_NAME, _TYPED, _GREY = 1, 5, (3, 4)
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class MorningRow(QFrame):
    """``entered`` comes with Enter, ``went`` carries -1 or 1 for Up and Down.

    A saved line is corrected only, and a move taken back only, after Y: ``entered`` comes
    again with ``confirmed``, ``accepted`` carries the proposal. ``answered`` carries the
    safety check.
    """

    entered = Signal(object)
    went = Signal(object, int)
    answered = Signal(object, object)
    accepted = Signal(object, object)

    def __init__(self, line: MorningLine, zone: str) -> None:
        super().__init__()
        self.line, self._zone, self.coach = line, zone, ""
        self.typed = TypedMorning()
        self.pending = self.confirmed = self.correcting = self.taking_back = False
        self._response_id = new_id()
        self.questions = SafetyQuestions()
        kinds = [Type.SMALL if n in _GREY else Type.BODY for n in range(len(WIDTHS))]
        self.cells = [text("", kind) for kind in kinds]
        self.said, self.stop = text("", Type.COMPLAINT), text("", Type.COMPLAINT)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.is_active = False
        self._lay_out()
        self.questions.answered.connect(self._answered)
        self.questions.given_up.connect(self._given_up)
        for part in (self, self.questions):
            part.installEventFilter(self)
        self.show_line(line)

    def show_line(self, line: MorningLine, coach: str = "") -> None:
        """Show what stands now; what is typed stays unless it is what stands.

        ``coach`` is what the coach reads of who is stopped and not stated yet.
        """
        self.coach = coach
        if line.on != self.line.on:
            self._response_id = new_id()
        self.line = line
        if line.saved is not None and self.response == line.saved.value:
            self.typed, self.pending, self.confirmed = TypedMorning(), False, False
        self._show()

    @property
    def where(self) -> tuple[date, str]:
        """Return the morning and the case it is of."""
        return self.line.on, self.line.case_id

    @property
    def is_open(self) -> bool:
        """Return whether nothing is saved and nothing on its way."""
        return self.line.saved is None and not self.pending

    @property
    def response(self) -> MorningResponse | None:
        """Return what is to be saved, None without anything typed; a retry keeps its id.

        Over a saved line only what is typed changes.
        """
        saved = None if self.line.saved is None else self.line.saved.value
        symptom = self.typed.symptom or (saved.symptom if saved else None)
        if self.typed.is_empty or symptom is None:
            return None
        painkiller = self.typed.painkiller
        return MorningResponse(
            response_id=saved.response_id if saved else self._response_id,
            case_id=self.line.case_id,
            athlete_id=self.line.history.athlete.athlete_id,
            on=self.line.on,
            symptom=symptom,
            painkiller=saved.painkiller if painkiller is None and saved else painkiller,
        )

    @property
    def draft(self) -> MorningDraft | None:
        """Return what is typed and not on its way, None where nothing is."""
        if self.typed.is_empty or self.pending:
            return None
        return MorningDraft(typed=self.typed, response_id=self._response_id)

    def retype(self, draft: MorningDraft) -> None:
        """Type again what was kept of this line, unless it is what stands."""
        self.typed, self._response_id = draft.typed, draft.response_id
        self.show_line(self.line, self.coach)

    @property
    def take_back(self) -> Proposed | None:
        """Return the first move up that turned out badly and is not taken back."""
        offered = (one.take_back for one in self.line.settled)
        return next((one for one in offered if one is not None), None)

    def say(self, words: str) -> None:
        """Say something beneath the line."""
        self.said.setText(words)
        self.said.setVisible(bool(words))

    def wait(self) -> None:
        """Show that the line is being saved."""
        self.pending = True
        self.questions.hide()
        self._show()

    def not_saved(self, why: str) -> None:
        """Show that it was not saved, and why; what is typed stays."""
        self.pending = self.confirmed = False
        self._show()
        self.say(why)

    def ask_safety(self, why: tuple[str, ...]) -> None:
        """Ask the four questions beneath the line."""
        self.questions.show()
        self.questions.ask(why, self.line.history.case, self.line.on)

    def ask_to_correct(self) -> None:
        """Ask before what is saved is replaced."""
        saved, response = self.line.saved, self.response
        if saved is not None and response is not None:
            self.correcting = True
            words = _("Saved as {before}. Change it to {now}? Y, or Esc")
            before, now = (in_short(one) for one in (saved.value, response))
            self.say(words.format(before=before, now=now))

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Type, save, answer what is asked, or go to another line."""
        key = event.key()
        held = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
        if event.modifiers() & held:
            super().keyPressEvent(event)
        elif self.correcting or self.taking_back:
            self._answer(key)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.went.emit(self, -1 if key == Qt.Key.Key_Up else 1)
        elif key in _ENTER:
            self.entered.emit(self)
        elif not self._edit(key, event.text()):
            super().keyPressEvent(event)

    def _edit(self, key: int, sign: str) -> bool:
        """Change what is typed, or begin to take a move back; False for a key of no meaning."""
        if key == Qt.Key.Key_Escape:
            self._type(TypedMorning())
        elif key == Qt.Key.Key_Backspace:
            self._type(typing.rubbed_out(self.typed))
        elif key == Qt.Key.Key_A and self.take_back is not None:
            self._ask_to_take_back(self.take_back)
        elif sign.strip():
            self._press(sign)
        else:
            return False
        return True

    def _press(self, sign: str) -> None:
        typed = typing.press(self.typed, sign)
        if typed is None:
            words = _("“{sign}” means nothing here: 0 to 9, + is 10, then P, T, C or S.")
            self.say(words.format(sign=sign))
        else:
            self._type(typed)

    def _type(self, typed: TypedMorning) -> None:
        if self.pending:
            self.say(_("This line is being saved: a moment."))
            return
        self.typed, self.confirmed = typed, False
        self.say("")
        self._show()

    def _ask_to_take_back(self, proposal: Proposed) -> None:
        self.taking_back = True
        words = _("{name}: {what}? {reason} Y confirms, Esc leaves it.")
        self.say(words.format(name=proposal.name, what=proposal.words, reason=proposal.reason))

    def _answer(self, key: int) -> None:
        """Take Y as yes; Esc and N leave everything as it was; no other key answers."""
        correcting = self.correcting
        if key not in (Qt.Key.Key_Y, Qt.Key.Key_N, Qt.Key.Key_Escape):
            return
        self.correcting = self.taking_back = False
        self.say("")
        if key != Qt.Key.Key_Y and correcting:
            self._type(TypedMorning())
        elif key == Qt.Key.Key_Y and correcting:
            self.confirmed = True
            self.entered.emit(self)
        elif key == Qt.Key.Key_Y:
            self.accepted.emit(self, self.take_back)

    def _answered(self, check: object) -> None:
        self.answered.emit(self, check)

    def _given_up(self) -> None:
        self.questions.hide()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self) -> None:
        words = cells_of(self.line, self.typed, self._zone, pending=self.pending)
        for cell, shown in zip(self.cells, words, strict=True):
            cell.setText(shown)
        self.stop.setText(stop_words(self.line, self.coach))
        self.stop.setVisible(bool(self.line.stopped))
        untouched = self.is_open and self.typed.is_empty
        as_type(self.cells[-1], Type.SMALL if untouched else Type.BODY)
        self.setAccessibleName(", ".join(word for word in words[:3] if word))
        told = (*words[3:], self.stop.text())
        self.setAccessibleDescription(", ".join(word for word in told if word))

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """See the cursor come to the line or its questions, and leave them."""
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self._mark()
        return super().eventFilter(watched, event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the ground, and rule the line off from the one below, as in a table."""
        painter, palette = QPainter(self), self.palette()
        painter.fillRect(self.rect(), palette.highlight() if self.is_active else palette.base())
        painter.setPen(palette.mid().color())
        painter.drawLine(self.rect().bottomLeft(), self.rect().bottomRight())
        painter.end()

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)

    def _mark(self) -> None:
        """Show whether the keys are in this line: tinted, its name heavier."""
        active = self.hasFocus() or self.questions.hasFocus()
        self.is_active = active
        self.update()
        for cell in (self.cells[_NAME], self.cells[_TYPED]):
            font = cell.font()
            font.setWeight(QFont.Weight.DemiBold if active else QFont.Weight.Normal)
            cell.setFont(font)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.NEAR, Space.NEAR, Space.NEAR, Space.NEAR)
        column.setSpacing(Space.TIGHT)
        column.addLayout(columns_in_line(self.cells))
        for part in (self.stop, self.said, self.questions):
            column.addWidget(part)
            part.hide()
        for label in (self.stop, self.said):
            label.setWordWrap(True)
            label.setIndent(name_begins())
        self.cells[-1].setWordWrap(True)
