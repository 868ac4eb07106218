"""The squad board: first without estimates, so that it is there at once, then with them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import lru_cache
from typing import TYPE_CHECKING

from teamrehab.domain.estimates import Estimate, NoEstimate
from teamrehab.domain.history import History, Squad
from teamrehab.domain.injuries import ProtocolAdopted
from teamrehab.domain.protocol import Protocol, followed
from teamrehab.protocols import injury_catalogue, protocols_at_hand, protocols_for
from teamrehab.records import Casebook
from teamrehab.reports.findings import Outlook, SquadRow
from teamrehab.reports.review import outlook, squad_rows

if TYPE_CHECKING:
    from teamrehab.forecast import ClubModel, Course

Estimates = Mapping[str, Estimate | NoEstimate]


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """The squad on a day with its rows; ``own`` are the club's own protocol files."""

    squad: Squad
    rows: tuple[SquadRow, ...]
    outlook: Outlook
    now: datetime
    own: tuple[ProtocolAdopted, ...] = ()

    @property
    def protocols(self) -> dict[str, Protocol]:
        """Return all protocols at hand; reading them takes longer than the board does."""
        return protocols_at_hand(self.own)


def squad_board(casebook: Casebook, today: date) -> Board:
    """Return the squad board of ``today`` without estimates: no season makes it slower."""
    board = _board(casebook.squad(today), casebook.clock.local(), {})
    return replace(board, own=own_protocols(casebook))


def full_board(casebook: Casebook, today: date) -> Board:
    """Return the squad board of ``today`` with the likely returns."""
    return with_estimates(squad_board(casebook, today), casebook.past_cases())


def with_estimates(board: Board, past: Sequence[History]) -> Board:
    """Return the same board with the likely returns, learned from ``past`` (pure)."""
    return replace(_board(board.squad, board.now, estimates_of(board, past)), own=board.own)


def estimates_of(board: Board, past: Sequence[History]) -> Estimates:
    """Return an estimate, or why there is none, for each open case."""
    from teamrehab import forecast

    day, published = board.squad.day, forecast.published_figures()
    model = _fitted(_courses(past, day))
    answers: dict[str, Estimate | NoEstimate] = {}
    asked: list[Course] = []
    for history in board.squad.open_cases:
        why_not = forecast.reason_for_none(history, board.now, published, board.squad.settings)
        if why_not is not None:
            answers[history.case.case_id] = why_not
        else:
            asked.append(forecast.course_of(history, phases_of(history), last_seen=day))
    for course, found in zip(asked, forecast.estimates(model, asked, day), strict=True):
        answers[course.case_id] = found
    return answers


def phases_of(history: History) -> tuple[int, ...]:
    """Return the phases of the stages of the protocol a case follows, () without one."""
    protocol = protocol_of(history)
    return () if protocol is None else protocol.phases


def protocol_of(history: History) -> Protocol | None:
    """Return the protocol a case follows, None without one or if it is not at hand."""
    return followed(history, _followed_by([history])).protocol


def _courses(past: Sequence[History], day: date) -> "tuple[Course, ...]":
    """Return the courses to learn from: those an adult figure could ever apply to."""
    from teamrehab.forecast import course_of, lasting_reason, published_figures

    published = published_figures()
    return tuple(
        course_of(history, phases_of(history), last_seen=day)
        for history in past
        if lasting_reason(history, published) is None
    )


@lru_cache(maxsize=1)
def _fitted(courses: "tuple[Course, ...]") -> "ClubModel":
    """Return the club's model; the same cases are not fitted twice."""
    from teamrehab.forecast import fit, published_figures

    return fit(courses, published_figures())


def _board(squad: Squad, now: datetime, estimates: Estimates) -> Board:
    protocols = _followed_by(squad.open_cases)
    rows = squad_rows(squad, protocols, injury_catalogue(), estimates, squad.day)
    return Board(squad=squad, rows=rows, outlook=outlook(squad, rows), now=now)


def own_protocols(casebook: Casebook) -> tuple[ProtocolAdopted, ...]:
    """Return the club's own protocol files, in the order they were taken in."""
    return tuple(fact.value for fact in casebook.all_of(ProtocolAdopted))


def _followed_by(histories: Sequence[History]) -> dict[str, Protocol]:
    """Return the protocols these cases follow; reading the others would delay the squad."""
    own = dict.fromkeys(file for history in histories for file in history.own)
    return protocols_for((h.protocol for h in histories if h.protocol is not None), own)
