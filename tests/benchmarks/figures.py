"""One figure of the benchmark table: ours against a reference timed in the same run."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from gc import collect
from statistics import median, quantiles
from time import perf_counter

from typing_extensions import override

SLACK = 1.3
"""Tests assert a ratio's bound with this slack; a shared machine is noisy."""


@dataclass(frozen=True)
class Figure:
    """Median seconds of ours and of the reference, and their ratio pair by pair."""

    name: str
    seconds: float
    reference: float
    ratio: float
    spread: tuple[float, float]
    bound: float | None = None

    @property
    def holds(self) -> bool:
        return self.bound is None or self.ratio <= self.bound * SLACK

    @override
    def __str__(self) -> str:
        low, high = self.spread
        bound = "" if self.bound is None else f"  (at most {self.bound:g})"
        return (
            f"{self.name:<58} {self.seconds * 1000:9.2f} ms {self.reference * 1000:9.2f} ms "
            f"{self.ratio:7.2f} [{low:.2f}-{high:.2f}]{bound}"
        )


def compare(
    name: str,
    ours: Callable[[], object],
    reference: Callable[[], object],
    *,
    bound: float | None = None,
    rounds: int = 15,
) -> Figure:
    """Time both in turn, ``rounds`` times after one warm-up, and compare pair by pair."""
    ours(), reference()
    collect()
    pairs = [(_timed(ours), _timed(reference)) for _ in range(rounds)]
    return _figure(name, pairs, bound)


def against(name: str, seconds: Sequence[float], promise: float) -> Figure:
    """Set times measured elsewhere beside the seconds promised: printed, never asserted."""
    return _figure(name, [(one, promise) for one in seconds], None)


def _figure(name: str, pairs: Sequence[tuple[float, float]], bound: float | None) -> Figure:
    ratios = [a / b for a, b in pairs]
    quarters = quantiles(ratios, n=4)
    return Figure(
        name=name,
        seconds=median(a for a, _ in pairs),
        reference=median(b for _, b in pairs),
        ratio=median(ratios),
        spread=(quarters[0], quarters[2]),
        bound=bound,
    )


def _timed(act: Callable[[], object]) -> float:
    start = perf_counter()
    act()
    return perf_counter() - start
