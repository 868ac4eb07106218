"""What the evenings of an open case add: how much was done, mornings after, levels decided."""

from dataclasses import replace
from datetime import date, timedelta

from demo_roster.course import Course
from demo_roster.people import ANCHOR
from teamrehab.domain.injuries import LevelMoved
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.measures import Done, MorningResponse, SessionEntry
from teamrehab.domain.protocol import followed
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


def _done(session: SessionEntry) -> Done:
    calm = session.symptom is None or session.symptom.score <= MOST
    return Done.AS_PLANNED if calm and not session.limp else Done.PARTLY
