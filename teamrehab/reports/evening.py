"""The evening page as values: one line an athlete in rehab."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    AvailabilityStated,
    Training,
)
from teamrehab.domain.combining import availability_on
from teamrehab.domain.days import club_day
from teamrehab.domain.deciding import decide, situation_of
from teamrehab.domain.decision import Decision
from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History, Squad, Standing
from teamrehab.domain.injuries import Nature, Scope, Side
from teamrehab.domain.measures import (
    Missed,
    MorningResponse,
    SessionEntry,
    SessionMissed,
)
from teamrehab.domain.mornings import morning_of, morning_rise
from teamrehab.domain.names import like_any, plain
from teamrehab.domain.plans import Plan, plan_for
from teamrehab.domain.protocol import InjuryKind, Protocol, followed
from teamrehab.domain.signs import signs_due
from teamrehab.domain.stops import stop_reasons
from teamrehab.language import _
from teamrehab.reports.wording_clinical import problem_words
from teamrehab.reports.wording_evening import (
    due_words,
    examine_words,
    last_words,
    morning_words,
    plan_words,
    review_words,
    signs_words,
    stopped_words,
)

Evening = SessionEntry | SessionMissed


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningLine:
    """One open case on one evening, as it stands before anything is typed.

    ``alike``: another athlete on the page has a surname that is easily taken for this one.
    ``plan_words``, ``last_words``, ``morning_words`` and ``due`` are short words for cells.
    ``stopped`` says in a sentence why nothing may be loaded, "" where it may. ``noted`` are
    the sessions (done or missed) that stand for this evening, the newest last; ``away``: not
    expected tonight, so the line stands last. ``phase`` is that of the stage.
    """

    athlete_id: str
    case_id: str
    number: int | None
    surname: str
    first_name: str
    side: Side
    problem: str
    stage: str
    plan: Plan
    plan_words: str
    history: History
    phase: int | None = None
    last_words: str = ""
    morning_words: str = ""
    due: tuple[str, ...] = ()
    alike: bool = False
    away: bool = False
    unseen: bool = False
    stopped: str = ""
    noted: tuple[Standing[Any], ...] = ()


def evening_lines(
    squad: Squad,
    protocols: Mapping[str, Protocol],
    catalogue: Mapping[str, InjuryKind],
    on: date,
    now: datetime,
) -> tuple[EveningLine, ...]:
    """Return one line an open case in rehab on the evening of ``on``, in the order to type.

    First who is expected, by number and surname; last who is away that day and who was not
    seen on the last evening, unless rehab is stopped. Nothing noted on ``on`` changes the
    order. ``now`` is the club's wall time: an update promised for before it is due.
    """
    asked = _Asked(squad, protocols, catalogue, on, now)
    open_then = [history for history in squad.open_cases if _in_rehab(history, on)]
    lines = sorted((_line(history, asked) for history in open_then), key=_place)
    names = {line.athlete_id: line.surname for line in lines}
    return tuple(replace(line, alike=_is_alike(line, names)) for line in lines)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What every line is worked out from besides its own case."""

    squad: Squad
    protocols: Mapping[str, Protocol]
    catalogue: Mapping[str, InjuryKind]
    on: date
    now: datetime

    def absences(self, athlete_id: str) -> list[Absence]:
        """Return what is known of an athlete's time away."""
        return [away for away in self.squad.absences if away.athlete_id == athlete_id]


def _in_rehab(history: History, on: date) -> bool:
    """Return whether a case had begun and nobody had cleared it, or a red flag is open."""
    cleared = [c.on for c in history.clearances if c.scope is Scope.MATCH]
    begun = history.case.on <= on and history.athlete.in_squad(on)
    ended = any(day <= on for day in cleared) and not history.red_flags_open_on(on)
    return begun and not ended


def _place(line: EveningLine) -> tuple[bool, bool, int, str, str, str]:
    last = (line.away or line.unseen) and not line.stopped
    number = 0 if line.number is None else line.number
    surname, first_name = plain(line.surname), plain(line.first_name)
    return last, line.number is None, number, surname, first_name, line.case_id


def _is_alike(line: EveningLine, names: Mapping[str, str]) -> bool:
    others = (name for who, name in names.items() if who != line.athlete_id)
    return like_any(line.surname, others)


def _line(history: History, asked: _Asked) -> EveningLine:
    protocol = followed(history, asked.protocols).protocol
    settings, athlete = asked.squad.settings, history.athlete
    stops = (
        *stop_reasons(situation_of(history, protocol, asked.on, settings)),
        *_rest(history, asked),
    )
    decision = None if protocol is None else decide(history, protocol, asked.on, settings)
    plan = _plan(history, protocol, asked)
    diagnosis = history.diagnosis
    kind = asked.catalogue.get(diagnosis.injury) if diagnosis else None
    last = _last(history, asked.on)
    return EveningLine(
        athlete_id=athlete.athlete_id,
        case_id=history.case.case_id,
        number=athlete.number,
        surname=athlete.surname,
        first_name=athlete.first_name,
        side=history.case.side,
        problem=problem_words(history, kind),
        stage=decision.stage_name if decision else "",
        phase=protocol.stages[decision.stage - 1].phase if protocol and decision else None,
        plan=plan,
        plan_words=stopped_words() if stops else _plan_words(plan, history, protocol),
        history=history,
        last_words=last_words(last, asked.on),
        morning_words=_morning(history, last, asked.on),
        due=(
            *_signs_due(history, protocol, asked),
            *_due(history, None if stops else decision, asked),
        ),
        away=_away(history, asked),
        unseen=isinstance(last, SessionMissed) and last.reason is Missed.NOT_SEEN,
        stopped=stops[0] if stops else "",
        noted=_noted(history, asked.on),
    )


def _plan_words(plan: Plan, history: History, protocol: Protocol | None) -> str:
    chosen = history.protocol is not None
    return plan_words(plan, guided=protocol is not None, chosen=chosen)


def _plan(history: History, protocol: Protocol | None, asked: _Asked) -> Plan:
    athlete_id = history.athlete.athlete_id
    cases = asked.squad.cases_of(athlete_id)
    there = availability_on(asked.on, cases, asked.absences(athlete_id))
    return plan_for(history, protocol, there, asked.on)


def _rest(history: History, asked: _Asked) -> Iterator[str]:
    """Yield that an ill athlete is to rest: a session then is asked about first."""
    said = history.as_of(asked.on).last(AvailabilityStated)
    ill = history.case.nature is Nature.ILLNESS
    if ill and said is not None and said.training is Training.NONE:
        yield _("Training: none is stated.")


def _last(history: History, on: date) -> Evening | None:
    """Return the newest evening before ``on``; of one evening the session, if one was done."""
    before = [
        f.value for f in history.facts if isinstance(f.value, Evening) and f.value.on < on
    ]
    return max(before, key=lambda one: (one.on, isinstance(one, SessionEntry)), default=None)


def _morning(history: History, last: Evening | None, on: date) -> str:
    """Return the newest morning since the last session, "" where none is in."""
    since = on if last is None else last.on
    mornings = [r.on for r in history.of(MorningResponse)]
    newest = max((m for m in mornings if m == on or since < m < on), default=None)
    response = None if newest is None else morning_of(history, newest)
    if response is None:
        return ""
    rise = morning_rise(history, response.on)
    return morning_words(response, on, None if last is None else last.on, rise)


def _signs_due(history: History, protocol: Protocol | None, asked: _Asked) -> Iterator[str]:
    """Yield that the red flags are to be asked for, beside a stop too."""
    if protocol is not None:
        situation = situation_of(history, protocol, asked.on, asked.squad.settings)
        if signs_due(situation, protocol):
            yield signs_words()


def _due(history: History, decision: Decision | None, asked: _Asked) -> Iterator[str]:
    """Yield what waits: the examination, a promised word, tests unless rehab is stopped."""
    case, last_day = history.case, max(asked.on, club_day(asked.now))
    again = case.reassess_on is not None and case.reassess_on.date() <= last_day
    ill = case.nature is Nature.ILLNESS
    if again and not ill and not history.of(Examination):
        yield examine_words()
    if _update_due(history, last_day) or (again and ill and not _said_since(history)):
        yield review_words()
    if decision is not None:
        yield from due_words(decision.criteria)


def _update_due(history: History, last_day: date) -> bool:
    """Return whether the newest statement promised to say more by now."""
    said = [one for one in history.of(AvailabilityStated) if one.on <= last_day]
    newest = [one for one in said if one.on == said[-1].on] if said else []
    updates = [one.next_update.date() for one in newest if one.next_update is not None]
    return any(day <= last_day for day in updates)


def _said_since(history: History) -> bool:
    """Return whether something was stated on the day of reassessment or later."""
    again = history.case.reassess_on
    said = history.of(AvailabilityStated)
    return again is not None and any(one.on >= again.date() for one in said)


def _away(history: History, asked: _Asked) -> bool:
    """Return whether the athlete is away; who is suspended trains (common practice)."""
    return any(
        away.on <= asked.on
        and (away.until is None or asked.on <= away.until)
        and away.reason is not AbsenceReason.SUSPENDED
        for away in asked.absences(history.athlete.athlete_id)
    )


def _noted(history: History, on: date) -> tuple[Standing[Any], ...]:
    return tuple(f for f in history.facts if isinstance(f.value, Evening) and f.value.on == on)
