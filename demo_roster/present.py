"""The nine cases open on the anchor Monday, and what is noted on them later in that week."""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from random import Random
from typing import Any

from demo_roster.course import Course, Legs
from demo_roster.gates import pass_gate
from demo_roster.people import ANCHOR
from demo_roster.written import BACK, limited, out
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Activity, Limit, Match
from teamrehab.domain.injuries import Case, Certainty, Diagnosis, Nature, ProtocolChosen, Side
from teamrehab.domain.measures import Feeling, SessionKind
from teamrehab.protocols import injury_catalogue, load_protocols


def day(offset: int) -> date:
    """Return a day counted from the anchor Monday."""
    return ANCHOR + timedelta(days=offset)


def at(offset: int, hour: int) -> datetime:
    """Return an hour of a day counted from the anchor, club time."""
    return datetime.combine(day(offset), time(hour))


class Present:
    """Writes the open cases: who is who, and the next free case number."""

    def __init__(
        self, squad: Sequence[Athlete], legs: dict[str, Legs], first: int, rng: Random
    ) -> None:
        self.squad = {athlete.number: athlete for athlete in squad}
        self.legs, self.next, self.rng = legs, first, rng

    def start(self, shirt: int, onset: int, what: str, **of_case: Any) -> Course:
        """Begin a case of the athlete with a shirt number; nobody trains at first."""
        athlete = self.squad[shirt]
        case = Case(
            case_id=f"case-{self.next:03}",
            athlete_id=athlete.athlete_id,
            on=day(onset),
            what=what,
            **of_case,
        )
        self.next += 1
        return Course(case, athlete, self.legs[athlete.athlete_id], self.rng)

    def injury(
        self,
        shirt: int,
        onset: int,
        what: str,
        injury: str,
        side: Side,
        **rest: Any,
    ) -> Course:
        """Begin an injury and state that the athlete is out."""
        area = injury_catalogue()[injury].area
        course = self.start(shirt, onset, what, side=side, area=area, **rest)
        out(course, day(onset))
        return course


def diagnose(
    course: Course,
    offset: int,
    injury: str,
    muscle: str = "",
    grade: int | None = None,
    certainty: Certainty = Certainty.CONFIRMED,
) -> None:
    """Note a diagnosis."""
    course.add(
        Diagnosis(
            **course.names(),
            on=day(offset),
            injury=injury,
            muscle=muscle,
            grade=grade,
            certainty=certainty,
        )
    )


def climb(course: Course, *opened: int) -> None:
    """Open stage 2, 3, ... on these days, each after its gate was passed."""
    since = course.case.on
    for offset in opened:
        pass_gate(course, day(offset), since)
        course.move(day(offset), course.stage + 1, "")
        since = day(offset)


def open_cases(present: Present, gastrocnemius: tuple[int, Side, str]) -> list[Course]:
    """Return the seven injuries, one of them a recurrence, and the two illnesses."""
    return [
        soleus(present),
        calf_again(present, *gastrocnemius),
        hamstring(present),
        ankle(present),
        adductor(present),
        fresh(present),
        achilles(present),
        chest(present),
        fever(present),
    ]


def soleus(present: Present) -> Course:
    """A soleus strain of 23 days: Running opened four days ago."""
    course = present.injury(
        9, -23, "Tight in the last quarter, worse next morning", "calf_strain", Side.LEFT
    )
    diagnose(course, -21, "calf_strain", "soleus", 2)
    course.follow("calf_strain", day(-21))
    for offset, score in ((-20, 3), (-19, 2)):
        course.session(day(offset), score)
    climb(course, -18, -11, -4)
    out(course, day(-4), next_update=at(7, 9))
    course.run(day(-3), 62, 1)
    course.session(day(-3), 1, feeling=Feeling.TIGHTNESS)
    course.run(day(-1), 74, 1)
    course.hops(day(-1), 20, 1, share=0.95)
    course.session(day(1), 1, feeling=Feeling.TIGHTNESS)
    course.run(day(1), 80, 1)
    course.raises(day(2), course.legs.raises, 0, share=0.96)
    course.hops(day(2), 20, 0, share=0.96)
    course.run(day(3), 85, 1)
    return course


def calf_again(present: Present, shirt: int, side: Side, earlier: str) -> Course:
    """A gastrocnemius strain of 16 days, the second of that leg: Hop and jump opened."""
    course = present.injury(
        shirt,
        -16,
        "Same spot as before, pushing off",
        "calf_strain",
        side,
        recurrence_of=earlier,
    )
    diagnose(course, -14, "calf_strain", "gastrocnemius", 1)
    course.follow("calf_strain", day(-14))
    course.session(day(-14), 3)
    climb(course, -12, -4)
    out(course, day(-4), next_update=at(7, 12))
    course.raises(day(-2), 20, 1, share=0.86)
    course.hops(day(-2), 9, 2, share=0.84)
    course.session(day(-1), 1, feeling=Feeling.TIGHTNESS)
    course.raises(day(0), 21, 1, share=0.88)
    course.hops(day(0), 12, 1, share=0.87)
    course.session(day(2), 1, feeling=Feeling.TIGHTNESS)
    course.raises(day(3), 23, 1, share=0.9)
    course.hops(day(3), 15, 1, share=0.9)
    return course


def hamstring(present: Present) -> Course:
    """A hamstring strain of 30 days with a setback: back from Running to Hop and jump."""
    course = present.injury(
        16, -30, "Pulled up chasing a long ball", "hamstring_strain", Side.RIGHT
    )
    diagnose(course, -28, "hamstring_strain", "biceps_femoris", 2)
    course.follow("lower_limb_starter", day(-28))
    course.session(day(-27), 3)
    climb(course, -24, -17, -10)
    course.run(day(-8), 70, 1)
    course.session(day(-6), 4, limp=True, feeling=Feeling.TIGHTNESS)
    course.move(day(-6), 3, BACK)
    out(course, day(-6), next_update=at(8, 9))
    course.session(day(-4), 2)
    course.session(day(-1), 1)
    course.check(day(0), 1, no_signs=False)
    course.session(day(2), 1)
    course.session(day(3), 0)
    return course


def ankle(present: Present) -> Course:
    """An ankle sprain of 19 days: trains with the team, no contact, no change of direction."""
    course = present.injury(
        27, -19, "Rolled over the outer edge of the foot", "ankle_sprain", Side.LEFT
    )
    diagnose(course, -18, "ankle_sprain")
    course.follow("lower_limb_starter", day(-18))
    course.session(day(-17), 3)
    climb(course, -15, -10, -6, -3)
    limited(
        course,
        day(-3),
        Limit(Activity.CHANGE_OF_DIRECTION),
        Limit(Activity.CONTACT),
        until=day(8),
    )
    course.session(day(1), 1, SessionKind.TEAM_WITH_LIMITS)
    course.session(day(2), 1, SessionKind.TEAM_WITH_LIMITS)
    return course


def adductor(present: Present) -> Course:
    """An adductor strain of 27 days, near clearance: everything asked for is met."""
    course = present.injury(
        8, -27, "Felt it stretching for a ball", "adductor_strain", Side.RIGHT
    )
    diagnose(course, -26, "adductor_strain", "adductor_longus", 2)
    course.follow("lower_limb_starter", day(-26))
    course.session(day(-25), 3)
    climb(course, -22, -16, -10, -6)
    limited(course, day(-6), Limit(Activity.CONTACT), Limit(Activity.PACE, 90))
    course.session(day(-4), 1, SessionKind.TEAM_WITH_LIMITS)
    course.session(day(-3), 0, SessionKind.TEAM_WITH_LIMITS)
    course.check(day(-1), 0, no_signs=True, walks_clean=True)
    limited(
        course,
        day(-1),
        Limit(Activity.CONTACT),
        match=Match.UNDECIDED,
        next_update=at(4, 11),
        until=day(4),
    )
    course.session(day(2), 0, SessionKind.TEAM_WITH_LIMITS)
    return course


def fresh(present: Present) -> Course:
    """Two days old: a suspected thigh strain, to be examined on the third day."""
    course = present.start(
        10,
        -2,
        "Felt it in a long shot, walked off",
        side=Side.RIGHT,
        area=injury_catalogue()["quadriceps_strain"].area,
        reassess_on=at(1, 10),
    )
    out(course, day(-2), next_update=at(1, 12))
    diagnose(course, -2, "quadriceps_strain", certainty=Certainty.SUSPECTED)
    course.check(day(1), 2, walks_clean=True, stairs_clean=False, swelling_settled=True)
    diagnose(course, 1, "quadriceps_strain", "rectus_femoris", 1, Certainty.WORKING)
    version = load_protocols()["lower_limb_starter"].version
    course.add(
        ProtocolChosen(
            **course.names(), on=day(1), protocol="lower_limb_starter", version=version
        )
    )
    out(course, day(1), next_update=at(8, 10))
    course.session(day(2), 2)
    course.session(day(3), 2)
    return course


def achilles(present: Present) -> Course:
    """A sore Achilles tendon of 12 days: trains with limits all along, no protocol."""
    course = present.start(
        25,
        -12,
        "Stiff in the morning for a week",
        side=Side.LEFT,
        area=injury_catalogue()["achilles_tendinopathy"].area,
    )
    diagnose(course, -10, "achilles_tendinopathy")
    limited(
        course,
        day(-12),
        Limit(Activity.JUMP),
        Limit(Activity.MINUTES, 45),
        match=Match.LIMITED,
        match_minutes=30,
    )
    for offset, score in ((-9, 3), (-6, 3), (-4, 2), (-2, 2), (1, 2), (3, 2)):
        course.session(
            day(offset), score, SessionKind.TEAM_WITH_LIMITS, feeling=Feeling.TIGHTNESS
        )
    return course


def chest(present: Present) -> Course:
    """Ill for five days."""
    course = present.start(
        30, -5, "Chest infection, fever on the first days", nature=Nature.ILLNESS
    )
    out(course, day(-5), next_update=at(7, 10))
    return course


def fever(present: Present) -> Course:
    """Ill for nineteen days, and for some time to come."""
    course = present.start(
        18, -19, "Glandular fever, seen by the doctor", nature=Nature.ILLNESS
    )
    out(course, day(-19), until=day(16), next_update=at(7, 11))
    return course
