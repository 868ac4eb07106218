"""What is added to an open case: red flags asked, how much was done, mornings after, levels."""

from dataclasses import replace
from datetime import date, timedelta

from demo_roster.course import Course
from demo_roster.people import ANCHOR
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.injuries import Diagnosis, LevelMoved
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import Done, MorningResponse, SessionEntry, Test
from teamrehab.domain.protocol import followed
from teamrehab.domain.signs import signs_due
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.protocols import load_protocols

MOST = 2
"""Symptom up to which a session of the demo was done as planned; partly above it."""
MORNINGS_SINCE = ANCHOR - timedelta(days=5)


def note_done(course: Course) -> None:
    """Say of every session how much of it was done."""
    course.facts = [
        replace(fact, done=_done(fact)) if isinstance(fact, SessionEntry) else fact
        for fact in course.facts
    ]


def note_mornings(course: Course) -> None:
    """Note the morning after every day of the last week on which something was felt.

    The leg has calmed by a point: never more than was felt the day before.
    """
    told = {fact.on for fact in course.facts if isinstance(fact, MorningResponse)}
    felt: dict[date, int] = {}
    for fact in course.facts:
        symptom = getattr(fact, "symptom", None)
        if symptom is not None and fact.on >= MORNINGS_SINCE:
            felt[fact.on] = max(felt.get(fact.on, 0), symptom.score)
    for on, score in sorted(felt.items()):
        if on + timedelta(days=1) not in told:
            course.morning(on + timedelta(days=1), max(score - 1, 0))


def note_levels(course: Course) -> None:
    """Accept the lowest step up that the program proposes, evening by evening.

    The invented physio changes one thing at a time; proposals of the anchor's own week are
    left to whoever opens the demo.
    """
    protocol = followed(course.history(), load_protocols()).protocol
    if protocol is None:
        return
    days = {fact.on for fact in course.facts if isinstance(fact, SessionEntry)}
    for on in sorted(day for day in days if day < ANCHOR):
        proposals = level_proposals(course.history(), protocol, on)
        ups = [each for each in proposals if each.proposed > each.level]
        for each in sorted(ups, key=lambda up: up.level)[:1]:
            course.add(
                LevelMoved(
                    **course.names(),
                    on=on,
                    ladder=each.ladder.key,
                    level=each.proposed,
                    proposed=each.proposed,
                )
            )


def note_signs(course: Course) -> None:
    """Ask for the red flags on every day somebody saw the athlete and they were due.

    Nothing of them is ever seen in the demo.
    """
    known = course.history()
    protocol = followed(known, load_protocols()).protocol
    if known.protocol is None or protocol is None:
        return
    seen = Diagnosis | Test | SessionEntry
    keys = tuple(sign.key for sign in protocol.guidance.signs)
    days = {fact.on for fact in course.facts if isinstance(fact, seen)}
    for on in sorted(day for day in days if day >= known.protocol.on):
        if signs_due(situation_of(course.history(), protocol, on), protocol):
            asked_id = f"{course.case.case_id}-signs-{on:%m%d}"
            course.add(SignsAsked(**course.names(), asked_id=asked_id, on=on, asked=keys))


def _done(session: SessionEntry) -> Done:
    calm = session.symptom is None or session.symptom.score <= MOST
    return Done.AS_PLANNED if calm and not session.limp else Done.PARTLY
