"""The squad board on screen: there at once, the likely returns filled in a moment later."""

from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal

from teamrehab.desktop.background import Workers, prepare_to_draw, prepare_to_estimate
from teamrehab.desktop.session import Session
from teamrehab.domain.history import History
from teamrehab.records import Casebook
from teamrehab.tasks.board import Board, squad_board, with_estimates

_LOOK_EVERY_MS = 60_000


class Boards(QObject):
    """The newest board. ``changed`` comes twice: without estimates, then with them.

    ``warm`` comes once all that is heavy is imported and no worker keeps the window waiting.

    Nothing heavy is imported and nothing estimated before ``begin_estimates``, which is
    called once the first board has been painted.
    """

    changed = Signal(object)
    warm = Signal()

    def __init__(
        self, session: Session, workers: Workers, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._workers = workers
        self._asked = 0
        self._estimating = False
        self.board: Board | None = None
        self.has_estimates, self.is_warm = False, False
        session.board_changed.connect(self.refresh)
        self._night_watch = QTimer(self)
        self._night_watch.timeout.connect(self._turn_day)
        self._night_watch.start(_LOOK_EVERY_MS)

    def refresh(self) -> None:
        """Work the board out again, from what the casebook holds now."""
        self._asked += 1
        today = self._session.about.clock.today()
        first = partial(self._show_first, self._asked)
        self._session.ask(partial(squad_board, today=today), first)

    def begin_estimates(self) -> None:
        """Import what is heavy, then fill in the likely returns, now and from now on."""
        if not self._estimating:
            self._estimating = True
            self._workers.ask(prepare_to_estimate, None, self._session.failed.emit)
            self._estimate()

    def _turn_day(self) -> None:
        """Begin a new day's board in a window that stayed open past 04:00."""
        today = self._session.about.clock.today()
        if self.board is not None and self.board.squad.day != today:
            self.refresh()

    def _show_first(self, asked: int, board: Board) -> None:
        if asked == self._asked:
            self._show(board, has_estimates=False)
            self._estimate()

    def _estimate(self) -> None:
        if self._estimating and self.board is not None:
            learn = partial(self._learn, self._asked, self.board)
            self._session.ask(_past_cases, learn, self._not_learned)

    def _learn(self, asked: int, board: Board, past: tuple[History, ...]) -> None:
        if asked == self._asked:
            work = partial(with_estimates, board, past)
            second = partial(self._show_second, asked)
            self._workers.ask(work, second, self._session.failed.emit)
            self._warm_up()

    def _not_learned(self, error: Exception) -> None:
        self._warm_up()
        self._session.failed.emit(error)

    def _warm_up(self) -> None:
        if not self.is_warm:
            self._workers.ask(prepare_to_draw, self._warmed_up, self._session.failed.emit)

    def _warmed_up(self, _imported: None) -> None:
        if not self.is_warm:
            self.is_warm = True
            self.warm.emit()

    def _show_second(self, asked: int, board: Board) -> None:
        if asked == self._asked:
            self._show(board, has_estimates=True)

    def _show(self, board: Board, *, has_estimates: bool) -> None:
        self.board, self.has_estimates = board, has_estimates
        self.changed.emit(board)


def _past_cases(casebook: Casebook) -> tuple[History, ...]:
    return casebook.past_cases()
