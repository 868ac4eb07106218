"""What the closing page has others work out and note."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from teamrehab.desktop.evening.evening_work import unstated_on
from teamrehab.domain.history import History
from teamrehab.reports.closing import EveningCount, Proposed
from teamrehab.reports.stopped import misled
from teamrehab.tasks import closing
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


def evening_end(board: Board, day: date) -> tuple[tuple[Proposed, ...], EveningCount]:
    """Return what is proposed and how the evening stands, with whom the sheet misleads on."""
    proposed, count = closing.evening_end(board, day)
    return proposed, replace(count, misled=misled(unstated_on(board)))


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosingWork:
    """``read`` an evening's end, ``accept`` a proposal for a name, ``sign`` the evening."""

    read: Callable[[Board, date], tuple[tuple[Proposed, ...], EveningCount]] = evening_end
    accept: "Callable[[Casebook, History, Proposed, str], Receipt]" = closing.accept
    sign: "Callable[[Casebook, date, EveningCount], Receipt]" = closing.sign
