"""What the closing page has others work out and note."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from teamrehab.domain.history import History
from teamrehab.reports.closing import EveningCount, Proposed
from teamrehab.tasks import closing
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosingWork:
    """``read`` an evening's end, ``accept`` a proposal for a name, ``sign`` the evening."""

    read: Callable[[Board, date], tuple[tuple[Proposed, ...], EveningCount]] = (
        closing.evening_end
    )
    accept: "Callable[[Casebook, History, Proposed, str], Receipt]" = closing.accept
    sign: "Callable[[Casebook, date, EveningCount], Receipt]" = closing.sign
