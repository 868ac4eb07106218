"""An athlete's page over a real casebook with one case in rehab."""

from datetime import timedelta
from itertools import count
from typing import Any

import pytest
from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.page import AthletePage
from teamrehab.desktop.session import Session
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.days import Clock, Fixture
from teamrehab.domain.injuries import Certainty, Diagnosis, ProtocolChosen, StageMoved
from teamrehab.domain.measures import HeelRaiseTest, Hops, HopTest, Raises, Symptom
from teamrehab.protocols import load_protocols
from teamrehab.records import Cost, create_casebook, open_casebook
from teamrehab.tasks.board import squad_board
from tests.builders import athlete, case, clock, day

TODAY = day(20)
PASSPHRASE = "four words that nobody owns"
CALF_SIGNS = load_protocols()["calf_strain"].guidance.signs
IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}


def ticking():
    """Return a clock of that evening on which every look is a second later."""
    seconds = count(1)
    standing_still = clock(TODAY).now()
    return Clock(lambda: standing_still + timedelta(seconds=next(seconds)), "UTC")


def raises(test_id, number, left, right, **changes):
    values: dict[str, Any] = {
        "left": Raises(left),
        "right": Raises(right),
        "symptom": Symptom(0),
    }
    return HeelRaiseTest(test_id=test_id, on=day(number), **IDS, **(values | changes))


def no_red_flag(qtbot, form):
    """Answer both questions about red flags of a new injury."""
    qtbot.keyClicks(form.flags.chest, "n")
    qtbot.keyClicks(form.flags.pop, "n")


def course():
    """Return what stands of the case: a calf strain with Strength opened on day 7."""
    version = load_protocols()["calf_strain"].version
    return (
        case(area="lower leg"),
        Diagnosis(on=day(2), injury="calf_strain", certainty=Certainty.CONFIRMED, **IDS),
        ProtocolChosen(on=day(2), protocol="calf_strain", version=version, **IDS),
        AvailabilityStated(on=day(0), training=Training.NONE, match=Match.NOT_AVAILABLE, **IDS),
        StageMoved(on=day(7), stage=2, proposed=2, **IDS),
        raises("h1", 12, 14, 28),
        raises("h2", 19, 22, 28, symptom=Symptom(1)),
        HopTest(test_id="p1", on=day(19), left=Hops(11), right=Hops(24), **IDS),
    )


@pytest.fixture
def folder(tmp_path):
    """A closed casebook: the athlete in rehab, a healthy one, a minor, and a match."""
    folder = tmp_path / "harbour-rovers"
    book = create_casebook(
        folder,
        team=Team(name="Harbour Rovers"),
        founder=StaffMember(staff_id="s1", name="Ines Duarte"),
        passphrase=PASSPHRASE,
        clock=clock(TODAY),
        cost=Cost(memory_kib=64, passes=1, lanes=1),
    )
    with book:
        book.note(
            athlete(),
            athlete(athlete_id="a2", surname="Silva", number=9),
            athlete(athlete_id="a3", surname="Young", number=10, born=day(-6000)),
            Fixture(fixture_id="m1", on=day(24), opponent="Saltreach"),
        )
        book.note(*course())
    return folder


@pytest.fixture
def session(qtbot, folder):
    """The casebook open in a session, closed in order afterwards."""
    opening = Session(lambda: open_casebook(folder, passphrase=PASSPHRASE, clock=ticking()))
    qtbot.waitUntil(lambda: opening.is_open)
    yield opening
    opening.finish()


class Opened:
    """A page that follows the casebook, with what a person does to it."""

    def __init__(self, qtbot, session):
        self.qtbot, self.session = qtbot, session
        self.page = AthletePage(session)
        qtbot.addWidget(self.page)
        self.boards = 0
        session.board_changed.connect(self.refresh)
        self.refresh()
        self.page.resize(800, 900)
        with qtbot.waitActive(self.page):
            self.page.show()
            self.page.activateWindow()
        qtbot.waitUntil(lambda: self.boards == 1)

    def refresh(self):
        self.session.ask(lambda book: squad_board(book, TODAY), self._show)

    def _show(self, board):
        self.page.show_board(board)
        self.boards += 1

    def show(self, athlete_id):
        self.page.show_athlete(athlete_id)
        return self.page.view

    def ask(self, act):
        """Do as the action's button or menu entry does; return the form's window."""
        self.page.view.actions_bar.actions_by_act[act].trigger()
        return self.dialog()

    def dialog(self) -> Any:
        dialog = self.page.dialog
        assert dialog is not None
        dialog.activateWindow()
        self.qtbot.waitUntil(dialog.isActiveWindow)
        return dialog

    def note(self, *values):
        """Note values as another form would, and wait until the page has seen them."""
        before = self.boards
        self.session.write(lambda book: book.note(*values), "")
        self.qtbot.waitUntil(lambda: self.boards > before)

    def save(self):
        """Press Ctrl+Enter and wait until the page has seen the new board."""
        before = self.boards
        self.press(self.page.dialog)
        self.qtbot.waitUntil(lambda: self.boards > before)
        assert self.page.dialog is None

    def press(self, dialog):
        self.qtbot.keyClick(dialog, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)

    def noted(self, kind):
        """Return what stands of a kind in the casebook."""
        found: list[Any] = []
        self.session.ask(lambda book: book.all_of(kind), found.append)
        self.qtbot.waitUntil(lambda: bool(found))
        return [fact.value for fact in found[0]]


@pytest.fixture
def opened(qtbot, session):
    """The page over the casebook; nobody chosen yet."""
    return Opened(qtbot, session)
