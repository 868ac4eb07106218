"""The evening in few words: plan, last session, morning, what is due."""

import re
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from teamrehab.domain.decision import CriterionResult, Verdict
from teamrehab.domain.evenings import is_late, noted_on
from teamrehab.domain.history import Standing
from teamrehab.domain.measures import (
    Done,
    Feeling,
    Missed,
    MorningResponse,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.domain.plans import Plan, PlannedExercise
from teamrehab.language import _
from teamrehab.reports.wording import day_words, weekday_words

_WEEK = timedelta(days=7)
_COUNT = re.compile(r".*?\d+(?:-\d+)?(?: (?:s|min|m|%)\b)?")
"""A dose up to its first count and its unit: "up to 60 s", "15", "6-10"."""


def plan_words(plan: Plan, *, guided: bool, chosen: bool = False) -> str:
    """Return a plan in one line; ``guided``: the case follows a protocol that is at hand.

    ``chosen``: it follows one, at hand or not.
    """
    if not guided:
        lost = _("protocol not at hand or not readable: as agreed")
        return lost if chosen else _("no protocol: as agreed")
    parts = [kind_words(plan.kind)] if plan.kind is not SessionKind.REHAB else []
    parts += [exercise_words(exercise) for exercise in plan.exercises]
    if plan.minutes is not None:
        parts.append(_("{minutes} min").format(minutes=plan.minutes))
    return "; ".join(parts)


def exercise_words(exercise: PlannedExercise) -> str:
    """Return an exercise in few words: "Hop, both legs forward 3 x up to 60 s"."""
    found = _COUNT.match(exercise.dose)
    return _("{ladder}, {what} {sets} x {dose}").format(
        ladder=exercise.ladder,
        what=exercise.name,
        sets=exercise.sets,
        dose=found[0] if found else exercise.dose,
    )


def stopped_words() -> str:
    """Return what stands in place of a plan where rehab is stopped."""
    return _("no loading: review first")


def kind_words(kind: SessionKind) -> str:
    """Return where an athlete trains."""
    return {
        SessionKind.REHAB: _("rehab session"),
        SessionKind.TEAM_WITH_LIMITS: _("team session with limits"),
        SessionKind.TEAM_FULL: _("full team session"),
    }[kind]


def last_words(last: SessionEntry | SessionMissed | None, on: date) -> str:
    """Return the last session before ``on``: "Mon: as planned, 1, RPE 4"; "" without one."""
    if last is None:
        return ""
    near = on - last.on < _WEEK
    return _("{day}: {what}").format(
        day=weekday_words(last.on) if near else day_words(last.on),
        what=missed_words(last) if isinstance(last, SessionMissed) else _session_words(last),
    )


def _session_words(session: SessionEntry) -> str:
    parts = [
        done_words(session.done),
        symptom_words(session.symptom),
        "" if session.effort is None else _("RPE {effort}").format(effort=session.effort),
        _("limp") if session.limp else "",
        _("painkiller") if session.painkiller else "",
    ]
    return ", ".join(part for part in parts if part) or _("done")


def done_words(done: Done | None) -> str:
    """Return how much of the plan was done, "" where nobody said."""
    if done is None:
        return ""
    return {
        Done.AS_PLANNED: _("as planned"),
        Done.PARTLY: _("partly"),
        Done.MORE: _("more"),
    }[done]


def symptom_words(symptom: Symptom | None) -> str:
    """Return a symptom as it is typed, with its kind where one was said; "" if not asked."""
    if symptom is None:
        return ""
    if symptom == Symptom(0, Feeling.PAIN):
        return "0"
    message = {
        Feeling.PAIN: _("{score} pain"),
        Feeling.TIGHTNESS: _("{score} tightness"),
        Feeling.CRAMP: _("{score} cramp"),
        Feeling.SHARP: _("{score} sharp"),
        Feeling.NOT_SAID: "{score}",
    }[symptom.feeling]
    return message.format(score=symptom.score)


def missed_words(missed: SessionMissed) -> str:
    """Return why there was no session, in few words."""
    return {
        Missed.NOT_SEEN: _("not seen"),
        Missed.SYMPTOM: _("not done: symptom"),
        Missed.ILL: _("not done: ill"),
        Missed.AWAY: _("not done: away"),
        Missed.STAFF: _("not done: decided by staff"),
        Missed.ATHLETE: _("not done: decided by the athlete"),
        Missed.OTHER: _("not done: {why}"),
    }[missed.reason].format(why=missed.text or _("other"))


def morning_words(
    response: MorningResponse, on: date, last: date | None, rise: tuple[int, int] | None
) -> str:
    """Return a morning before the session of ``on``: "this morning 2 (+2)".

    ``last`` is the day of the last session, ``rise`` the mornings before and now.
    """
    message = _("{day} morning {symptom}")
    if response.on == on:
        message = _("this morning {symptom}")
    elif last is not None and response.on - last == timedelta(days=1):
        message = _("next morning {symptom}")
    words = message.format(
        day=weekday_words(response.on), symptom=symptom_words(response.symptom)
    )
    if rise is None or rise[0] == rise[1]:
        return words
    return _("{words} ({change:+d})").format(words=words, change=rise[1] - rise[0])


def due_words(results: Sequence[CriterionResult]) -> tuple[str, ...]:
    """Return which tests the next gate waits for, never done or due again, each once.

    What waits for a level of a ladder is not due.
    """
    due = (Verdict.NEVER_TESTED, Verdict.DUE_AGAIN)
    asked = (result for result in results if result.verdict in due and not result.waits)
    said = [_due(result) for result in asked]
    return tuple(dict.fromkeys(words for words in said if words))


def due_sentence(due: Sequence[str]) -> str:
    """Return what is due as words that are no answer of the row, "" where nothing is."""
    return _("due: {words}").format(words=", ".join(due)) if due else ""


def _due(result: CriterionResult) -> str:
    """Return what is to be tested, "" where no test answers: days, or a session to come."""
    bent = result.criterion.parameters.get("knee") == "bent"
    raises = _("heel raises, knee bent") if bent else _("heel raises")
    return {
        "observed": _("what must be seen"),
        "raises_at_least": raises,
        "raises_within": raises,
        "raises_to_target": raises,
        "loaded_raises_within": _("raises with weight"),
        "hops_at_least": _("hops"),
        "reactive_within": _("hop times"),
        "jump_within": _("jump"),
        "knee_to_wall_within": _("knee to wall"),
        "speed_over": _("run"),
        "clean_runs": _("run"),
        "clean_mornings": _("morning"),
    }.get(result.criterion.check, "")


def examine_words() -> str:
    """Return that the examination is due."""
    return _("examination")


def signs_words() -> str:
    """Return that the red flags of the protocol are to be asked for."""
    return _("red flags")


def review_words() -> str:
    """Return that somebody promised to say more by now."""
    return _("a word on availability")


def late_words(fact: Standing[Any], zone: str) -> str:
    """Return that a fact was noted on a later day than its own, "" where it was not."""
    if not is_late(fact, zone):
        return ""
    noted = noted_on(fact, zone)
    if noted - fact.value.on == timedelta(days=1):
        return _("entered the morning after")
    return _("entered on {day}").format(day=day_words(noted))
