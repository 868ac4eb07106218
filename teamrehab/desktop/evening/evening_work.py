"""What the evening page has others work out, save and keep."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from teamrehab.domain.history import History
from teamrehab.protocols import injury_catalogue
from teamrehab.reports.evening import EveningLine, evening_lines
from teamrehab.reports.stopped import Unstated, stopped_unstated
from teamrehab.tasks.board import Board
from teamrehab.tasks.evening import save_row
from teamrehab.tasks.moving import move_row

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


@dataclass(frozen=True, slots=True, kw_only=True)
class RowToSave:
    """A row as it goes to the disk: values of one case, and the fact that they replace.

    ``again``: a second session of the evening is meant. ``draft`` is the place of the draft
    they were typed in, which goes in the same transaction.
    """

    history: History
    values: tuple[Any, ...]
    replaces: str = ""
    again: bool = False
    draft: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningWork:
    """``lines`` of an evening; ``save`` a row; ``move`` facts to another case; drafts.

    ``unstated``: who is stopped while the sheet says otherwise. ``keep`` keeps a text under
    its place, "" drops it. All but ``lines`` and ``unstated`` run on the casebook's thread.
    """

    lines: Callable[[Board, date], tuple[EveningLine, ...]]
    unstated: Callable[[Board], tuple[Unstated, ...]]
    save: "Callable[[Casebook, RowToSave], Receipt]"
    move: "Callable[[Casebook, Sequence[str], History], Receipt]"
    keep: "Callable[[Casebook, str, str], None]"
    drafts: "Callable[[Casebook], Mapping[str, str]]"


def evening_work() -> EveningWork:
    """Return what the page has done for it in an open casebook."""
    return EveningWork(
        lines=_lines,
        unstated=unstated_on,
        save=_save,
        move=move_row,
        keep=keep_draft,
        drafts=read_drafts,
    )


def unstated_on(board: Board) -> tuple[Unstated, ...]:
    """Return who is stopped while the coach's sheet says otherwise."""
    return stopped_unstated(board.squad, board.protocols)


def _lines(board: Board, day: date) -> tuple[EveningLine, ...]:
    return evening_lines(board.squad, board.protocols, injury_catalogue(), day, board.now)


def _save(casebook: "Casebook", row: RowToSave) -> "Receipt":
    replaces = (row.replaces,) if row.replaces else None
    return save_row(
        casebook,
        row.history,
        row.values,
        replaces=replaces,
        again=row.again,
        drops_draft=row.draft,
    )


def keep_draft(casebook: "Casebook", place: str, text: str) -> None:
    """Keep a text under its place, "" drops what is kept there."""
    if text:
        casebook.keep_draft(place, text)
    else:
        casebook.drop_draft(place)


def read_drafts(casebook: "Casebook") -> Mapping[str, str]:
    """Return the texts that are kept, by place."""
    return casebook.drafts()
