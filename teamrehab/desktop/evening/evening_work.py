"""What the evening page has others work out, save and keep."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from teamrehab.domain.history import History
from teamrehab.reports.evening import EveningLine
from teamrehab.tasks.board import Board

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningWork:
    """``lines`` of an evening; ``save`` a row; ``move`` facts to another case; drafts.

    ``save`` gets the case, the values, the facts they replace, and whether a second session of
    the evening is meant. ``keep`` keeps a text under its place, "" drops it. All but ``lines``
    run on the casebook's thread.
    """

    lines: Callable[[Board, date], tuple[EveningLine, ...]]
    save: "Callable[[Casebook, History, tuple[Any, ...], Sequence[str] | None, bool], Receipt]"
    move: "Callable[[Casebook, Sequence[str], History], Receipt]"
    keep: "Callable[[Casebook, str, str], None]"
    drafts: "Callable[[Casebook], Mapping[str, str]]"
