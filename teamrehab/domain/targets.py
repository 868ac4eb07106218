"""What a leg should reach: the athlete's own healthy value, the other leg, or a number."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import ceil

from teamrehab.domain.injuries import Side
from teamrehab.domain.leg_evidence import repetitions
from teamrehab.domain.measures import HeelRaiseTest, Knee
from teamrehab.domain.situation import Situation
from teamrehab.language import _


class Basis(StrEnum):
    """What a target rests on, the best first."""

    OWN = "own healthy value"
    OTHER_LEG = "other leg at the first test"
    NUMBER = "number of the protocol"


@dataclass(frozen=True, slots=True)
class Target:
    """What one leg should reach; ``reference`` is the value it was taken from, seen ``on``."""

    leg: Side
    value: int
    basis: Basis
    reference: int
    on: date


def target_of(
    leg: Side, knee: Knee, situation: Situation, percent: int, number: int | None
) -> Target | None:
    """Return the target of a leg in heel raises: ``percent`` of what it is held against.

    In this order: its own value from before the injury, the uninjured leg at the first test
    of the case, ``number`` as it stands. None: nothing of it is there.
    """
    own = _own(leg, knee, situation)
    if own is not None:
        return _share(leg, own, percent, Basis.OWN)
    first = _first_of_uninjured(knee, situation)
    if first is not None:
        return _share(leg, first, percent, Basis.OTHER_LEG)
    if number is None:
        return None
    return Target(leg, number, Basis.NUMBER, number, situation.today)


def basis_words(target: Target, percent: int) -> str:
    """Return what a target rests on, as the name of its number."""
    words = {
        Basis.OWN: _("Target, {percent} % of the own healthy {reference}"),
        Basis.OTHER_LEG: _("Target, {percent} % of the other leg's {reference} at first"),
        Basis.NUMBER: _("Target where no value of the athlete is known"),
    }[target.basis]
    return words.format(percent=percent, reference=target.reference)


def adults_remark(number: int) -> str:
    """Return that a number found in adults is not applied."""
    said = _("Under 18: the {number} of adults is not applied.")
    return said.format(number=number)


def _share(leg: Side, found: tuple[int, date], percent: int, basis: Basis) -> Target:
    reference, on = found
    return Target(leg, ceil(reference * percent / 100), basis, reference, on)


def _own(leg: Side, knee: Knee, situation: Situation) -> tuple[int, date] | None:
    """Return the newest value of a leg from before the injury, and its day."""
    values = ((repetitions(t, leg), t) for t in situation.healthy(HeelRaiseTest))
    return next(((n, t.on) for n, t in values if n and t.knee is knee and t.full_range), None)


def _first_of_uninjured(knee: Knee, situation: Situation) -> tuple[int, date] | None:
    """Return what the uninjured leg showed first in this case; None where both are hurt."""
    if len(situation.injured) > 1:
        return None
    other = situation.injured[0].other
    oldest_first = reversed(situation.tests(HeelRaiseTest))
    values = ((repetitions(t, other), t) for t in oldest_first)
    return next(((n, t.on) for n, t in values if n and t.knee is knee and t.full_range), None)
