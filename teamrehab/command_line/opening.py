"""Open a casebook from the command line: the passphrase from a prompt or a named file."""

import sys
from getpass import getpass
from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from teamrehab.domain.days import Clock
from teamrehab.language import _
from teamrehab.records import Casebook, is_protected, open_casebook, people_of
from teamrehab.tasks.refusals import RefusedError

Passphrase = Annotated[
    Path | None,
    Parameter(help="A file whose first line is the passphrase; asked for if left out."),
]


def opened(folder: Path, passphrase_file: Path | None, clock: Clock) -> Casebook:
    """Return the casebook in ``folder``, unlocked; use it in a ``with`` block."""
    locked = people_of(folder) and is_protected(folder)  # nobody is asked for a wrong folder
    spoken = passphrase(passphrase_file) if locked else ""
    return open_casebook(folder, passphrase=spoken, clock=clock)


def passphrase(file: Path | None) -> str:
    """Return the passphrase from the first line of ``file``, or ask for it unseen.

    Raises:
        RefusedError: the file cannot be read, or nobody is there to be asked.
    """
    if file is None:
        return _asked()
    try:
        lines = file.read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError) as trouble:
        raise RefusedError(
            _("The passphrase file {file} could not be read. Name a UTF-8 text file.").format(
                file=file
            )
        ) from trouble
    if not lines:
        raise RefusedError(
            _(
                "The passphrase file {file} is empty. Write the passphrase on its first line."
            ).format(file=file)
        )
    return lines[0]


def _asked() -> str:
    if not sys.stdin.isatty():
        raise RefusedError(
            _("No passphrase was given. Name a file that holds it with --passphrase-file.")
        )
    return getpass(_("Passphrase: "))
