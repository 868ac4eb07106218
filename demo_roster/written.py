"""The closed cases written down as facts: diagnosis, stages, availability, signatures."""

from datetime import date, timedelta
from itertools import pairwise
from random import Random
from typing import Any

from demo_roster.course import Course, Legs
from demo_roster.gates import pass_gate
from demo_roster.past import COMPLAINTS, Plan
from demo_roster.people import STAFF
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.availability import Activity, AvailabilityStated, Limit, Match, Training
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Certainty,
    Clearance,
    Diagnosis,
    Nature,
    Scope,
    Side,
)
from teamrehab.domain.measures import Feeling, SessionKind
from teamrehab.forecast import published_figures
from teamrehab.protocols import injury_catalogue

_DAY = timedelta(days=1)
DOCTOR = STAFF[0].name
SHORT = "Short course without symptoms since the day before; agreed with the doctor."
BACK = "Tight and limping after faster running; back to hops for some days."


def closed_injury(number: int, plan: Plan, legs: Legs, rng: Random, again_of: str) -> Course:
    """Return a closed injury with everything noted on the way."""
    side = (Side.LEFT if plan.left_side else Side.RIGHT) if plan.sort.sided else None
    case = Case(
        case_id=f"case-{number:03}",
        athlete_id=plan.athlete.athlete_id,
        on=plan.on,
        side=side or Side.NOT_APPLICABLE,
        area=plan.area or injury_catalogue()[plan.sort.injury].area,
        what=plan.sort.what + (" in the match" if plan.in_match else ""),
        recurrence_of=again_of,
        head_injury=plan.sort.injury == "concussion",
        operation=plan.operation,
    )
    course = Course(case, plan.athlete, legs, rng)
    course.add(_diagnosis(course, plan))
    out(course, plan.on)
    if plan.sort.protocol:
        _stages(course, plan)
    elif plan.days >= 8:
        limited(course, plan.cleared - timedelta(days=max(2, plan.days // 4)))
    clear(course, plan.cleared, trained_first=plan.days >= 8)
    return course


def closed_illness(number: int, plan: Plan, rng: Random) -> Course:
    """Return a closed illness."""
    case = Case(
        case_id=f"case-{number:03}",
        athlete_id=plan.athlete.athlete_id,
        on=plan.on,
        nature=Nature.ILLNESS,
        what=COMPLAINTS[number % len(COMPLAINTS)],
    )
    course = Course(case, plan.athlete, Legs(32, 90, 200, 360), rng)
    out(course, plan.on)
    clear(course, plan.cleared, trained_first=False)
    return course


def _diagnosis(course: Course, plan: Plan) -> Diagnosis:
    graded = injury_catalogue()[plan.sort.injury].graded
    return Diagnosis(
        **course.names(),
        on=plan.on + (_DAY if plan.days > 1 else timedelta()),
        injury=plan.sort.injury,
        muscle=plan.muscle,
        grade=_grade(plan) if graded else None,
        certainty=Certainty.CONFIRMED if plan.days > 3 else Certainty.WORKING,
    )


def _grade(plan: Plan) -> int:
    """Return the grade whose published mean lies nearest to how long the case took."""
    if plan.sort.grade is not None:
        return plan.sort.grade
    figures = published_figures()
    known = [g for g in figures.injuries[plan.sort.injury].grades if g] or [1, 2]
    return min(
        known,
        key=lambda g: abs(plan.days + 1 - figures.mean(plan.sort.injury, plan.muscle, grade=g)),
    )


def _stages(course: Course, plan: Plan) -> None:
    """Open the stages one after another on days that share out the whole course."""
    course.follow(plan.sort.protocol, plan.on + (_DAY if plan.days > 1 else timedelta()), "1")
    setback = plan.days > 24 and course.rng.random() < 0.4
    path = [1, 2, 3, 4, 3, 4, 5] if setback else [1, 2, 3, 4, 5]
    days = _shared_out(plan, path, course.rng)
    since = plan.on
    steps = dict(zip(days, pairwise(path), strict=True))  # of two on one day the later
    for on, (_here, after) in steps.items():
        if after < course.stage:
            course.session(on, 4, limp=True, feeling=Feeling.TIGHTNESS)
            course.move(on, after, BACK)
        else:
            pass_gate(course, on, since)
            course.move(on, after, SHORT)
        if after == 5:
            limited(course, on)
        since = on
    pass_gate(
        course, max(plan.cleared - 2 * _DAY, since) if plan.days >= 8 else plan.cleared, since
    )


def _shared_out(plan: Plan, path: list[int], rng: Random) -> list[date]:
    """Return the days on which the path goes on: published shares, each course its own."""
    shares = published_figures().stage_shares
    parts = [shares[stage - 1] * rng.lognormvariate(0, 0.35) for stage in path]
    total, passed, setback = sum(parts), 0.0, len(path) > len(shares)
    days: list[date] = []
    for part in parts[:-1]:
        passed += part
        on = plan.on + timedelta(days=round((plan.days + 1) * passed / total))
        days.append(max(on, days[-1] + 2 * _DAY) if setback and days else on)
    return days


def out(course: Course, on: date, **more: Any) -> None:
    """State: no training, no match."""
    course.add(
        AvailabilityStated(
            **course.names(), on=on, training=Training.NONE, match=Match.NOT_AVAILABLE, **more
        )
    )


def limited(
    course: Course,
    on: date,
    *limits: Limit,
    match: Match = Match.NOT_AVAILABLE,
    **more: Any,
) -> None:
    """State: training with limits."""
    course.add(
        AvailabilityStated(
            **course.names(),
            on=on,
            training=Training.WITH_LIMITS,
            match=match,
            limits=limits or (Limit(Activity.SPRINT), Limit(Activity.CONTACT)),
            **more,
        )
    )


def clear(course: Course, on: date, *, trained_first: bool) -> None:
    """Sign the case off, full training some days before the match where it took long."""
    names = course.names()
    if trained_first:
        before = on - 2 * _DAY
        course.add(
            Clearance(**names, on=before, scope=Scope.TEAM_TRAINING, signed_by=DOCTOR),
            AvailabilityStated(
                **names, on=before, training=Training.FULL, match=Match.NOT_AVAILABLE
            ),
        )
        course.session(before + _DAY, 0, SessionKind.TEAM_FULL)
    course.add(
        Clearance(**names, on=on, scope=Scope.MATCH, signed_by=DOCTOR),
        AvailabilityStated(**names, on=on, training=Training.FULL, match=Match.AVAILABLE),
        CaseClosed(**names, on=on),
    )


def healthy_values(athlete: Athlete, legs: Legs, on: date, rng: Random) -> list[Any]:
    """Return the pre-season heel raises and hops of an athlete, on both legs."""
    case = Case(case_id="", athlete_id=athlete.athlete_id, on=on, side=Side.LEFT)
    course = Course(case, athlete, legs, rng)
    course.raises(on, legs.raises + rng.randint(-1, 1), 0, share=rng.uniform(0.97, 1.03))
    course.hops(on, 20, 0, share=rng.uniform(0.97, 1.02))
    return course.facts
