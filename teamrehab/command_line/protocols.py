"""The commands about protocol files: check them, and read one as a person would write it."""

from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import App, Parameter

from teamrehab.command_line import answers
from teamrehab.command_line.opening import Passphrase, opened
from teamrehab.domain.days import Clock
from teamrehab.language import _
from teamrehab.tasks.refusals import RefusedError

if TYPE_CHECKING:
    from teamrehab.domain.protocol import Protocol

File = Annotated[Path, Parameter(help="A protocol file (TOML).")]
Folder = Annotated[Path, Parameter(help="The folder of the casebook.")]
Which = Annotated[str, Parameter(help="The key of a protocol that is here, or a file.")]


def protocol_commands(app: App, clock: Clock) -> None:
    """Add the commands ``protocol check``, ``show`` and ``adopt`` to ``app``."""
    group = App(name="protocol", help="Check protocol files, read one, take one in.")
    group.command(_check, name="check")
    group.command(_show, name="show")
    _adopt(group, clock)
    app.command(group)


def _check(file: File, *more: File) -> None:
    """Check protocol files: what is wrong with each, and how to mend it."""
    from teamrehab.protocols import check_file

    answers.print_protocol_check([(each, check_file(each)) for each in (file, *more)])


def _adopt(group: App, clock: Clock) -> None:
    @group.command
    def adopt(folder: Folder, file: File, *, passphrase_file: Passphrase = None) -> None:
        """Take a protocol file of the club's own into a casebook, checked in full before."""
        from teamrehab.tasks.own_protocols import take_in_protocol, taken_words

        with opened(folder, passphrase_file, clock) as casebook:
            answers.say(taken_words(take_in_protocol(casebook, file)))


def _show(which: Which) -> None:
    """Print a protocol as a person would write it, sources beside the numbers."""
    from teamrehab.protocols import injury_catalogue
    from teamrehab.reports.protocol_text import protocol_page, protocol_text

    sections = protocol_text(_protocol(which), injury_catalogue())
    answers.say(protocol_page(sections).rstrip("\n"))


def _protocol(which: str) -> "Protocol":
    """Return the protocol of a key or in a file, or raise RefusedError with what is wrong."""
    from teamrehab.protocols import check_file, load_protocols, read_file

    here = load_protocols()
    if which in here:
        return here[which]
    path = Path(which)
    if not path.suffix and not path.exists():
        near = get_close_matches(which, here, 1)
        said = _("There is no protocol {key}. Did you mean {near}? There are: {keys}.")
        plain = _("There is no protocol {key}. There are: {keys}.")
        words = {"key": which, "near": "".join(near), "keys": ", ".join(here)}
        raise RefusedError((said if near else plain).format(**words))
    faults = check_file(path)
    if faults:
        raise RefusedError("\n".join(str(fault) for fault in faults))
    return read_file(path)
