"""The red flags of a protocol: when they are asked for, and what a yes raises.

When to ask is common practice: once the protocol is chosen, at each review of the first three
weeks, and whenever the symptom rose by 2 or swelling was seen. A long journey is no fact of
the casebook: a person asks then.
"""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from teamrehab.domain.days_told import days_told
from teamrehab.domain.examination import Examination
from teamrehab.domain.guidance import WarningSign
from teamrehab.domain.history import History
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.measures import SafetyCheck, Test
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.safety import RISE
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.domain.situation import Situation
from teamrehab.domain.stops import rise_among
from teamrehab.language import _

_REVIEWS = timedelta(days=21)
"""For how long after the onset they are asked at each review (common practice)."""


def signs_due(situation: Situation, protocol: Protocol) -> tuple[str, ...]:
    """Return why the red flags of a protocol are to be asked for today; empty if they are not.

    Asked once a day at most.
    """
    known, today = situation.history, situation.today
    asked = [one.on for one in known.of(SignsAsked)]
    if not protocol.guidance.signs or today in asked:
        return ()
    if not asked:
        return (_("they were not asked for in this case yet"),)
    return tuple(_since(situation, max(asked)))


def _since(situation: Situation, last: date) -> Iterator[str]:
    """Yield what happened after they were asked for last, and makes them be asked again."""
    known, today = situation.history, situation.today
    days = [last + timedelta(days=n) for n in range(1, (today - last).days + 1)]
    if known.case.on + _REVIEWS >= today and any(reviewed_on(known, day) for day in days):
        yield _("there was a review in the first three weeks")
    if _rose(situation, days):
        yield _("the symptom rose by {points} or more").format(points=RISE)
    if any(check.swollen_or_warm and check.on > last for check in known.of(SafetyCheck)):
        yield _("swelling or warmth was seen")


def _rose(situation: Situation, since: Sequence[date]) -> bool:
    """Return whether the symptom rose by 2 on one of these days, in training or by morning."""
    told = days_told(situation)
    mornings = (told[day].morning for day in since if day in told)
    rises = [morning.rise for morning in mornings if morning is not None]
    rises += [rise_among(told, day) for day in since]
    return any(rise is not None and rise[1] - rise[0] >= RISE for rise in rises)


def flag_of_signs(
    asked: SignsAsked, signs: tuple[WarningSign, ...], flag_id: str
) -> RedFlag | None:
    """Return the red flag that the answers raise, None where nothing was seen.

    All that was seen is named, and the most urgent of it counts.
    """
    seen = [sign for sign in signs if sign.key in asked.seen]
    if not seen:
        return None
    emergency = any(sign.urgency is Urgency.EMERGENCY for sign in seen)
    return RedFlag(
        flag_id=flag_id,
        case_id=asked.case_id,
        athlete_id=asked.athlete_id,
        on=asked.on,
        what="; ".join(sign.sentence for sign in seen),
        urgency=Urgency.EMERGENCY if emergency else Urgency.SAME_DAY,
    )


def reviewed_on(known: History, day: date) -> bool:
    """Return whether the leg was examined or tested on a day."""
    return any(
        isinstance(fact.value, Examination | Test) and fact.value.on == day
        for fact in known.facts
    )
