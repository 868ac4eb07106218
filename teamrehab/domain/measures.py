"""What is measured and observed in rehab; quantities are whole numbers in a named unit."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from teamrehab.domain.injuries import Side


class Feeling(StrEnum):
    """Which symptom a score stands for; sharp stops the day whatever the number.

    ``NOT_SAID``: a number was told and nobody said of what.
    """

    PAIN = "p"
    TIGHTNESS = "t"
    CRAMP = "c"
    SHARP = "s"
    NOT_SAID = "not said"


class Knee(StrEnum):
    """How the knee is held in a heel raise."""

    STRAIGHT = "straight"
    BENT = "bent"


class Done(StrEnum):
    """How much of what was planned an athlete did."""

    AS_PLANNED = "as planned"
    PARTLY = "partly"
    MORE = "more"


class Missed(StrEnum):
    """Why nothing was done or nothing is known of a session."""

    NOT_SEEN = "not seen"
    SYMPTOM = "symptom"
    ILL = "ill"
    AWAY = "away"
    STAFF = "decided by staff"
    ATHLETE = "decided by the athlete"
    OTHER = "other"


class SessionKind(StrEnum):
    """Where an athlete trained."""

    REHAB = "rehab session"
    TEAM_WITH_LIMITS = "team session with limits"
    TEAM_FULL = "full team session"


@dataclass(frozen=True, slots=True)
class Symptom:
    """The worst of pain, tightness and cramp, 0 to 10."""

    score: int
    feeling: Feeling = Feeling.NOT_SAID


@dataclass(frozen=True, slots=True)
class Raises:
    """One leg's heel raises; ``height_mm`` is the mean height of a raise."""

    repetitions: int
    height_mm: int | None = None


@dataclass(frozen=True, slots=True)
class Hops:
    """One leg's hops in place; mean ground contact and flight of a hop in milliseconds."""

    hops: int
    contact_ms: int | None = None
    flight_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Loaded:
    """One leg's heel raises against a weight that allows only so many repetitions."""

    repetitions: int
    weight_g: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Test:
    """What every test says of itself. ``case_id`` is empty for a healthy athlete's values.

    ``after_training`` is False for a fresh athlete and None where nobody said.
    """

    test_id: str
    case_id: str
    athlete_id: str
    on: date
    symptom: Symptom | None = None
    painkiller: bool = False
    after_training: bool | None = None
    surface: str = ""
    shoe: str = ""
    tester: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeelRaiseTest(_Test):
    """Single-leg heel raises to the end of good form; ``beat`` is in beats a minute."""

    left: Raises | None = None
    right: Raises | None = None
    knee: Knee = Knee.STRAIGHT
    full_range: bool = True
    beat: int | None = None

    def of(self, side: Side) -> Raises | None:
        """Return the result of one side."""
        return {Side.LEFT: self.left, Side.RIGHT: self.right}.get(side)


@dataclass(frozen=True, slots=True, kw_only=True)
class HopTest(_Test):
    """Single-leg hops in place with quick contacts."""

    left: Hops | None = None
    right: Hops | None = None

    def of(self, side: Side) -> Hops | None:
        """Return the result of one side."""
        return {Side.LEFT: self.left, Side.RIGHT: self.right}.get(side)


@dataclass(frozen=True, slots=True, kw_only=True)
class FunctionCheck(_Test):
    """What the athlete can do in front of the tester; None where it was not looked at.

    ``brisk_walk`` is one of 30 minutes, ``change_of_direction`` one at full effort.
    """

    walks_clean: bool | None = None
    stairs_clean: bool | None = None
    double_leg_raise: bool | None = None
    swelling_settled: bool | None = None
    no_signs: bool | None = None
    brisk_walk: bool | None = None
    change_of_direction: bool | None = None


OBSERVATIONS = (
    "walks_clean",
    "stairs_clean",
    "double_leg_raise",
    "swelling_settled",
    "no_signs",
    "brisk_walk",
    "change_of_direction",
)
"""What a tester can be asked to have seen: the fields of a function check."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunTest(_Test):
    """The fastest run of the day in percent of the athlete's own maximal speed."""

    percent_of_own: int


@dataclass(frozen=True, slots=True, kw_only=True)
class JumpTest(_Test):
    """The best single-leg jump for height of each leg, hands on the hips, in millimetres."""

    left_mm: int | None = None
    right_mm: int | None = None

    def of(self, side: Side) -> int | None:
        """Return the result of one side."""
        return {Side.LEFT: self.left_mm, Side.RIGHT: self.right_mm}.get(side)


@dataclass(frozen=True, slots=True, kw_only=True)
class KneeToWallTest(_Test):
    """The greatest distance from toe to wall with the knee touching it, heel down, in mm."""

    left_mm: int | None = None
    right_mm: int | None = None

    def of(self, side: Side) -> int | None:
        """Return the result of one side."""
        return {Side.LEFT: self.left_mm, Side.RIGHT: self.right_mm}.get(side)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedRaiseTest(_Test):
    """The heaviest weight of each leg for a few heel raises through full range.

    The knee is bent where the athlete sits. The weight is what is lifted beside the body.
    """

    left: Loaded | None = None
    right: Loaded | None = None
    knee: Knee = Knee.BENT

    def of(self, side: Side) -> Loaded | None:
        """Return the result of one side."""
        return {Side.LEFT: self.left, Side.RIGHT: self.right}.get(side)


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseDone:
    """What was done of one exercise of the plan.

    ``exercise`` is the key of a ladder of the protocol, ``level`` counts its levels from 1.
    ``sets`` None: not counted. ``faults`` are keys of form faults of the protocol.
    """

    exercise: str
    level: int
    sets: int | None = None
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionEntry:
    """One session as it was done; effort is RPE 0-10. None: it was not asked.

    ``exercises`` are those of the plan that were looked at; an exercise that is not named
    was not looked at.
    """

    session_id: str
    case_id: str
    athlete_id: str
    on: date
    kind: SessionKind
    minutes: int | None = None
    effort: int | None = None
    symptom: Symptom | None = None
    limp: bool | None = None
    painkiller: bool | None = None
    done: Done | None = None
    exercises: tuple[ExerciseDone, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionMissed:
    """A session that was not done, or of which nobody saw anything (``Missed.NOT_SEEN``).

    Takes the place of a session of the same ``session_id`` and gives it back.
    """

    session_id: str
    case_id: str
    athlete_id: str
    on: date
    reason: Missed
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MorningResponse:
    """How the leg was on the morning ``on``, before any load: the worst symptom."""

    response_id: str
    case_id: str
    athlete_id: str
    on: date
    symptom: Symptom
    painkiller: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyCheck:
    """The four questions asked when a symptom is not accepted silently (see ``safety``)."""

    check_id: str
    case_id: str
    athlete_id: str
    on: date
    same_spot: bool
    swollen_or_warm: bool
    can_push_off: bool
    chest_or_breath: bool


Test = (
    HeelRaiseTest
    | HopTest
    | FunctionCheck
    | RunTest
    | JumpTest
    | KneeToWallTest
    | LoadedRaiseTest
)
