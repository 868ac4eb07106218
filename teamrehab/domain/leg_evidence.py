"""What a test showed for each leg, and what must be said beside it."""

from teamrehab.domain.decision import Evidence
from teamrehab.domain.formulas import percent_difference, reactive_strength_by_flight
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import (
    HeelRaiseTest,
    Hops,
    HopTest,
    JumpTest,
    Knee,
    KneeToWallTest,
    Raises,
)
from teamrehab.domain.published_errors import HEEL_RAISES, KNEE_TO_WALL
from teamrehab.language import _

EQUAL_WITHIN = 10
"""Percent: legs closer than this count as equal (Sports Med Open 2022;8:10)."""


def repetitions(test: HeelRaiseTest, side: Side) -> int | None:
    """Return the raises of one leg, None where it was not tested."""
    raises = test.of(side)
    return None if raises is None else raises.repetitions


def hops(test: HopTest, side: Side) -> int | None:
    """Return the hops of one leg, None where it was not tested."""
    done = test.of(side)
    return None if done is None else done.hops


def reactive_strength(done: Hops | None) -> float | None:
    """Return flight time over ground contact of one leg, None where a time is missing."""
    if done is None or done.flight_ms is None or done.contact_ms is None:
        return None
    return reactive_strength_by_flight(done.flight_ms, done.contact_ms)


def raises_evidence(test: HeelRaiseTest, side: Side) -> Evidence:
    """Return the raises of one leg with the error published for a straight knee."""
    straight = test.knee is Knee.STRAIGHT
    return Evidence(
        measure=_("Heel raises, knee straight") if straight else _("Heel raises, knee bent"),
        on=test.on,
        value=repetitions(test, side),
        unit=_("repetitions"),
        side=side,
        error=HEEL_RAISES.value if straight else None,
        error_source=HEEL_RAISES.source if straight else "",
        test_id=test.test_id,
    )


def hops_evidence(test: HopTest, side: Side) -> Evidence:
    """Return the hops of one leg; no error is published for counting them."""
    return Evidence(
        measure=_("Hops in place"),
        on=test.on,
        value=hops(test, side),
        unit=_("hops"),
        side=side,
        test_id=test.test_id,
    )


def jump_evidence(test: JumpTest, side: Side) -> Evidence:
    """Return the jump height of one leg in centimetres; no published error was found."""
    return Evidence(
        measure=_("Single-leg jump"),
        on=test.on,
        value=_in_cm(test.of(side)),
        unit="cm",
        side=side,
        test_id=test.test_id,
    )


def knee_to_wall_evidence(test: KneeToWallTest, side: Side) -> Evidence:
    """Return the distance of one leg in centimetres with its published error."""
    return Evidence(
        measure=_("Knee to wall"),
        on=test.on,
        value=_in_cm(test.of(side)),
        unit="cm",
        side=side,
        error=KNEE_TO_WALL.value,
        error_source=KNEE_TO_WALL.source,
        test_id=test.test_id,
    )


def _in_cm(millimetres: int | None) -> float | None:
    return None if millimetres is None else millimetres / 10


def raises_remark(test: HeelRaiseTest) -> str:
    """Return what must be said about the range and the work of a heel-raise test."""
    if not test.full_range:
        return _("Not through full range: this test does not count.")
    if test.left is None or test.right is None:
        return ""
    return _work_remark(test.left, test.right)


def _work_remark(left: Raises, right: Raises) -> str:
    """Return what equal repetitions hide; work goes with repetitions times height.

    Source: Knee Surg Sports Traumatol Arthrosc 2010;18:258, doi 10.1007/s00167-009-0889-7.
    """
    apart = percent_difference(left.repetitions, right.repetitions)
    if apart is None or apart > EQUAL_WITHIN:
        return ""
    if left.height_mm is None or right.height_mm is None:
        return _("Equal repetitions can hide unequal work: measure the height.")
    work = percent_difference(
        left.repetitions * left.height_mm, right.repetitions * right.height_mm
    )
    if work is None or work <= EQUAL_WITHIN:
        return ""
    said = _("Equal repetitions, but the work of the legs differs by {percent} %.")
    return said.format(percent=round(work))
