"""The athlete page joined to the open casebook: asks, saves, shows what came of it."""

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.acts import (
    Desk,
    asked_for,
    correction,
    event_withdrawal,
    flag_closing,
    withdrawal,
)
from teamrehab.desktop.athlete.asking import Asking, desk_for
from teamrehab.desktop.athlete.events import Event
from teamrehab.desktop.athlete.examining import DiagnosisOffer
from teamrehab.desktop.athlete.portrait import Portrait
from teamrehab.desktop.athlete.view import AthleteView
from teamrehab.desktop.entry.dialog import FormDialog
from teamrehab.desktop.session import Session
from teamrehab.domain.examination import EarlierInjury
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import RedFlag
from teamrehab.domain.measures import (
    HeelRaiseTest,
    HopTest,
    JumpTest,
    KneeToWallTest,
    LoadedRaiseTest,
    RunTest,
)
from teamrehab.language import _
from teamrehab.protocols import injury_catalogue
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.desktop.protocol_choice import OpenNow
    from teamrehab.records import Casebook

_BASELINE = (HeelRaiseTest, HopTest, RunTest, JumpTest, KneeToWallTest, LoadedRaiseTest)
"""Tests a healthy athlete may have."""


class AthletePage(QWidget):
    """One athlete of the board; every save goes through the session."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._board: Board | None = None
        self._athlete_id, self._case_id = "", ""
        self._past = _Past()
        self._asking = Asking(session, self)
        self.view, self.pages = AthleteView(), QStackedWidget()
        nobody = text(_("Choose an athlete in the table: Enter or a click."), Type.LEAD)
        nobody.setAlignment(Qt.AlignmentFlag.AlignCenter)
        nobody.setWordWrap(True)
        self.pages.addWidget(nobody)
        self.pages.addWidget(self.view)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.pages)
        self._connect()

    @property
    def dialog(self) -> FormDialog | None:
        """Return the form that is open over the page."""
        return self._asking.dialog

    @property
    def has_unsaved(self) -> bool:
        """Return whether something is typed that is not in the casebook yet."""
        return self._asking.has_unsaved

    def show_board(self, board: Board) -> None:
        """Show the same athlete as of a newer board."""
        self._board = board
        self._show()

    def show_athlete(self, athlete_id: str) -> None:
        """Show an athlete of the board."""
        if athlete_id != self._athlete_id:
            self._athlete_id, self._case_id, self._past = athlete_id, "", _Past()
            self.view.verticalScrollBar().setValue(0)
        self._show()
        self._ask_past()

    def portrait(self) -> Portrait | None:
        """Return what is shown, None while no athlete is chosen or the athlete has left."""
        rows = self._board.rows if self._board is not None else ()
        row = next((row for row in rows if row.athlete_id == self._athlete_id), None)
        if row is None or self._board is None:
            return None
        return Portrait(
            squad=self._board.squad,
            now=self._board.now,
            row=row,
            protocols=self._board.protocols,
            catalogue=injury_catalogue(),
            case_id=self._case_id,
            baseline=self._past.baseline,
            earlier=self._past.earlier,
        )

    def open_now(self) -> "OpenNow | None":
        """Return what the case shown follows; None without one, or while it is covered."""
        from teamrehab.desktop.protocol_choice import OpenNow

        portrait = self.portrait() if self.isVisible() else None
        if portrait is None or portrait.history is None or portrait.decision is None:
            return None
        chosen, case_id = portrait.history.protocol, portrait.history.case.case_id
        stage = portrait.decision.stage
        if chosen is None:
            return None
        return OpenNow(chosen.protocol, chosen.version, stage, case_id)

    def _connect(self) -> None:
        view = self.view
        view.actions_bar.asked.connect(self._open_act)
        view.case_chosen.connect(self._choose_case)
        view.steps.moving.connect(self._move)
        view.steps.clearing.connect(self._clear)
        view.steps.diagnosing.connect(self._diagnose)
        view.progress.reading.connect(self._read_protocol)
        view.case.flag_closing.connect(self._close_flag)
        view.entries.correcting.connect(self._correct)
        view.entries.withdrawing.connect(self._withdraw)
        view.baseline.correcting.connect(self._correct)
        view.baseline.withdrawing.connect(self._withdraw)
        view.events.withdrawing.connect(self._withdraw_event)
        self._asking.offering.connect(self._offer)
        self._session.noted.connect(self._ask_past)

    def _show(self) -> None:
        portrait = self.portrait()
        self.pages.setCurrentIndex(0 if portrait is None else 1)
        if portrait is not None:
            self.view.show_portrait(portrait)

    def _choose_case(self, case_id: str) -> None:
        self._case_id = case_id
        self._show()

    def _ask_past(self) -> None:
        if self._athlete_id:
            self._session.ask(partial(_past_of, athlete_id=self._athlete_id), self._show_past)

    def _show_past(self, past: "_Past") -> None:
        if past.athlete_id == self._athlete_id and past != self._past:
            self._past = past
            self._show()

    def _desk(self) -> Desk | None:
        portrait = self.portrait()
        return None if portrait is None else desk_for(portrait, self._session.about)

    def _open_act(self, act: Act) -> None:
        if (desk := self._desk()) is not None:
            self._asking.ask(asked_for(act, desk), desk)

    def _move(self) -> None:
        self._open_act(Act.MOVE)

    def _clear(self) -> None:
        self._open_act(Act.CLEAR)

    def _offer(self, _act: Act) -> None:
        """Offer the diagnosis once an examination is saved."""
        self.offer = DiagnosisOffer(self)
        self.offer.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.offer.now.clicked.connect(self._diagnose)
        self.offer.open()

    def _diagnose(self) -> None:
        self._open_act(Act.DIAGNOSIS)

    def _read_protocol(self) -> None:
        from teamrehab.desktop.protocol_page import protocols_dialog

        protocols_dialog(self.open_now(), self, self._session).open()

    def _correct(self, fact: Standing[Any]) -> None:
        if (desk := self._desk()) is not None:
            self._asking.ask(correction(desk, fact), desk)

    def _withdraw(self, fact: Standing[Any]) -> None:
        if (desk := self._desk()) is not None:
            self._asking.ask(withdrawal(desk, fact), desk)

    def _withdraw_event(self, event: Event) -> None:
        if (desk := self._desk()) is not None:
            self._asking.ask(event_withdrawal(desk, event), desk)

    def _close_flag(self, flag: RedFlag) -> None:
        if (desk := self._desk()) is not None:
            self._asking.ask(flag_closing(desk, flag), desk)


@dataclass(frozen=True, slots=True)
class _Past:
    """What the board does not hold: healthy tests, earlier injuries, closed cases."""

    athlete_id: str = ""
    baseline: tuple[Standing[Any], ...] = ()
    earlier: tuple[History, ...] = ()


def _past_of(book: "Casebook", athlete_id: str) -> _Past:
    """Return what an athlete has without an open case, and the closed cases, newest first."""
    tests = [f for kind in _BASELINE for f in book.all_of(kind) if not f.value.case_id]
    facts: list[Standing[Any]] = [*tests, *book.all_of(EarlierInjury)]
    own = [f for f in facts if f.value.athlete_id == athlete_id]
    closed = [h for h in book.cases_of(athlete_id) if h.closed is not None]
    return _Past(
        athlete_id,
        tuple(sorted(own, key=lambda f: f.value.on)),
        tuple(sorted(closed, key=lambda h: h.case.on, reverse=True)),
    )
