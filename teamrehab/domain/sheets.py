"""What was told to the coach, kept so that the next sheet can say what changed."""

from dataclasses import dataclass
from datetime import date

from teamrehab.domain.availability import Match, Training


@dataclass(frozen=True, slots=True)
class SheetLine:
    """What one athlete's line said: nothing clinical.

    ``match_words`` is the answer for matches with minutes and role as the coach read it, ""
    on sheets from before it was kept.
    """

    athlete_id: str
    training: Training
    match: Match
    limits: str = ""
    window: str = ""
    match_words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetIssued:
    """A coach's sheet that was printed or saved; numbered from 1."""

    number: int
    on: date
    signed: str
    lines: tuple[SheetLine, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Disclosed:
    """A sentence the athlete agreed to have on one sheet: typed, never filled in.

    It counts for sheets printed from ``on`` to ``until``.
    """

    athlete_id: str
    on: date
    until: date
    sentence: str
    consent_taken_by: str
