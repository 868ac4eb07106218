"""What follows from what was measured: work, jump height, reactive strength, session load."""

from collections.abc import Iterator

from teamrehab.domain.formulas import (
    heel_raise_work,
    jump_height,
    reactive_strength_by_flight,
    reactive_strength_by_height,
)
from teamrehab.domain.injuries import Side
from teamrehab.domain.load import session_load
from teamrehab.domain.measures import HeelRaiseTest, HopTest, SessionEntry, Test
from teamrehab.language import _
from teamrehab.reports.wording_clinical import number_words, side_words

LEGS = (Side.LEFT, Side.RIGHT)


def measure_words(entry: Test | SessionEntry, weight_g: int | None) -> list[str]:
    """Return each figure that can be worked out, with its unit; nothing is guessed at."""
    match entry:
        case HeelRaiseTest():
            return list(_work(entry, weight_g))
        case HopTest():
            return list(_hops(entry))
        case SessionEntry(effort=effort, minutes=minutes):
            load = session_load(effort, minutes)
            return [] if load is None else [_("load {load} (effort x min)").format(load=load)]
        case _:
            return []


def reactive_strength(test: HopTest, side: Side) -> float | None:
    """Return jump height over contact in m/s, to the hundredth; None without both times."""
    hops = test.of(side)
    if hops is None or hops.flight_ms is None or not hops.contact_ms:
        return None
    found = reactive_strength_by_height(hops.flight_ms / 1000, hops.contact_ms / 1000)
    return None if found is None else round(found, 2)


def _work(test: HeelRaiseTest, weight_g: int | None) -> Iterator[str]:
    if weight_g is None:
        return
    for side in LEGS:
        raises = test.of(side)
        if raises is not None and raises.height_mm is not None:
            mass, height = weight_g / 1000, raises.height_mm / 1000
            work = round(heel_raise_work(mass, height, raises.repetitions))
            yield _("work {work} J {side}").format(work=work, side=side_words(side))


def _hops(test: HopTest) -> Iterator[str]:
    """Yield jump heights, then both reactive strengths: never one for the other."""
    flown = [(side, h) for side in LEGS if (h := test.of(side)) is not None and h.flight_ms]
    for side, hops in flown:
        height = number_words(100 * jump_height(_seconds(hops.flight_ms)))
        yield _("jump {height} cm {side}").format(height=height, side=side_words(side))
    timed = [(side, h) for side, h in flown if h.contact_ms]
    for words, formula in (
        (_("height over contact {figure} m/s {side}"), reactive_strength_by_height),
        (_("flight over contact {figure} {side}"), reactive_strength_by_flight),
    ):
        for side, hops in timed:
            figure = formula(_seconds(hops.flight_ms), _seconds(hops.contact_ms))
            yield words.format(figure=f"{figure:.2f}", side=side_words(side))


def _seconds(milliseconds: int | None) -> float:
    return (milliseconds or 0) / 1000
