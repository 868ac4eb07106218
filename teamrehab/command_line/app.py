"""The headless commands: a demo, the squad, the coach's sheet, files taken in, checks."""

from pathlib import Path
from typing import Annotated

from cyclopts import App, CycloptsError, Parameter

from teamrehab import __version__
from teamrehab.command_line import answers
from teamrehab.command_line.opening import Passphrase, opened
from teamrehab.command_line.protocols import protocol_commands
from teamrehab.domain.days import Clock
from teamrehab.language import _
from teamrehab.reports.sheet_text import sheet_text
from teamrehab.tasks import importing, sheets
from teamrehab.tasks.board import full_board

Folder = Annotated[Path, Parameter(help="The folder of the casebook.")]
Table = Annotated[Path, Parameter(help="The file to import.")]


def build(clock: Clock) -> App:
    """Return the commands; ``clock`` is the only time they know."""
    app = App(
        name="teamrehab",
        version=__version__,
        help="Rehab decisions, clearance estimates and availability for a sports team. "
        "Without a command the window opens.",
        help_format="plaintext",
    )
    for command in (_demo, _squad, _sheet, _roster, _fixtures, _check):
        command(app, clock)
    protocol_commands(app, clock)
    return app


def run(words: list[str], clock: Clock) -> int:
    """Run one command; return 0 for success, 1 for a refusal, 2 for a fault of ours."""
    app = build(clock)
    try:
        app(words, exit_on_error=False, print_error=False, result_action="return_value")
    except CycloptsError as trouble:
        return answers.refuse(str(trouble))
    except answers.KNOWN as trouble:
        return answers.refuse(str(trouble))
    except Exception as trouble:  # noqa: BLE001  the last place it can be told
        return answers.own_fault(trouble)
    return 0


def _demo(app: App, clock: Clock) -> None:
    @app.command
    def demo(
        *,
        text: Annotated[
            bool, Parameter(help="Print the squad; no window.", negative="")
        ] = False,
        sheet: Annotated[Path | None, Parameter(help="Where the PDF goes.")] = None,
    ) -> None:
        """Make the demo squad (invented, not protected) and show it."""
        from teamrehab.tasks import demo as demos

        del text  # the window is chosen before this command is reached
        folder = demos.demo_folder()
        with demos.make_demo(folder, clock) as casebook:
            board = full_board(casebook, clock.today())
        answers.print_squad(board)
        path = sheet or folder.with_name("demo-availability-sheet.pdf")
        sheets.write_pdf(sheets.prepare(board, signed=""), path)
        answers.say(_("Coach's sheet written to {path}").format(path=path))


def _squad(app: App, clock: Clock) -> None:
    @app.command
    def squad(
        folder: Folder,
        *,
        json: Annotated[bool, Parameter(help="Print JSON.", negative="")] = False,
        passphrase_file: Passphrase = None,
    ) -> None:
        """Print the squad: who can train, what is missing, when each is likely back."""
        with opened(folder, passphrase_file, clock) as casebook:
            board = full_board(casebook, clock.today())
        answers.print_json(board) if json else answers.print_squad(board)


def _sheet(app: App, clock: Clock) -> None:
    @app.command
    def sheet(
        folder: Folder,
        *,
        signed: Annotated[
            str, Parameter(help="Who signs it; a signed sheet is kept as sent.")
        ] = "",
        out: Annotated[
            Path | None, Parameter(help="The PDF to write; text if left out.")
        ] = None,
        passphrase_file: Passphrase = None,
    ) -> None:
        """Print the coach's availability sheet as text, or write it as PDF."""
        with opened(folder, passphrase_file, clock) as casebook:
            board = full_board(casebook, clock.today())
            made = sheets.prepare(board, signed=signed)
            if signed.strip():
                sheets.insist_on_signature(board, made)
            answers.print_problems(sheets.kept_off(board))
            if out is None:
                answers.say(sheet_text(made))
            else:
                sheets.write_pdf(made, out)
                answers.say(_("Coach's sheet written to {path}").format(path=out))
            if signed.strip():
                sheets.issue(casebook, board, made)


def _roster(app: App, clock: Clock) -> None:
    @app.command
    def roster(folder: Folder, table: Table, *, passphrase_file: Passphrase = None) -> None:
        """Import a roster from CSV or XLSX; rows that cannot be read are named."""
        preview = importing.preview_roster(table, clock.today())
        with opened(folder, passphrase_file, clock) as casebook:
            answers.print_problems(preview.problems)
            answers.print_problems(importing.doubts_about_roster(preview))
            answers.print_taken_in(importing.take_in_roster(casebook, preview))


def _fixtures(app: App, clock: Clock) -> None:
    @app.command
    def fixtures(folder: Folder, table: Table, *, passphrase_file: Passphrase = None) -> None:
        """Import fixtures from an iCalendar file; events that are no matches are named."""
        with opened(folder, passphrase_file, clock) as casebook:
            preview = importing.preview_fixtures(table, casebook.team, clock.today())
            answers.print_problems(preview.problems)
            answers.print_problems(importing.doubts_about_fixtures(preview))
            answers.print_taken_in(importing.take_in_fixtures(casebook, preview))


def _check(app: App, clock: Clock) -> None:
    @app.command
    def check(folder: Folder, *, passphrase_file: Passphrase = None) -> None:
        """Check a casebook: its pages, its chain of entries, every entry's own sum."""
        with opened(folder, passphrase_file, clock) as casebook:
            answers.print_check(casebook.check())
