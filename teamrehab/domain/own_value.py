"""An injured leg against the athlete's own healthy value: what symmetry can hide."""

from teamrehab.domain.formulas import percent_of_healthy
from teamrehab.domain.injuries import Side
from teamrehab.domain.leg_evidence import repetitions
from teamrehab.domain.measures import HeelRaiseTest
from teamrehab.domain.plausible_entries import side_word
from teamrehab.domain.situation import Situation
from teamrehab.language import _


def own_value_remarks(test: HeelRaiseTest, situation: Situation, floor: int) -> tuple[str, ...]:
    """Return what symmetry hides: an injured leg below the athlete's own healthy value.

    That is its own value from before the injury where there is one, else the other leg at
    the first test of the case. Source: J Orthop Sports Phys Ther 2017;47:334.
    """
    return tuple(_own_value_remark(test, leg, situation, floor) for leg in situation.injured)


def _own_value_remark(test: HeelRaiseTest, leg: Side, situation: Situation, floor: int) -> str:
    before = _before_injury(test, leg, situation)
    if before is None:
        return _detraining_remark(test, situation, floor)
    now, healthy = repetitions(test, leg) or 0, repetitions(before, leg) or 0
    percent = percent_of_healthy(now, healthy)
    if percent is None or percent >= floor:
        return ""
    said = _(
        "Before the injury ({day}) this leg did {healthy}, {side}: now {now}, which is"
        " {percent} % of the own healthy value."
    )
    return said.format(
        day=before.on.isoformat(),
        healthy=healthy,
        side=side_word(leg),
        now=now,
        percent=round(percent),
    )


def _before_injury(
    test: HeelRaiseTest, leg: Side, situation: Situation
) -> HeelRaiseTest | None:
    """Return the newest test of this leg from before the injury, done in the same form."""
    alike = (
        healthy
        for healthy in situation.healthy(HeelRaiseTest)
        if healthy.knee is test.knee and healthy.full_range and healthy.of(leg)
    )
    return next(alike, None)


def _detraining_remark(test: HeelRaiseTest, situation: Situation, floor: int) -> str:
    """Return a warning where symmetry holds only because the other leg has become weaker."""
    if len(situation.injured) > 1:
        return ""
    injured = situation.injured[0]
    now = repetitions(test, injured.other) or 0
    first = _first_of_other(test, situation)
    of_healthy = percent_of_healthy(repetitions(test, injured) or 0, first)
    if now >= first or of_healthy is None or of_healthy >= floor:
        return ""
    said = _(
        "The other leg fell from {first} at the first test of the case to {now}: the injured"
        " leg is at {percent} % of that, the only healthy value known."
    )
    return said.format(first=first, now=now, percent=round(of_healthy))


def _first_of_other(test: HeelRaiseTest, situation: Situation) -> int:
    """Return the other leg's raises at the first test of the case in the same form."""
    other = situation.injured[0].other
    oldest_first = reversed(situation.tests(HeelRaiseTest))
    alike = [r for t in oldest_first if t.knee is test.knee and (r := repetitions(t, other))]
    return alike[0] if alike else 0
