"""The evening page as values: one line an athlete in rehab."""

from dataclasses import dataclass
from typing import Any

from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import Side
from teamrehab.domain.plans import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningLine:
    """One open case on one evening, as it stands before anything is typed.

    ``alike``: another athlete on the page has a surname that is easily taken for this one.
    ``plan_words``, ``last_words``, ``morning_words`` and ``due`` are short words for cells.
    ``noted`` are the sessions (done or missed) that stand for this evening, the newest last;
    ``away``: not expected tonight, so the line stands last. ``phase`` is that of the stage.
    """

    athlete_id: str
    case_id: str
    number: int | None
    surname: str
    first_name: str
    side: Side
    problem: str
    stage: str
    plan: Plan
    plan_words: str
    history: History
    phase: int | None = None
    last_words: str = ""
    morning_words: str = ""
    due: tuple[str, ...] = ()
    alike: bool = False
    away: bool = False
    stopped: str = ""
    noted: tuple[Standing[Any], ...] = ()
