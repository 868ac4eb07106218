"""The hybrid stamp: wall time that never runs behind what its writer has seen."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from typing_extensions import override

_MOST = 9999


@dataclass(frozen=True, slots=True, order=True)
class Stamp:
    """Milliseconds since 1970, a counter within them, the device; sorts as its text does."""

    wall_ms: int = 0
    counter: int = 0
    device: str = ""

    @override
    def __str__(self) -> str:
        """Return the text that is kept in the fact."""
        return f"{self.wall_ms:013d}-{self.counter:04d}-{self.device}"


def read_stamp(text: str) -> Stamp:
    """Return the stamp written as ``text``; raises ValueError if it is none."""
    wall, counter, device = text.split("-", 2)
    return Stamp(int(wall), int(counter), device)


def milliseconds(instant: datetime) -> int:
    """Return whole milliseconds since 1970 of an aware instant."""
    return int(instant.timestamp() * 1000)


def next_stamp(own: Stamp, instant: datetime, superseded: Iterable[Stamp] = ()) -> Stamp:
    """Return a stamp later than ``own`` and than every superseded fact, whatever the clocks.

    Without the superseded facts a correction could sort before the entry it corrects, when
    that entry came from a laptop whose clock ran ahead.
    """
    latest = max([own, *superseded], key=lambda stamp: (stamp.wall_ms, stamp.counter))
    wall = milliseconds(instant)
    if wall > latest.wall_ms:
        return Stamp(wall, 0, own.device)
    if latest.counter < _MOST:
        return Stamp(latest.wall_ms, latest.counter + 1, own.device)
    return Stamp(latest.wall_ms + 1, 0, own.device)
