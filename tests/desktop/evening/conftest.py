"""An evening of five athletes in a real casebook, on a real page, typed with real keys."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

import pytest
from PySide6.QtCore import Qt
from shiboken6 import isValid

from teamrehab.desktop.evening.evening_work import evening_work
from teamrehab.desktop.evening.view import EveningView
from teamrehab.desktop.session import Session
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.days import Clock
from teamrehab.domain.injuries import Side
from teamrehab.records import Cost, create_casebook, open_casebook
from teamrehab.tasks.board import squad_board
from tests.builders import athlete, case, clock, day, stated

NAMES = ("Abara", "Brandt", "Castel", "Castell", "Dvorak", "Eide", "Farkas", "Greif")
KEYS = {
    "\n": Qt.Key.Key_Return,
    "<": Qt.Key.Key_Backspace,
    "!": Qt.Key.Key_Escape,
    "v": Qt.Key.Key_Down,
    "^": Qt.Key.Key_Up,
}
EVENING = day(20)


class Evening:
    """The page with everything behind it; ``now`` may be set forward."""

    def __init__(self, qtbot, folder, athletes=5, **work):
        self.qtbot, self.folder = qtbot, folder
        self.now: datetime = clock(EVENING, hour=19).instant()
        self.clock = Clock(lambda: self.now, "UTC")
        self.work = replace(evening_work(), **work)
        self.failures: list[Exception] = []
        self.session = Session(lambda: self._made(athletes))
        self._open()

    def _open(self):
        self.session.failed.connect(self.failures.append)
        self.qtbot.waitUntil(lambda: self.session.is_open)
        self.view = EveningView(self.session, self.work)
        self.qtbot.addWidget(self.view)
        self.session.board_changed.connect(self.refresh)
        self.view.resize(1366, 640)
        self.view.show()
        self.refresh()
        self.qtbot.waitUntil(lambda: bool(self.view.rows))
        self.view.begin()

    def reopen(self):
        """Close the page and the casebook, and come back to both."""
        self.view.close()
        self.session.finish()
        self.session = Session(
            lambda: open_casebook(self.folder, passphrase="", clock=self.clock)
        )
        self._open()

    def refresh(self):
        self.session.ask(lambda book: squad_board(book, self.clock.today()), self._show)

    def _show(self, board):
        if isValid(self.view):
            self.view.show_board(board)

    def _made(self, athletes):
        book = create_casebook(
            self.folder,
            team=Team(name="Harbour Rovers", sport="football", zone="UTC"),
            founder=StaffMember(staff_id="s1", name="Ines Duarte"),
            passphrase="",
            clock=self.clock,
            protected=False,
            cost=Cost(memory_kib=64, passes=1, lanes=1),
        )
        for number, surname in enumerate(NAMES[:athletes], start=1):
            who = athlete(athlete_id=f"a{number}", surname=surname, number=number)
            side = Side.RIGHT if number == 1 else Side.LEFT
            ill = case(case_id=f"c{number}", athlete_id=who.athlete_id, side=side)
            book.note(who, ill, stated(ill))
        return book

    def type(self, keys):
        """Press keys where the cursor is; see ``KEYS`` for those without a sign."""
        for key in keys:
            target = self.view.window().focusWidget()
            if key in KEYS:
                self.qtbot.keyClick(target, KEYS[key])
            else:
                self.qtbot.keyClicks(target, key)

    def settle(self):
        """Wait until nothing is being saved and the page shows what stands."""
        done: list[Any] = []
        self.qtbot.waitUntil(lambda: not any(row.entry.saving for row in self.view.rows))
        self.session.ask(lambda book: squad_board(book, self.clock.today()), done.append)
        self.qtbot.waitUntil(lambda: bool(done))
        self.view.show_board(done[0])

    def row(self, surname: str) -> Any:
        return next(r for r in self.view.rows if r.entry.tonight.line.surname == surname)

    def facts(self, kind):
        """Return what stands of one kind in the casebook."""
        found: list[Any] = []
        self.session.ask(lambda book: book.all_of(kind), found.append)
        self.qtbot.waitUntil(lambda: bool(found))
        return [standing.value for standing in found[0]]

    def drafts(self):
        """Return what the casebook keeps of what is not saved, by place."""
        found: list[Any] = []
        self.session.ask(lambda book: book.drafts(), found.append)
        self.qtbot.waitUntil(lambda: bool(found))
        return found[0]

    def later(self, **passed):
        self.now += timedelta(**passed)

    def close(self):
        self.view.close()
        self.session.finish()
        assert not self.failures


@pytest.fixture
def evening(qtbot, appearance, tmp_path):
    """Make evenings; the last one is closed in order."""
    made: list[Evening] = []

    def make(**changes):
        made.append(Evening(qtbot, tmp_path / f"casebook{len(made)}", **changes))
        return made[-1]

    yield make
    for one in made:
        one.close()
