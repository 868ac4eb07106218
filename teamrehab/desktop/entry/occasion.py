"""For whom and when something is typed: what every form of a case needs to make its values."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.injuries import Side


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """An athlete, a day, and the case concerned ("" for a healthy athlete's values).

    ``signer`` is the name of who is at the desk, with the role; ``new_id`` answers fresh ids.
    """

    athlete: Athlete
    today: date
    new_id: Callable[[], str]
    case_id: str = ""
    injured: Side = Side.NOT_APPLICABLE
    signer: str = ""
