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
from teamrehab.domain.measures import HeelRaiseTest, Hops, HopTest, SessionEntry, Test
from teamrehab.language import _
from teamrehab.reports.wording_clinical import number_words, side_words

LEGS = (Side.LEFT, Side.RIGHT)


def measure_words(entry: Test | SessionEntry, weight_g: int | None) -> list[str]:
    """Return each figure that can be worked out, with its unit; nothing is guessed at."""
    match entry:
        case HeelRaiseTest():
            return list(_work(entry, weight_g))
        case HopTest():
            return [words for side in LEGS for words in _hop(entry.of(side), side)]
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
    for side in LEGS:
        raises = test.of(side)
        if raises is not None and raises.height_mm is not None and weight_g is not None:
            work = heel_raise_work(weight_g / 1000, raises.height_mm / 1000, raises.repetitions)
            yield _("work {work} J {side}").format(work=round(work), side=side_words(side))


def _hop(hops: Hops | None, side: Side) -> Iterator[str]:
    if hops is None or hops.flight_ms is None:
        return
    flight = hops.flight_ms / 1000
    fields = {
        "side": side_words(side),
        "height": number_words(100 * jump_height(flight)),
    }
    yield _("jump height {height} cm {side}").format(**fields)
    if hops.contact_ms:
        contact = hops.contact_ms / 1000
        by_height = reactive_strength_by_height(flight, contact)
        by_flight = reactive_strength_by_flight(flight, contact)
        yield _(
            "reactive strength {by_height} m/s {side} (height over contact), "
            "{by_flight} (flight over contact)"
        ).format(by_height=f"{by_height:.2f}", by_flight=f"{by_flight:.2f}", **fields)
