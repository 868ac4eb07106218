"""Every kind of fact: its name, its dataclass, its schema, and what it is about."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any, Generic, TypeVar, get_args

import msgspec

from teamrehab.domain.athletes import Athlete, StaffMember, Team
from teamrehab.domain.availability import Absence, AvailabilityStated
from teamrehab.domain.days import Exposure, Fixture
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.history import Erased, Unreadable
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    LevelMoved,
    ProtocolAdopted,
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
    Test,
)
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.sheets import Disclosed, SheetIssued
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.language import _
from teamrehab.records.marks import EnteredInError, Erasure

T = TypeVar("T")
Upcaster = Callable[[dict[str, Any]], dict[str, Any]]


class Body(msgspec.Struct, Generic[T]):
    """A body as it is read: the value, and why it was written (for corrections)."""

    value: T
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of fact.

    ``slot`` names what a value is about: a later value of the same slot replaces it. It holds
    ids and days only, because headers outlive an erasure. ``upcasters[n]`` turns a value of
    schema n + 1 into one of schema n + 2; the newest schema is one more than their number.
    """

    name: str
    shape: type
    slot: Callable[[Any], str]
    upcasters: tuple[Upcaster, ...] = ()

    @property
    def schema(self) -> int:
        """Return the schema written today."""
        return len(self.upcasters) + 1


def _kind(shape: type, name: str, pattern: str, *upcasters: Upcaster) -> Kind:
    """Return a kind whose slot is ``pattern`` filled in from the value ``v``."""
    return Kind(
        name=name,
        shape=shape,
        slot=lambda value: pattern.format(v=value),
        upcasters=upcasters,
    )


def _told_fresh(test: Any) -> Any:
    """Return a test of schema 1 as it stands: it always said fresh or after training."""
    return {"after_training": False} | test


def _as_it_was(value: Any) -> Any:
    """Return a value of a schema that only lacks what the next one may leave out."""
    return value


_ALL = (
    _kind(Team, "team", "team"),
    _kind(StaffMember, "staff_member", "staff:{v.staff_id}"),
    _kind(Athlete, "athlete", "athlete:{v.athlete_id}"),
    _kind(Case, "case", "case:{v.case_id}"),
    _kind(Diagnosis, "diagnosis", "diagnosis:{v.case_id}"),
    _kind(ProtocolChosen, "protocol_chosen", "protocol:{v.case_id}"),
    # every move is kept beside the others: the course of a case is the sum of its moves
    _kind(StageMoved, "stage_moved", "stage:{v.case_id}:{v.on}:{v.stage}"),
    _kind(LevelMoved, "level_moved", "level:{v.case_id}:{v.ladder}:{v.on}:{v.level}"),
    _kind(RedFlag, "red_flag", "flag:{v.flag_id}"),
    _kind(ReturnDecision, "return_decision", "decision:{v.case_id}", _as_it_was),
    _kind(Clearance, "clearance", "clearance:{v.case_id}:{v.on}:{v.scope.name}"),
    _kind(CaseClosed, "case_closed", "closed:{v.case_id}"),
    _kind(Remark, "remark", "remark:{v.remark_id}"),
    _kind(HeelRaiseTest, "heel_raise_test", "test:{v.test_id}", _told_fresh, _as_it_was),
    _kind(HopTest, "hop_test", "test:{v.test_id}", _told_fresh, _as_it_was),
    _kind(
        FunctionCheck,
        "function_check",
        "test:{v.test_id}",
        _told_fresh,
        _as_it_was,
        _as_it_was,
    ),
    _kind(RunTest, "run_test", "test:{v.test_id}", _told_fresh, _as_it_was),
    _kind(JumpTest, "jump_test", "test:{v.test_id}"),
    _kind(KneeToWallTest, "knee_to_wall_test", "test:{v.test_id}"),
    _kind(LoadedRaiseTest, "loaded_raise_test", "test:{v.test_id}"),
    _kind(SessionEntry, "session", "session:{v.session_id}", _as_it_was),
    _kind(SessionMissed, "session_missed", "session:{v.session_id}"),
    _kind(MorningResponse, "morning_response", "morning:{v.response_id}"),
    _kind(SafetyCheck, "safety_check", "safety:{v.check_id}"),
    _kind(SignsAsked, "signs_asked", "signs:{v.asked_id}"),
    _kind(Examination, "examination", "examination:{v.examination_id}"),
    _kind(EarlierInjury, "earlier_injury", "earlier:{v.earlier_id}"),
    _kind(EveningSigned, "evening_signed", "evening:{v.on}"),
    _kind(AvailabilityStated, "availability", "availability:{v.case_id}:{v.on}"),
    _kind(Absence, "absence", "absence:{v.absence_id}"),
    _kind(Fixture, "fixture", "fixture:{v.fixture_id}"),
    _kind(
        Exposure,
        "exposure",
        "exposure:{v.athlete_id}:{v.on}:{v.match:d}{v.nth}",
        _as_it_was,
    ),
    _kind(ClubSettings, "club_settings", "settings"),
    _kind(ProtocolAdopted, "protocol_adopted", "own_protocol:{v.key}:{v.version}"),
    _kind(SheetIssued, "sheet_issued", "sheet:{v.number}"),
    _kind(Disclosed, "disclosed", "disclosed:{v.athlete_id}:{v.on}"),
    # an entered-in-error mark takes the slot of the fact it withdraws, see writing.py
    _kind(EnteredInError, "entered_in_error", "error:{v.fact_id}"),
    _kind(Erasure, "erasure", "erasure:{v.body_hash}"),
)

KINDS: Mapping[str, Kind] = {kind.name: kind for kind in _ALL}
BY_SHAPE: Mapping[type, Kind] = {kind.shape: kind for kind in _ALL}
WITHDRAWN = BY_SHAPE[EnteredInError].name
ERASED = BY_SHAPE[Erasure].name
COURSE = tuple(
    BY_SHAPE[shape].name
    for shape in (Case, Diagnosis, ProtocolChosen, StageMoved, Clearance, CaseClosed)
)
"""The kinds that tell how a case ran, without its tests: what the estimate learns from."""

TESTS = tuple(BY_SHAPE[shape].name for shape in get_args(Test))
"""The kinds of tests: those without a case are an athlete's healthy values."""


@cache
def _decoder(name: str) -> Callable[[str], Body[Any]]:
    shape: Any = KINDS[name].shape
    return msgspec.json.Decoder(Body[shape]).decode


def read_body(kind: str, schema: int, on: str, text: str | None) -> Any:
    """Return the value of a body, or ``Erased`` or ``Unreadable`` in its place.

    A stored fact is never refused for being implausible; only its shape is asked for.
    """
    if text is None:
        return Erased(kind=kind, on=date.fromisoformat(on))
    known = KINDS.get(kind)
    if known is None or schema > known.schema:
        why = _("written by a newer version of this program")
        return Unreadable(kind=kind, on=date.fromisoformat(on), why=why)
    try:
        return (
            _decoder(kind)(text).value
            if schema == known.schema
            else _upcast(known, schema, text)
        )
    except (msgspec.MsgspecError, KeyError, ValueError):
        why = _("the entry is damaged")
        return Unreadable(kind=kind, on=date.fromisoformat(on), why=why)


def _upcast(kind: Kind, schema: int, text: str) -> Any:
    value = msgspec.json.decode(text)["value"]
    for step in kind.upcasters[schema - 1 :]:
        value = step(value)
    return msgspec.convert(value, kind.shape)
