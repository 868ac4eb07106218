"""The end of an evening as values: what is proposed, why, and what the coach would see."""

from dataclasses import dataclass
from datetime import date
from enum import Enum
from typing import Any


class ProposedKind(Enum):
    """What a proposal would change; all but a level need the athlete confirmed by name."""

    LEVEL = "level"
    STAGE = "stage"
    AVAILABILITY = "availability"
    SIGN_OFF = "sign-off"


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposed:
    """One line of the closing list.

    ``value`` is the fact to note when it is accepted, None where a form must be filled in
    (a clearance is signed, limits are chosen). ``coach_before`` and ``coach_after`` word the
    athlete's line on the coach's sheet, equal where it would not change. ``provisional``: it
    counts from now on, and is looked at again when the next morning's response is in.
    ``moves``: it would change something; a proposal to stay only tells its reason.
    ``stopped``: rehab is stopped; ``flagged``: a red flag is open.
    ``evening`` is the day it was worked out for: whoever accepts works it out again.
    """

    athlete_id: str
    case_id: str
    name: str
    kind: ProposedKind
    words: str
    reason: str
    moves: bool
    value: Any = None
    provisional: bool = False
    coach_before: str = ""
    coach_after: str = ""
    cautions: tuple[str, ...] = ()
    stopped: bool = False
    flagged: bool = False
    evening: date | None = None

    @property
    def needs_name(self) -> bool:
        """Return whether the athlete must be confirmed by name before it is noted."""
        return self.kind is not ProposedKind.LEVEL


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningCount:
    """How the evening stands: rows entered, rows missed with a reason, names still open.

    ``changes`` are the sentences on what the coach would read anew since the last sheet.
    ``misled`` names who is stopped while the sheet still says that they train or play,
    ``typed`` whose row is typed and not saved.
    """

    entered: int
    missed: int
    open: tuple[str, ...] = ()
    changes: tuple[str, ...] = ()
    misled: tuple[str, ...] = ()
    typed: tuple[str, ...] = ()
