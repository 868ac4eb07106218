"""An injured leg against the athlete's own healthy value: what symmetry can hide."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic

from teamrehab.domain.day_names import day_and_year
from teamrehab.domain.formulas import percent_of_healthy
from teamrehab.domain.injuries import Side
from teamrehab.domain.leg_evidence import repetitions
from teamrehab.domain.measures import HeelRaiseTest, JumpTest, KneeToWallTest
from teamrehab.domain.plausible_entries import side_word
from teamrehab.domain.situation import Situation, T
from teamrehab.language import _


@dataclass(frozen=True, slots=True, kw_only=True)
class Own(Generic[T]):
    """How a measure of a leg is held against its own past.

    ``value`` is what a test shows for a leg, ``alike`` whether an earlier test was done in
    the same form as the one judged, ``shown`` how a value reads.
    """

    kind: type[T]
    value: Callable[[T, Side], int | None]
    alike: Callable[[T, T], bool] = lambda _now, _then: True
    shown: Callable[[int], str] = str


def _in_the_same_form(now: HeelRaiseTest, then: HeelRaiseTest) -> bool:
    return then.knee is now.knee


def _in_cm(millimetres: int) -> str:
    return _("{length} cm").format(length=f"{millimetres / 10:g}")


OWN_RAISES = Own(kind=HeelRaiseTest, value=repetitions, alike=_in_the_same_form)
OWN_JUMP = Own(kind=JumpTest, value=JumpTest.of, shown=_in_cm)
OWN_KNEE_TO_WALL = Own(kind=KneeToWallTest, value=KneeToWallTest.of, shown=_in_cm)


def own_value_remarks(
    test: T, situation: Situation, floor: int, own: Own[T]
) -> tuple[str, ...]:
    """Return what symmetry hides: an injured leg below the athlete's own healthy value.

    That is its own value from before the injury where there is one, else the other leg at
    the first test of the case. Source: J Orthop Sports Phys Ther 2017;47:334.
    """
    return tuple(
        _own_value_remark(test, leg, situation, floor, own) for leg in situation.injured
    )


def _own_value_remark(test: T, leg: Side, situation: Situation, floor: int, own: Own[T]) -> str:
    before = _before_injury(test, leg, situation, own)
    if before is None:
        return _detraining_remark(test, situation, floor, own)
    now, healthy = own.value(test, leg) or 0, own.value(before, leg) or 0
    percent = percent_of_healthy(now, healthy)
    if percent is None or percent >= floor:
        return ""
    said = _(
        "Before the injury ({day}) this leg did {healthy}, {side}: now {now}, which is"
        " {percent} % of the own healthy value."
    )
    return said.format(
        day=day_and_year(before.on),
        healthy=own.shown(healthy),
        side=side_word(leg),
        now=own.shown(now),
        percent=round(percent),
    )


def _before_injury(test: T, leg: Side, situation: Situation, own: Own[T]) -> T | None:
    """Return the newest test of this leg from before the injury, done in the same form."""
    known = situation.healthy(own.kind)
    alike = (
        healthy
        for healthy in known
        if own.alike(test, healthy) and _whole(healthy) and own.value(healthy, leg)
    )
    return next(alike, None)


def _whole(test: T) -> bool:
    """Return whether a test was done through its full range, where it has one."""
    return not isinstance(test, HeelRaiseTest) or test.full_range


def _detraining_remark(test: T, situation: Situation, floor: int, own: Own[T]) -> str:
    """Return a warning where symmetry holds only because the other leg has become weaker."""
    if len(situation.injured) > 1:
        return ""
    injured = situation.injured[0]
    now = own.value(test, injured.other) or 0
    first = _first_of_other(test, situation, own)
    of_healthy = percent_of_healthy(own.value(test, injured) or 0, first)
    if now >= first or of_healthy is None or of_healthy >= floor:
        return ""
    said = _(
        "The other leg fell from {first} at the first test of the case to {now}: the injured"
        " leg is at {percent} % of that, the only healthy value known."
    )
    return said.format(first=own.shown(first), now=own.shown(now), percent=round(of_healthy))


def _first_of_other(test: T, situation: Situation, own: Own[T]) -> int:
    """Return what the other leg showed at the first test of the case in the same form."""
    other = situation.injured[0].other
    oldest_first = reversed(situation.tests(own.kind))
    alike = [v for t in oldest_first if own.alike(test, t) and (v := own.value(t, other))]
    return alike[0] if alike else 0
