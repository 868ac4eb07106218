"""That the red flags of a protocol were gone through, and what was seen."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class SignsAsked:
    """The red flags of a protocol, gone through one by one.

    ``asked`` and ``seen`` are keys of warning signs; what is not among ``seen`` was answered
    with no. It rules nothing out.
    """

    asked_id: str
    case_id: str
    athlete_id: str
    on: date
    asked: tuple[str, ...]
    seen: tuple[str, ...] = ()
