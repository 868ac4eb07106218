"""An evening as it was closed: what was entered, and who says so."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningSigned:
    """The signature under an evening's entries.

    ``entered`` rows have a session, ``missed`` say why there is none, ``open`` were left not
    entered.
    """

    on: date
    signed_by: str
    entered: int
    missed: int
    open: int
