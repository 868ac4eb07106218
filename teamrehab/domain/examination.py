"""What an examination of the injured leg found, some days after the injury."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from teamrehab.domain.injuries import Side


class OnsetKind(StrEnum):
    """How it began."""

    SUDDEN = "sudden"
    GRADUAL = "gradual"


class Character(StrEnum):
    """What it felt like."""

    SHARP = "sharp and local"
    DIFFUSE = "diffuse tightness"
    CRAMP = "cramp"


class Activity(StrEnum):
    """What the athlete was doing."""

    SPRINT = "sprint"
    CUT = "change of direction"
    JUMP = "jump"
    LONG_RUN = "long running"
    OTHER = "other"


class Resisted(StrEnum):
    """How a resisted contraction was."""

    STRONG = "strong, no symptom"
    PAINFUL = "strong, with symptom"
    WEAK = "weak"
    UNABLE = "not possible"


class Gait(StrEnum):
    """How the athlete walks or takes stairs."""

    CLEAN = "clean"
    LIMPS = "limps"
    UNABLE = "not possible"


@dataclass(frozen=True, slots=True, kw_only=True)
class Examination:
    """The findings of one examination; None and "" where it was not asked or looked at.

    ``resisted_*`` is plantarflexion against the hand, knee straight and bent; ``stretch_*``
    says whether a stretch brings the symptom. ``tender_mm`` is the length that is tender to
    the touch. The last three are about the week before the injury.
    """

    examination_id: str
    case_id: str
    athlete_id: str
    on: date
    onset: OnsetKind | None = None
    activity: Activity | None = None
    character: Character | None = None
    site: str = ""
    resisted_straight: Resisted | None = None
    resisted_bent: Resisted | None = None
    stretch_straight: bool | None = None
    stretch_bent: bool | None = None
    tender_where: str = ""
    tender_mm: int | None = None
    walking: Gait | None = None
    stairs: Gait | None = None
    more_load: bool | None = None
    little_rest: bool | None = None
    new_surface_or_shoe: bool | None = None
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierInjury:
    """An injury that no case of this casebook holds, as from before this club.

    ``on`` is as near as it is remembered; ``days_out`` None where nobody knows.
    """

    earlier_id: str
    athlete_id: str
    on: date
    side: Side
    area: str
    what: str = ""
    days_out: int | None = None
