"""What shows that a stage can be left: the tests and sessions its gate asks for."""

from datetime import date, timedelta

from demo_roster.course import Course
from teamrehab.domain.measures import Knee, SessionKind

_DAY = timedelta(days=1)


def pass_gate(course: Course, on: date, since: date) -> None:
    """Note on ``on`` what shows that the present stage, open ``since``, can be left."""
    chosen = course.history().protocol
    calf = chosen is not None and chosen.protocol == "calf_strain"
    first = chosen is not None and chosen.version == "1"
    gates = (_FIRST_CALF if first else _CALF) if calf else _STARTER
    gates[course.stage](course, on, since)


def _walks(course: Course, on: date, since: date) -> None:
    _sessions(course, since, on, wanted=1, score=2)
    course.check(
        on, 1, walks_clean=True, stairs_clean=True, double_leg_raise=True, swelling_settled=True
    )


def _strong(course: Course, on: date, since: date) -> None:
    _sessions(course, since, on, wanted=3, score=2)
    halfway = since + (on - since) // 2
    if since < halfway < on:
        course.raises(halfway, course.rng.randint(8, 12), 2, share=0.78)
    course.raises(on, course.rng.randint(15, 18), 1, share=0.84)
    course.raises(on, course.rng.randint(16, 20), 1, Knee.BENT, share=0.86)


def _springy(course: Course, on: date, since: date) -> None:
    _sessions(course, since, on, wanted=2, score=1)
    halfway = since + (on - since) // 2
    if since < halfway < on:
        course.raises(halfway, course.rng.randint(19, 23), 1, share=0.88)
        course.hops(halfway, course.rng.randint(8, 14), 1, share=0.86)
    course.raises(on, course.rng.randint(25, 28), 0, share=0.92)
    course.hops(on, 20, 0, share=0.93)
    course.check(on, 0, no_signs=True)


def _strong_springy(course: Course, on: date, since: date) -> None:
    """All that the second version asks for before running: the own values within 10 %."""
    healthy = course.legs.raises
    _sessions(course, since, on, wanted=2, score=1)
    halfway = since + (on - since) // 2
    if since < halfway < on:
        course.raises(halfway, healthy - 8, 1, share=0.88)
        course.hops(halfway, course.rng.randint(8, 14), 1, share=0.86)
    for before in (2, 1):
        course.morning(on - before * _DAY, 0)
    course.raises(on, healthy, 0, share=0.96)
    course.raises(on, healthy, 0, Knee.BENT, share=0.96)
    course.loaded(on, 47_500, Knee.BENT)
    course.loaded(on, 30_000, Knee.STRAIGHT)
    course.hops(on, 20, 0, share=0.93)
    course.check(on, 0, brisk_walk=True, no_signs=True)


def _fast(course: Course, on: date, since: date) -> None:
    halfway = since + (on - since) // 2
    if since < halfway < on:
        course.run(halfway, course.rng.randint(70, 84), 1)
    course.run(on, course.rng.randint(91, 95))


def _ready(course: Course, on: date, since: date) -> None:
    _sessions(course, since, on, wanted=2, score=0, kind=SessionKind.TEAM_WITH_LIMITS)
    healthy = course.legs.raises
    course.raises(on, max(healthy - course.rng.randint(0, 1), 30), 0, share=0.97)
    course.check(on, 0, no_signs=True)


def _strong_anywhere(course: Course, on: date, since: date) -> None:
    _sessions(course, since, on, wanted=3, score=2)


def _springy_anywhere(course: Course, on: date, since: date) -> None:
    _sessions(course, since, on, wanted=2, score=1)
    course.check(on, 0, no_signs=True)


def _ready_anywhere(course: Course, on: date, since: date) -> None:
    _sessions(course, since, on, wanted=2, score=0, kind=SessionKind.TEAM_WITH_LIMITS)
    course.check(on, 0, no_signs=True)


_FIRST_CALF = {1: _walks, 2: _strong, 3: _springy, 4: _fast, 5: _ready}
_CALF = {1: _walks, 2: _strong, 3: _strong_springy}
"""No case of the demo that follows the second version has left Running yet."""

_STARTER = {1: _walks, 2: _strong_anywhere, 3: _springy_anywhere, 4: _fast, 5: _ready_anywhere}


def _sessions(
    course: Course,
    first: date,
    last: date,
    *,
    wanted: int,
    score: int,
    kind: SessionKind = SessionKind.REHAB,
) -> None:
    """Note ``wanted`` sessions up to ``last``, from the day after ``first`` where they fit."""
    if (last - first).days >= wanted:
        first += _DAY
    days = (last - first).days
    chosen = sorted(
        {first + timedelta(days=days * i // max(wanted - 1, 1)) for i in range(wanted)}
    )
    for on in chosen:
        if first <= on <= last:
            course.session(on, max(score - (on == last), 0), kind)
