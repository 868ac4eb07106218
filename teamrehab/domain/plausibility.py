"""Is a value fit to be written down? Asked on entry and on import, never of a stored fact."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from teamrehab.domain import plausible_decisions as decisions
from teamrehab.domain import plausible_entries as entries
from teamrehab.domain import plausible_evenings as evenings
from teamrehab.domain import plausible_examination as examinations
from teamrehab.domain import plausible_people as people
from teamrehab.domain.athletes import Athlete, StaffMember, Team
from teamrehab.domain.availability import Absence, AvailabilityStated
from teamrehab.domain.days import Exposure
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.history import History
from teamrehab.domain.implausible import Found, Implausible, Moment
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    LevelMoved,
    ProtocolChosen,
    RedFlag,
    Remark,
    ReturnDecision,
    StageMoved,
)
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    JumpTest,
    KneeToWallTest,
    LoadedRaiseTest,
    MorningResponse,
    RunTest,
    SafetyCheck,
    SessionEntry,
    SessionMissed,
)
from teamrehab.domain.plausible_texts import texts
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.sheets import Disclosed
from teamrehab.domain.signs_asked import SignsAsked

__all__ = ["Implausible", "check", "check_levels"]

_RULES: Mapping[type, Callable[[Any, Moment], Found]] = {
    Athlete: people.athlete,
    StaffMember: people.staff_member,
    Team: people.team,
    Absence: people.absence,
    Exposure: people.exposure,
    Disclosed: people.disclosed,
    HeelRaiseTest: entries.heel_raises,
    HopTest: entries.hops,
    FunctionCheck: entries.function_check,
    RunTest: entries.run,
    JumpTest: entries.jump,
    KneeToWallTest: entries.knee_to_wall,
    LoadedRaiseTest: entries.loaded_raises,
    SessionEntry: evenings.session,
    SessionMissed: evenings.missed,
    MorningResponse: evenings.morning,
    SafetyCheck: evenings.safety_check,
    SignsAsked: evenings.signs_asked,
    LevelMoved: evenings.level_moved,
    EveningSigned: evenings.evening_signed,
    Examination: examinations.examination,
    EarlierInjury: examinations.earlier_injury,
    Case: decisions.case,
    Diagnosis: decisions.diagnosis,
    ProtocolChosen: decisions.happened,
    AvailabilityStated: decisions.availability,
    StageMoved: decisions.stage_moved,
    RedFlag: decisions.red_flag,
    ReturnDecision: decisions.return_decision,
    Clearance: decisions.clearance,
    CaseClosed: decisions.happened,
    Remark: decisions.remark,
}
"""A kind that is not named here is looked at for its texts only."""


def check(value: Any, today: date, history: History | None = None) -> tuple[Implausible, ...]:
    """Return everything about a value of the domain that cannot stand, nothing if it may.

    ``history`` is the case it belongs to, where there is one: nothing of a case lies before
    its onset. The fields are worded as the forms word them.
    """
    rule = _RULES.get(type(value))
    ruled = () if rule is None else tuple(rule(value, Moment(today, history)))
    return (*ruled, *texts(value))


def check_levels(
    entry: SessionEntry, history: History, protocol: Protocol
) -> tuple[Implausible, ...]:
    """Return the exercises of a session at a level the athlete had not reached by its day.

    Asked beside ``check`` where the protocol of the case is at hand.
    """
    return tuple(evenings.levels_reached(entry, history, protocol))
