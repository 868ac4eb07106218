"""What a report says, as frozen values: the screen, the paper and the files take the same."""

from dataclasses import dataclass
from datetime import date, datetime

from teamrehab.domain.availability import Availability, Match, Training
from teamrehab.domain.days import Fixture
from teamrehab.domain.decision import Decision
from teamrehab.domain.estimates import Estimate, NoEstimate


@dataclass(frozen=True, slots=True, kw_only=True)
class FixtureChance:
    """The chance of being cleared for one match; ``decided``: a person said so."""

    fixture_id: str
    on: date
    opponent: str
    chance: float
    decided: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LikelyReturn:
    """The likely return as it is shown: a range of 8 in 10, its median, chances for matches.

    ``club_cases`` are of all injuries, ``same_injury_cases`` of this one (None: not known).
    ``expected`` is a clinician's opinion, a day and never a range.
    """

    earliest: date | None
    median: date | None
    latest: date | None
    chances: tuple[FixtureChance, ...] = ()
    club_cases: int = 0
    same_injury_cases: int | None = None
    pace: float = 1.0
    not_before: date | None = None
    expected: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SquadRow:
    """One athlete's row of the squad table, clinical columns included.

    ``case_id`` is the case that keeps the athlete out longest ("" when healthy); ``days`` are
    days since onset, ``days_lost`` follow the consensus count. ``likely`` is None while it is
    still being worked out or where ``no_estimate`` says why there is none.
    """

    athlete_id: str
    number: int | None
    name: str
    surname: str
    position: str
    availability: Availability
    minor: bool = False
    case_id: str = ""
    other_cases: tuple[str, ...] = ()
    problem: str = ""
    side: str = ""
    decision: Decision | None = None
    days: int | None = None
    days_lost: int | None = None
    days_with_limits: int | None = None
    likely: LikelyReturn | None = None
    estimate: Estimate | None = None
    no_estimate: NoEstimate | None = None
    missing_next: str = ""
    last_entry: date | None = None

    @property
    def training(self) -> Training:
        """Return the training answer."""
        return self.availability.training

    @property
    def match(self) -> Match:
        """Return the match answer."""
        return self.availability.match


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchOutlook:
    """A coming match in one line: who is available, who possible, who out.

    ``expected_of_possible`` is the sum of the chances of the possible. ``being_assessed``
    counts those of whom nothing can be said yet: no range, no decision.
    """

    fixture: Fixture
    available: int
    possible: int
    expected_of_possible: float
    out: int
    being_assessed: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """The squad in one line: who can train today and how the coming matches look.

    ``away`` counts those absent for other than medical reasons; they are not in ``none``.
    """

    day: date
    full: int
    with_limits: int
    none: int
    away: int = 0
    matches: tuple[MatchOutlook, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChanceInWords:
    """A match in words and tenths, as the coach reads it; ``label`` is the match's day."""

    label: str
    words: str
    decided: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CoachLine:
    """One athlete on the coach's sheet. It has no place for anything clinical.

    ``printed_name`` is the Latin spelling for a font without the athlete's own letters.
    ``chances`` follow the sheet's coming matches one by one; they are empty for who plays,
    as long as nobody has decided otherwise for one of them.
    ``expected`` is the day the medical staff expect, a person's opinion. ``was_due`` is an
    update that was promised for a moment now past. ``disclosed`` is a sentence the athlete
    agreed to have on this sheet.
    """

    number: int | None
    name: str
    training: Training
    match: Match
    printed_name: str = ""
    may: tuple[str, ...] = ()
    may_not: tuple[str, ...] = ()
    until: date | None = None
    match_words: str = ""
    not_before: date | None = None
    earliest: date | None = None
    latest: date | None = None
    expected: date | None = None
    chances: tuple[ChanceInWords, ...] = ()
    next_update: datetime | None = None
    was_due: datetime | None = None
    reason: str = ""
    disclosed: str = ""

    @property
    def plays(self) -> bool:
        """Return whether nothing is to be said of matches but that the athlete plays."""
        return self.match is Match.AVAILABLE and not self.chances


@dataclass(frozen=True, slots=True, kw_only=True)
class CoachSheet:
    """The coach's sheet, ready to be drawn or written as text.

    ``days`` are the days of the week with their distance to a match ("MD-2"). ``changed``
    says what changed since sheet ``compared_with`` (None: there was none before).
    ``signed`` is as typed; where it is not ``signature_fit`` for a coach it is never printed.
    """

    team: str
    week: tuple[date, date]
    printed_at: datetime
    valid_until: date
    number: int
    replaces: int | None
    today: Outlook
    days: tuple[tuple[date, str], ...] = ()
    compared_with: int | None = None
    changed: tuple[str, ...] = ()
    decisions: tuple[tuple[str, datetime], ...] = ()
    with_limits: tuple[CoachLine, ...] = ()
    not_training: tuple[CoachLine, ...] = ()
    full: tuple[CoachLine, ...] = ()
    away: tuple[CoachLine, ...] = ()
    caution: str = ""
    signed: str = ""
    signature_fit: bool = True

    @property
    def lines(self) -> tuple[CoachLine, ...]:
        """Return every athlete's line, in the order of the sheet."""
        return self.with_limits + self.not_training + self.full + self.away
