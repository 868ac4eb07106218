"""What is said of a file, or of a part of one, that cannot be taken in."""

from dataclasses import dataclass

from typing_extensions import override

from teamrehab.domain.plausibility import Implausible
from teamrehab.language import _


class UnreadableFileError(Exception):
    """The file as a whole cannot be read; the message is fit to be shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowProblem:
    """One cell that cannot stand: its line in the file, its column's heading, and why."""

    line: int
    column: str
    what: Implausible

    @override
    def __str__(self) -> str:
        """Return one sentence fit to be shown in a list of problems."""
        return _("Line {line}: {what}").format(line=self.line, what=self.what)
