"""Decisions and events of a case in words: what happened, and what exactly."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from teamrehab.desktop.athlete.diagnosis_form import certainty_words
from teamrehab.domain.availability import Availability, AvailabilityStated, Match
from teamrehab.domain.days import Fixture
from teamrehab.domain.history import Erased, History, Unreadable
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    Outcome,
    ProtocolChosen,
    RedFlag,
    ReturnDecision,
    Scope,
    StageMoved,
)
from teamrehab.domain.protocol import InjuryKind, Protocol, followed
from teamrehab.language import _, counted
from teamrehab.reports.wording import (
    day_words,
    fixture_words,
    match_sentence,
    moment_words,
    training_words,
)
from teamrehab.reports.wording_clinical import side_words
from teamrehab.reports.wording_limits import limits_words

Decided = (
    Case
    | Diagnosis
    | ProtocolChosen
    | StageMoved
    | AvailabilityStated
    | Clearance
    | ReturnDecision
    | CaseClosed
    | RedFlag
    | Erased
    | Unreadable
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the facts of a case are read with."""

    history: History
    catalogue: Mapping[str, InjuryKind]
    protocols: Mapping[str, Protocol]
    fixtures: tuple[Fixture, ...] = ()


def event_kind(value: Decided) -> str:
    """Return what kind of decision or event it is."""
    return {
        Case: _("Case opened"),
        Diagnosis: _("Diagnosis"),
        ProtocolChosen: _("Protocol"),
        StageMoved: _("Stage"),
        AvailabilityStated: _("Availability"),
        Clearance: _("Clearance"),
        ReturnDecision: _("Decision"),
        CaseClosed: _("Case closed"),
        RedFlag: _("Red flag raised"),
        Erased: _("Erased"),
        Unreadable: _("Cannot be read"),
    }[type(value)]


def event_words(value: Decided, told: Told) -> str:
    """Return what exactly was decided, as one line."""
    parts = _PARTS[type(value)](value, told)
    return " ".join(", ".join(part for part in parts if part).split())


def closed_flag_words(flag: RedFlag) -> str:
    """Return which doctor saw the athlete, and for what."""
    return _("seen by {doctor}: {what}").format(doctor=flag.closed_by, what=flag.what)


def scope_words(scope: Scope) -> str:
    """Return what a clearance is for."""
    return {
        Scope.TEAM_TRAINING: _("team training"),
        Scope.MATCH_WITH_LIMIT: _("match with a limit"),
        Scope.MATCH: _("match"),
    }[scope]


def outcome_words(outcome: Outcome) -> str:
    """Return how a case ended."""
    return {
        Outcome.CLEARED: _("cleared"),
        Outcome.LEFT_CLUB: _("left the club"),
        Outcome.OTHER: _("other"),
    }[outcome]


def _case(case: Case, _told: Told) -> list[str]:
    return [
        case.area,
        side_words(case.side),
        case.what,
        _("recurrence") if case.recurrence_of else "",
        _("head injury") if case.head_injury else "",
        _("operation") if case.operation else "",
        _("sensitive") if case.sensitive else "",
    ]


def _diagnosis(held: Diagnosis, told: Told) -> list[str]:
    kind = told.catalogue.get(held.injury)
    muscles = {m.key: m.name for m in kind.muscles} if kind else {}
    grade = "" if held.grade is None else _("grade {grade}").format(grade=held.grade)
    return [
        _(kind.name) if kind else held.injury,
        _(muscles[held.muscle]) if held.muscle in muscles else "",
        grade,
        certainty_words(held.certainty),
        held.text,
    ]


def _protocol(chosen: ProtocolChosen, told: Told) -> list[str]:
    known = told.protocols.get(chosen.protocol)
    name = known.name if known else chosen.protocol
    return [_("{name}, version {version}").format(name=name, version=chosen.version)]


def _stage(moved: StageMoved, told: Told) -> list[str]:
    protocol = followed(told.history, told.protocols).protocol
    stages = protocol.stages if protocol else ()
    if 1 <= moved.stage <= len(stages):
        return [_("{stage} opened").format(stage=stages[moved.stage - 1].name), moved.why]
    return [_("stage {number} opened").format(number=moved.stage), moved.why]


def _availability(stated: AvailabilityStated, _told: Told) -> list[str]:
    match = Availability(
        match=stated.match,
        match_minutes=stated.match_minutes,
        match_role=stated.match_role,
        next_update=stated.next_update,
    )
    until = stated.until
    update = None if stated.match is Match.UNDECIDED else stated.next_update
    return [
        _("training {answer}").format(answer=training_words(stated.training)),
        _("match {answer}").format(answer=match_sentence(match)),
        limits_words(stated.limits) if stated.limits else "",
        _("until {day}").format(day=day_words(until)) if until else "",
        _("next update {when}").format(when=moment_words(update)) if update else "",
    ]


def _decision(decided: ReturnDecision, told: Told) -> list[str]:
    known = {f.fixture_id: fixture_words(f) for f in told.fixtures}
    named = [known[key] for key in decided.ruled_out if key in known]
    unnamed = len(decided.ruled_out) - len(named)
    day, opinion = decided.not_before, decided.expected
    parts = [
        _("not before {day}").format(day=day_words(day)) if day else "",
        _("expected back {day}").format(day=day_words(opinion)) if opinion else "",
        *(_("ruled out for {match}").format(match=match) for match in named),
    ]
    if unnamed:
        parts.append(
            counted(
                "ruled out for {count} other match",
                "ruled out for {count} other matches",
                unnamed,
            )
        )
    return [*parts, decided.why] if any(parts) else [_("nothing decided"), decided.why]


def _clearance(signed: Clearance, _told: Told) -> list[str]:
    name = _("signed by {name}").format(name=signed.signed_by)
    return [scope_words(signed.scope), signed.limit, name]


_PARTS: Mapping[type, Callable[[Any, Told], list[str]]] = {
    Case: _case,
    Diagnosis: _diagnosis,
    ProtocolChosen: _protocol,
    StageMoved: _stage,
    AvailabilityStated: _availability,
    Clearance: _clearance,
    ReturnDecision: _decision,
    CaseClosed: lambda closed, _told: [outcome_words(closed.outcome)],
    RedFlag: lambda flag, _told: [flag.what],
    Erased: lambda _erased, _told: [],
    Unreadable: lambda unread, _told: [unread.why],
}
