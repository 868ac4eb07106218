"""Which reasons for the four questions nobody has answered yet, whoever saves and wherever."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time
from typing import Any

from teamrehab.domain.deciding import situation_of
from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History, Standing
from teamrehab.domain.measures import MorningResponse, SafetyCheck, SessionEntry, Test
from teamrehab.domain.mornings import mornings_of
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.safety import seen_troubles, too_much, why_asked

Asking = SessionEntry | Test | MorningResponse | Examination
"""What tells how the leg was."""

_Reason = tuple[str, str]
"""Whose reason it is (the id of an entry; "" for a rise, that of the day), and its words."""

_NOON = time(12)


def questions_for(
    history: History,
    protocol: Protocol | None,
    values: Sequence[Any],
    on: date,
    checks: Sequence[SafetyCheck] = (),
) -> tuple[str, ...]:
    """Return why the four questions are asked before ``values`` are saved; empty: silently.

    Reasons are compared, not days: answers that stand for ``on`` answer the reasons of what
    stands for that day, an entry and its corrections each, and no others. A session that was
    missed asks nothing.

    Args:
        history: the case as it stands; a value takes the place of the one of its own id.
        protocol: the protocol of the case; None: a limp is not taken as expected.
        values: what is typed; of these sessions, tests and mornings of ``on`` count.
        on: the day asked about.
        checks: answers given for these values; one of that day answers every reason.
    """
    if any(check.on == on for check in checks):
        return ()
    typed = [value for value in values if isinstance(value, Asking) and value.on == on]
    found = list(_reasons(_with(history, typed), protocol, typed, on))
    if any(check.on == on for check in history.of(SafetyCheck)):
        noted = [f.value for f in history.facts if isinstance(f.value, Asking)]
        told = set(_reasons(history, protocol, [one for one in noted if one.on == on], on))
        found = [reason for reason in found if reason not in told]
    return tuple(dict.fromkeys(sentence for _whose, sentence in found))


def _reasons(
    history: History, protocol: Protocol | None, entries: Sequence[Asking], on: date
) -> Iterator[_Reason]:
    situation = situation_of(history, protocol, on)
    for entry in entries:
        symptom = None if isinstance(entry, Examination) else entry.symptom
        for sentence in (
            *too_much(symptom, situation.alarm),
            *seen_troubles(entry, situation.expects(entry, on)),
        ):
            yield _id_of(entry), sentence
    if entries:
        morning = mornings_of(history, situation.alarm).get(on)
        rise = None if morning is None else morning.rise
        for sentence in why_asked(None, None, None, rise):
            yield "", sentence


def _with(history: History, typed: Sequence[Asking]) -> History:
    """Return the case as it would stand; no stamp is needed, the worst of a day counts."""
    ids = {_id_of(value) for value in typed}
    left = [f for f in history.facts if not ids or _id_of(f.value) not in ids]
    new = (
        Standing(
            fact_id=_id_of(value),
            value=value,
            author="",
            noted_at=datetime.combine(value.on, _NOON, UTC),
        )
        for value in typed
    )
    return replace(history, facts=(*left, *new))


def _id_of(value: Any) -> str:
    names = ("session_id", "test_id", "response_id", "examination_id")
    return next((getattr(value, name) for name in names if hasattr(value, name)), "")
