"""What can be done for an athlete, as buttons with words; the rare ones behind one of them."""

from enum import Enum
from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QWidget

from teamrehab.desktop.appearance import Space
from teamrehab.language import _


class Act(Enum):
    """Everything the page can be asked for."""

    TEST = "test"
    SESSION = "session"
    NOTE = "note"
    AVAILABILITY = "availability"
    INJURY = "injury"
    ILLNESS = "illness"
    AWAY = "away"
    NEVER_AWAY = "never away"
    CASE = "case"
    EXAMINE = "examine"
    DIAGNOSIS = "diagnosis"
    MOVE = "move"
    DECIDE = "decide"
    FLAG = "flag"
    SIGNS = "signs"
    CLEAR = "clear"
    CLOSE = "close"


_KEYS = {
    Act.TEST: "Ctrl+T",
    Act.SESSION: "Ctrl+E",
    Act.AVAILABILITY: "Ctrl+B",
    Act.INJURY: "Ctrl+I",
    Act.ILLNESS: "Ctrl+Shift+I",
    Act.EXAMINE: "Ctrl+G",
    Act.DIAGNOSIS: "Ctrl+D",
    Act.FLAG: "Ctrl+R",
    Act.SIGNS: "Ctrl+Shift+R",
}
_WITH_CASE = (Act.TEST, Act.SESSION, Act.AVAILABILITY, Act.NOTE)
_NOT_EXAMINED = (Act.EXAMINE, Act.SESSION, Act.AVAILABILITY, Act.NOTE)
_ILL = (Act.AVAILABILITY, Act.DECIDE, Act.CLOSE, Act.NOTE)
_HEALTHY = (Act.INJURY, Act.ILLNESS, Act.AWAY, Act.TEST)
_AWAY = (Act.INJURY, Act.ILLNESS, Act.AWAY, Act.NEVER_AWAY)


class Actions(QWidget):
    """Buttons for what is done every evening; ``asked`` carries an Act."""

    asked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.actions_by_act = {act: self._action(act) for act in Act}
        self.buttons = {
            act: self._button(act)
            for act in dict.fromkeys((*_WITH_CASE, *_NOT_EXAMINED, *_ILL, *_HEALTHY, *_AWAY))
        }
        self.more = QPushButton(_("&More"))
        self._menu = QMenu(self.more)
        self.more.setMenu(self._menu)
        line = self._line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(Space.NEAR)
        for button in (*self.buttons.values(), self.more):
            line.addWidget(button)
        line.addStretch(1)

    def show_for(
        self,
        *,
        has_case: bool,
        ill: bool = False,
        examined: bool = True,
        away: bool = False,
    ) -> None:
        """Offer what fits: for an injury, for an illness, or for a healthy athlete."""
        of_injury = _WITH_CASE if examined else _NOT_EXAMINED
        of_case = _ILL if ill else of_injury
        without_case = _AWAY if away else _HEALTHY
        shown = of_case if has_case else without_case
        for act, button in self.buttons.items():
            self._line.removeWidget(button)
            button.setVisible(act in shown)
        for place, act in enumerate(shown):
            self._line.insertWidget(place, self.buttons[act])
        for one, other in pairwise(shown):
            QWidget.setTabOrder(self.buttons[one], self.buttons[other])
        QWidget.setTabOrder(self.buttons[shown[-1]], self.more)
        self.more.setVisible(has_case)
        self._menu.clear()
        for act, action in self.actions_by_act.items():
            action.setEnabled(has_case or act in (*_HEALTHY, *without_case))
            hidden = act is Act.MOVE or (act is Act.NEVER_AWAY and not away)
            if act not in shown and not hidden:
                self._menu.addAction(action)
        self.buttons[Act.TEST].setText(_test_words(has_case=has_case))

    def _action(self, act: Act) -> QAction:
        action = QAction(_words(act), self)
        if act in _KEYS:
            action.setShortcut(QKeySequence(_KEYS[act]))
        action.setData(act)
        action.triggered.connect(self._ask)
        self.addAction(action)
        return action

    def _button(self, act: Act) -> QPushButton:
        key = _KEYS.get(act)
        words = _("{what} ({key})").format(what=_words(act), key=key) if key else _words(act)
        button = QPushButton(words)
        button.clicked.connect(self.actions_by_act[act].trigger)
        return button

    def _ask(self) -> None:
        sender = self.sender()
        if isinstance(sender, QAction):
            self.asked.emit(sender.data())


def _test_words(*, has_case: bool) -> str:
    return _("Tonight's test... (Ctrl+T)") if has_case else _("Baseline test... (Ctrl+T)")


def _words(act: Act) -> str:
    return {
        Act.TEST: _("Tonight's test..."),
        Act.SESSION: _("Session..."),
        Act.NOTE: _("Note..."),
        Act.AVAILABILITY: _("Availability..."),
        Act.INJURY: _("New injury..."),
        Act.ILLNESS: _("New illness..."),
        Act.AWAY: _("Away..."),
        Act.NEVER_AWAY: _("Was never away..."),
        Act.CASE: _("Correct the case..."),
        Act.EXAMINE: _("Examination..."),
        Act.DIAGNOSIS: _("Diagnosis and protocol..."),
        Act.MOVE: _("Open a stage..."),
        Act.DECIDE: _("Decide about the return..."),
        Act.FLAG: _("Red flag..."),
        Act.SIGNS: _("Ask for red flags..."),
        Act.CLEAR: _("Sign a clearance..."),
        Act.CLOSE: _("Close the case..."),
    }[act]
