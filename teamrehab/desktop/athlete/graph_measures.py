"""The measures of a leg that are drawn over the days of a case, and how each is drawn."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from teamrehab.desktop.athlete.measure_words import LEGS, reactive_strength
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import (
    HeelRaiseTest,
    HopTest,
    JumpTest,
    Knee,
    KneeToWallTest,
    LoadedRaiseTest,
)
from teamrehab.domain.published_errors import HEEL_RAISES, KNEE_TO_WALL_CM
from teamrehab.language import _

AnyTest = HeelRaiseTest | HopTest | JumpTest | KneeToWallTest | LoadedRaiseTest
Measure = Callable[[AnyTest, Side], float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One measure of a leg: which tests have it, and how it is drawn and listed.

    ``always`` shows its empty graph beside the other such; ``panel`` False only lists it.
    ``error`` is the published error of the measure in its unit, None where none is known.
    """

    key: str
    name: str
    title: str
    unit: str
    tests: Callable[[History], Sequence[AnyTest]]
    measure: Measure
    always: bool = False
    panel: bool = True
    error: float | None = None


def drawn_measures() -> tuple[Drawn, ...]:
    """Return every measure in the order of the page."""
    return (*_counted(), *_measured())


def _counted() -> tuple[Drawn, ...]:
    return (
        Drawn(
            key="raises",
            name=_("Heel raises"),
            title=_("Heel raises, knee straight"),
            unit=_("raises"),
            tests=partial(_raises, Knee.STRAIGHT),
            measure=_count,
            always=True,
            error=HEEL_RAISES.value,
        ),
        Drawn(
            key="bent",
            name=_("Heel raises, knee bent"),
            title="",
            unit=_("raises"),
            tests=partial(_raises, Knee.BENT),
            measure=_count,
            panel=False,
        ),
        Drawn(
            key="hops",
            name=_("Hops"),
            title=_("Hops in place"),
            unit=_("hops"),
            tests=lambda history: history.of(HopTest),
            measure=_count,
            always=True,
        ),
    )


def _measured() -> tuple[Drawn, ...]:
    return (
        Drawn(
            key="reactive",
            name=_("Reactive strength (m/s)"),
            title=_("Reactive strength of hops, height over contact"),
            unit="m/s",
            tests=_timed,
            measure=_reactive,
        ),
        Drawn(
            key="jump",
            name=_("Single-leg jump (cm)"),
            title=_("Single-leg jump"),
            unit=_("cm"),
            tests=lambda history: history.of(JumpTest),
            measure=_centimetres,
        ),
        Drawn(
            key="knee_to_wall",
            name=_("Knee to wall (cm)"),
            title=_("Knee to wall"),
            unit=_("cm"),
            tests=lambda history: history.of(KneeToWallTest),
            measure=_centimetres,
            error=KNEE_TO_WALL_CM.value,
        ),
        *(_loaded(knee) for knee in Knee),
    )


def _loaded(knee: Knee) -> Drawn:
    bent = knee is Knee.BENT
    name = _("Weight of raises, knee bent") if bent else _("Weight of raises, knee straight")
    return Drawn(
        key=f"loaded_{knee.value}",
        name=_("{measure} (kg)").format(measure=name),
        title=name,
        unit=_("kg"),
        tests=lambda history: [t for t in history.of(LoadedRaiseTest) if t.knee is knee],
        measure=_kilograms,
    )


def _raises(knee: Knee, history: History) -> list[HeelRaiseTest]:
    return [test for test in history.of(HeelRaiseTest) if test.knee is knee]


def _count(test: AnyTest, side: Side) -> int | None:
    """Return the repetitions of one side."""
    if isinstance(test, HeelRaiseTest):
        raises = test.of(side)
        return None if raises is None else raises.repetitions
    hops = test.of(side) if isinstance(test, HopTest) else None
    return None if hops is None else hops.hops


def _centimetres(test: AnyTest, side: Side) -> float | None:
    length = test.of(side) if isinstance(test, JumpTest | KneeToWallTest) else None
    return None if length is None else length / 10


def _kilograms(test: AnyTest, side: Side) -> float | None:
    loaded = test.of(side) if isinstance(test, LoadedRaiseTest) else None
    return None if loaded is None else loaded.weight_g / 1000


def _reactive(test: AnyTest, side: Side) -> float | None:
    return reactive_strength(test, side) if isinstance(test, HopTest) else None


def _timed(history: History) -> list[HopTest]:
    """Return the hop tests with contact and flight times of a leg."""
    hops = history.of(HopTest)
    return [test for test in hops if any(_reactive(test, side) is not None for side in LEGS)]
