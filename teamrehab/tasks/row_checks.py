"""What keeps a row from being noted or moved; each raises, and nothing is written."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import RedFlag, Remark
from teamrehab.domain.measures import (
    MorningResponse,
    SafetyCheck,
    SessionEntry,
    SessionMissed,
    Test,
)
from teamrehab.domain.plausibility import check_levels
from teamrehab.domain.questions import Asking, questions_for
from teamrehab.domain.safety import at_least, flag_of, raised_anew, raised_by, spoken_for
from teamrehab.language import _
from teamrehab.records import Casebook
from teamrehab.reports.wording import day_words
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.refusals import ImplausibleError, RefusedError, insist

Values = Sequence[Any]
Evening = SessionEntry | SessionMissed
MOVABLE = Test | SessionEntry | SessionMissed | MorningResponse | SafetyCheck | Remark
"""What is observed of an athlete; decisions and red flags never move to another."""


class SavedTwiceError(RefusedError):
    """The case has a session of that evening already; a second one is a person's word."""


def insist_on_case(known: History, values: Values) -> None:
    """Raise ValueError for a value of another case, which is our mistake."""
    ours = (known.case.case_id, known.case.athlete_id)
    if any((value.case_id, value.athlete_id) != ours for value in values):
        raise ValueError("a row is about one case of one athlete")


def insist_on_row(casebook: Casebook, known: History, values: Values) -> None:
    """Raise ImplausibleError for what cannot stand, levels never reached included."""
    insist(casebook.clock.today(), known, *values)
    protocol = protocol_of(known)
    sessions = [value for value in values if isinstance(value, SessionEntry)]
    found = [
        one
        for session in sessions
        if protocol is not None
        for one in check_levels(_without_what_stands(session, known), known, protocol)
    ]
    if found:
        raise ImplausibleError(found)


def _without_what_stands(session: SessionEntry, known: History) -> SessionEntry:
    """Leave out exercises that stand in this session: they were judged when they were noted.

    A level taken back or another protocol since must not keep a symptom from being corrected.
    """
    stand = {
        exercise
        for old in known.of(SessionEntry)
        if (old.session_id, old.on) == (session.session_id, session.on)
        for exercise in old.exercises
    }
    return replace(session, exercises=tuple(e for e in session.exercises if e not in stand))


def insist_on_questions(known: History, values: Values) -> None:
    """Raise RefusedError for what is not accepted before the four questions are answered."""
    protocol = protocol_of(known)
    checks = [value for value in values if isinstance(value, SafetyCheck)]
    for on in sorted({value.on for value in values if isinstance(value, Asking)}):
        why = questions_for(known, protocol, values, on, checks)
        if why:
            sentence = _("{why} Answer the four questions first.")
            raise RefusedError(sentence.format(why=" ".join(why)))


def flags_missing(known: History, values: Values) -> list[RedFlag]:
    """Return the red flags that four answers raise and that no flag speaks for yet.

    They carry the id of the answers, so that a second try at saving raises none twice. Where
    corrected answers are more urgent, the flag becomes so; where a doctor had closed it
    already, another one is raised beside it. One typed along with the answers that is as
    urgent speaks for them.
    """
    typed = [value.urgency for value in values if isinstance(value, RedFlag)]
    there = known.of(RedFlag)
    checks = [value for value in values if isinstance(value, SafetyCheck)]
    found = ((check, flag_of(check, check.check_id)) for check in checks)
    return [
        raised_anew(flag, there) if _was_closed(flag, there) else flag
        for check, flag in found
        if flag is not None
        and not spoken_for(check, there)
        and not any(at_least(one, flag.urgency) for one in typed)
    ]


def _was_closed(flag: RedFlag, there: Sequence[RedFlag]) -> bool:
    return any(raised_by(one, flag.flag_id) and one.closed is not None for one in there)


def flags_raised(values: Values) -> list[RedFlag]:
    """Return the red flags that the four answers among the values raise, with their ids."""
    checks = (value for value in values if isinstance(value, SafetyCheck))
    found = (flag_of(check, check.check_id) for check in checks)
    return [flag for flag in found if flag is not None]


def insist_once(known: History, values: Values, replaces: Sequence[str]) -> None:
    """Raise SavedTwiceError for a new session beside another one of the same evening.

    One that stands already, or takes the place of one, is a correction.
    """
    there = [fact for fact in known.facts if isinstance(fact.value, Evening)]
    if any(fact.fact_id in replaces for fact in there):
        return
    standing = {fact.value.session_id for fact in there}
    days = {fact.value.on for fact in there}
    for session in values:
        new = isinstance(session, Evening) and session.session_id not in standing
        if new and session.on in days:
            sentence = _(
                "{name} has an entry of {day} already. Correct that one, or say that this was"
                " a second session."
            )
            words = {"name": known.athlete.name, "day": day_words(session.on)}
            raise SavedTwiceError(sentence.format(**words))


def insist_on_movable(here: History, fact_ids: Sequence[str]) -> list[Standing[Any]]:
    """Return the facts that move, red flags left out; raises RefusedError where none may."""
    named = [fact for fact in here.facts if fact.fact_id in fact_ids]
    moving = [fact for fact in named if not isinstance(fact.value, RedFlag)]
    if not moving:
        raise RefusedError(
            _("A red flag never moves: a named doctor closes it. Nothing was moved.")
        )
    if not all(isinstance(fact.value, MOVABLE) for fact in moving):
        raise RefusedError(
            _("A decision never moves to another athlete: take it back. Nothing was moved.")
        )
    return moving
