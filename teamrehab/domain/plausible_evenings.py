"""What can be true of an evening: sessions, mornings, the four questions, levels of a ladder.

Limits without a source are common practice.
"""

from datetime import date

from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import History
from teamrehab.domain.implausible import (
    Found,
    Implausible,
    Moment,
    day_between,
    needed,
    number,
)
from teamrehab.domain.injuries import LevelMoved, Scope
from teamrehab.domain.ladders import reached
from teamrehab.domain.measures import (
    ExerciseDone,
    Missed,
    MorningResponse,
    SafetyCheck,
    SessionEntry,
    SessionMissed,
)
from teamrehab.domain.plausible_entries import MINUTES, SCORE, symptom_score
from teamrehab.domain.protocol import Ladder, Protocol
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.domain.written import blank
from teamrehab.language import _

LEVEL = range(1, 31)
SETS = range(21)
ROWS = range(1001)


def session(entry: SessionEntry, moment: Moment) -> Found:
    """Yield what cannot be true of a session; none comes after the end of its case."""
    yield from _session_day(entry.on, moment)
    yield from symptom_score(_("Symptom"), entry.symptom)
    yield from number(_("Minutes"), entry.minutes, MINUTES, _("minutes"))
    yield from number(_("Effort (RPE)"), entry.effort, SCORE, "")
    for done in entry.exercises:
        yield from number(_("Sets"), done.sets, SETS, _("sets"))
        yield from number(_("Level"), done.level, LEVEL, "")


def missed(gone: SessionMissed, moment: Moment) -> Found:
    """Yield what cannot be true of a session that was not done; "other" needs words."""
    yield from _session_day(gone.on, moment)
    if gone.reason is Missed.OTHER:
        yield from needed(_("Reason"), gone.text, _('words are needed beside "other"'))


def morning(response: MorningResponse, moment: Moment) -> Found:
    """Yield what cannot be true of how the leg was in the morning."""
    yield from day_between(_("Morning"), response.on, moment.onset, moment.today)
    yield from symptom_score(_("Symptom in the morning"), response.symptom)


def safety_check(check: SafetyCheck, moment: Moment) -> Found:
    """Yield a day on which the four questions cannot have been asked."""
    yield from day_between(_("Day"), check.on, moment.onset, moment.today)


def signs_asked(asked: SignsAsked, moment: Moment) -> Found:
    """Yield a day on which the red flags cannot have been asked for."""
    yield from day_between(_("Day"), asked.on, moment.onset, moment.today)


def level_moved(moved: LevelMoved, moment: Moment) -> Found:
    """Yield what cannot be true of a level; one against the proposal needs a reason."""
    yield from day_between(_("Day"), moved.on, moment.onset, moment.today)
    yield from number(_("Level"), moved.level, LEVEL, "")
    if moved.level != moved.proposed and blank(moved.why):
        yield from needed(_("Reason"), "", _("a level against the proposal needs one"))


def evening_signed(evening: EveningSigned, moment: Moment) -> Found:
    """Yield what cannot be true of the signature under an evening."""
    yield from day_between(_("Evening"), evening.on, None, moment.today)
    yield from needed(_("Signed by"), evening.signed_by, _("somebody must sign"))
    counts = [
        (_("Rows entered"), evening.entered),
        (_("Rows with a reason"), evening.missed),
        (_("Rows left open"), evening.open),
    ]
    for field, count in counts:
        yield from number(field, count, ROWS, "")


def levels_reached(entry: SessionEntry, history: History, protocol: Protocol) -> Found:
    """Yield the exercises of a session at a level that was never reached by its day.

    Asked where the protocol is at hand; an exercise that the protocol does not have is named.
    An exercise without levels is done at level 1 and needs no decision.
    """
    known = history.as_of(entry.on)
    ladders = {ladder.key: ladder for ladder in protocol.ladders}
    plain = {one.key for one in protocol.guidance.exercises}
    for done in entry.exercises:
        ladder = ladders.get(done.exercise)
        if ladder is None and done.exercise in plain and done.level == 1:
            continue
        if ladder is None:
            yield _no_ladder(done, protocol)
        elif done.level > reached(known, ladder):
            yield _too_high(done, ladder, reached(known, ladder))


def _no_ladder(done: ExerciseDone, protocol: Protocol) -> Implausible:
    said = _("{protocol} has no such exercise").format(protocol=protocol.name)
    remedy = _("Choose an exercise of the plan.")
    return Implausible(field=_("Exercise"), value=done.exercise, allowed=said, remedy=remedy)


def _too_high(done: ExerciseDone, ladder: Ladder, highest: int) -> Implausible:
    said = _("level {level} is the highest reached so far").format(level=highest)
    if highest == 0:
        said = _("it was not opened yet")
    return Implausible(
        field=_("Level"),
        value=_("{ladder}, level {level}").format(ladder=ladder.name, level=done.level),
        allowed=said,
        remedy=_("Check the level, or decide it first with a reason."),
    )


def _session_day(on: date, moment: Moment) -> Found:
    """Yield a day in the future, before the injury, or after the case had ended."""
    yield from day_between(_("Day"), on, moment.onset, moment.today)
    if moment.history is not None:
        yield from _after_the_end(on, moment.history)


def _after_the_end(on: date, history: History) -> Found:
    closed = history.closed
    cleared = [signed.on for signed in history.clearances if signed.scope is Scope.MATCH]
    if closed is not None and on > closed.on:
        said = _("the case was closed on {day}").format(day=closed.on.isoformat())
    elif cleared and on > max(cleared):
        said = _("cleared for matches on {day}").format(day=max(cleared).isoformat())
    else:
        return
    yield Implausible(
        field=_("Day"),
        value=on.isoformat(),
        allowed=said,
        remedy=_("Check the day and the athlete; for a new problem note a new case."),
    )
