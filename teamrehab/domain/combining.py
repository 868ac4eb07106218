"""One athlete, one day, all causes together: the most restrictive answer counts."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    Availability,
    AvailabilityStated,
    Match,
    Training,
    strictest,
)
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import Scope

_TRAINING = tuple(Training)
_MATCH = tuple(Match)
_REASONS = tuple(AbsenceReason)


def availability_on(
    day: date, cases: Iterable[History], absences: Iterable[Absence] = ()
) -> Availability:
    """Return what one athlete may do on ``day``; ``cases`` and ``absences`` are theirs.

    Of each open case the newest statement counts, of two versions the more restrictive. An
    open case nobody has spoken of, an open red flag and a head injury that nobody has
    cleared mean: out, whatever was stated. Limits are the union with
    the smallest caps. ``until`` is the latest day given, and None as soon as one restriction
    has no end or its end has passed, because then nobody knows the end of them all.
    """
    parts = [_of_case(case, day) for case in cases if case.open_on(day)]
    parts += [_of_absence(away) for away in absences if _covers(away, day)]
    return most_restrictive(parts)


def most_restrictive(parts: Sequence[Availability]) -> Availability:
    """Return the answer that satisfies all ``parts``; without any, full and available."""
    roles = {role for part in parts for role in part.match_role.split("; ") if role}
    away = [part.absence for part in parts if part.absence is not None]
    return Availability(
        training=max((p.training for p in parts), key=_TRAINING.index, default=Training.FULL),
        match=max((p.match for p in parts), key=_MATCH.index, default=Match.AVAILABLE),
        limits=strictest(limit for part in parts for limit in part.limits),
        until=_latest_end([part for part in parts if _restricts(part)]),
        match_minutes=min(
            (m for p in parts if (m := p.match_minutes) is not None), default=None
        ),
        match_role="; ".join(sorted(roles)),
        next_update=max((u for p in parts if (u := p.next_update) is not None), default=None),
        medical=any(part.medical for part in parts),
        absence=min(away, key=_REASONS.index, default=None),
        unsettled=any(part.unsettled for part in parts),
    )


def _covers(away: Absence, day: date) -> bool:
    return away.on <= day and (away.until is None or day <= away.until)


def _restricts(part: Availability) -> bool:
    return (
        part.training is not Training.FULL
        or part.match is not Match.AVAILABLE
        or bool(part.limits)
    )


def _of_case(case: History, day: date) -> Availability:
    """Return what one open case allows."""
    said = [s for s in case.standing(AvailabilityStated) if s.value.on <= day]
    newest = max((s.value.on for s in said), default=None)
    parts = [_of_statement(s, day) for s in said if s.value.on == newest]
    if not parts or case.red_flags_open_on(day):
        parts.append(_out(case))
    if case.case.head_injury:
        parts.append(_head_injury(case, day))
    together = most_restrictive(parts)
    return replace(together, medical=_restricts(together))


def _of_statement(standing: Standing[AvailabilityStated], day: date) -> Availability:
    """Return what was stated; it holds past its end, which then is not known any more."""
    stated = standing.value
    ended = stated.until is not None and stated.until < day
    return Availability(
        training=stated.training,
        match=stated.match,
        limits=stated.limits,
        until=None if ended else stated.until,
        match_minutes=stated.match_minutes,
        match_role=stated.match_role,
        next_update=stated.next_update,
        unsettled=standing.versions > 1,
    )


def _out(case: History) -> Availability:
    """Return the answer for a case that is being assessed."""
    return Availability(
        training=Training.NONE, match=Match.NOT_AVAILABLE, next_update=case.case.reassess_on
    )


def _head_injury(case: History, day: date) -> Availability:
    """Return what a head injury allows: nothing without a signature, whatever was stated.

    Return goes in steps of at least 24 hours (Br J Sports Med 2023;57:695, doi
    10.1136/bjsports-2023-106898); so each of the two answers takes a signature of its own.
    """
    signed = {clearance.scope for clearance in case.clearances if clearance.on <= day}
    if not signed:
        return _out(case)
    return Availability(match=Match.AVAILABLE if Scope.MATCH in signed else Match.NOT_AVAILABLE)


def _of_absence(away: Absence) -> Availability:
    """Return what an absence leaves: a suspended athlete trains (common practice)."""
    trains = away.reason is AbsenceReason.SUSPENDED
    return Availability(
        training=Training.FULL if trains else Training.NONE,
        match=Match.NOT_AVAILABLE,
        until=away.until,
        absence=away.reason,
    )


def _latest_end(restrictions: Sequence[Availability]) -> date | None:
    ends = [part.until for part in restrictions]
    known = [end for end in ends if end is not None]
    return max(known) if known and len(known) == len(ends) else None
