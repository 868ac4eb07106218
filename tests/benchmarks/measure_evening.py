"""The evening page: how long the program takes for five rows typed and saved."""

import json
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.figures import Figure, against
from tests.benchmarks.measure_desktop import run_apart

PROBE = "tests.benchmarks.evening_probe"


def figures() -> Iterator[Figure]:
    """Yield the seconds of an evening of five, set beside the two that are promised."""
    with TemporaryDirectory() as place:
        seconds = json.loads(run_apart(Path(place), PROBE, place))
        yield against("evening of five typed, four keys a row, saved / 2 s", seconds, 2)
