"""What the command line prints, and how it tells a refusal from a fault."""

import sys
import traceback
from collections.abc import Sequence
from pathlib import Path

from teamrehab import __version__
from teamrehab.language import _, counted
from teamrehab.protocols import ProtocolError
from teamrehab.records import CasebookCheck, RecordsError
from teamrehab.reports.squad_text import columns, squad_values
from teamrehab.reports.wording import outlook_sentence
from teamrehab.tasks.board import Board
from teamrehab.tasks.importing import TakenIn
from teamrehab.tasks.refusals import RefusedError

KNOWN = (RefusedError, RecordsError, ProtocolError)
REFUSAL, FAULT = 1, 2


def say(text: str) -> None:
    """Print one answer."""
    print(text)  # noqa: T201


def refuse(sentence: str) -> int:
    """Say why it was not done; return the exit code."""
    print(sentence, file=sys.stderr)  # noqa: T201
    return REFUSAL


def own_fault(trouble: Exception) -> int:
    """Say that the program is at fault, without values or names; return the exit code."""
    places = [f"{Path(f.filename).name}:{f.lineno} {f.name}" for f in _frames(trouble)]
    say_where = " < ".join(reversed(places))
    print(  # noqa: T201
        _("teamrehab {version} made a mistake ({kind}): {where}").format(
            version=__version__, kind=type(trouble).__name__, where=say_where
        ),
        file=sys.stderr,
    )
    return FAULT


def _frames(trouble: Exception) -> list[traceback.FrameSummary]:
    return list(traceback.extract_tb(trouble.__traceback__))


def print_squad(board: Board) -> None:
    """Print the squad as a table."""
    from rich.console import Console
    from rich.table import Table

    console = Console()
    if not console.is_terminal:
        console = Console(width=200)
    table = Table(box=None, pad_edge=False, header_style="bold")
    for column in columns():
        table.add_column(column.heading, overflow="fold")
    for values in squad_values(board.rows):
        table.add_row(*(values[column.key] for column in columns()))
    console.print(outlook_sentence(board.outlook), highlight=False)
    console.print(table)


def print_json(board: Board) -> None:
    """Print the squad as JSON: the same values as the table."""
    import json

    say(json.dumps(squad_values(board.rows), ensure_ascii=False, indent=1))


def print_problems(problems: Sequence[object]) -> None:
    """Name every row that could not be read."""
    for problem in problems:
        print(problem, file=sys.stderr)  # noqa: T201


def print_taken_in(done: TakenIn) -> None:
    """Say how much of a file was new, changed, and known already."""
    say(
        _("{new} new, {changed} changed, {unchanged} known already").format(
            new=done.new, changed=done.changed, unchanged=done.unchanged
        )
    )


def print_check(found: CasebookCheck) -> None:
    """Print that a casebook is sound, or raise RefusedError with every trouble found."""
    if found.troubles:
        raise RefusedError("\n".join(found.troubles))
    say(counted("{count} entry, chain whole", "{count} entries, chain whole", found.facts))


def print_protocol_check(files: Sequence[tuple[Path, Sequence[ProtocolError]]]) -> None:
    """Print which protocol files are sound; raise RefusedError with every fault of the rest."""
    for file, faults in files:
        if not faults:
            say(_("{file}: a sound protocol file.").format(file=file.name))
    told = [str(fault) for _file, faults in files for fault in faults]
    if told:
        raise RefusedError("\n".join(told))
