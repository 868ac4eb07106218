"""Print the benchmark table: ``python -m tests.benchmarks``."""

import pkgutil
from collections.abc import Iterator
from importlib import import_module

import tests.benchmarks as here
from tests.benchmarks.figures import Figure


def all_figures() -> Iterator[Figure]:
    """Yield the figures of every ``measure_*`` module, in the order of their names."""
    for module in sorted(m.name for m in pkgutil.iter_modules(here.__path__)):
        if module.startswith("measure_"):
            yield from import_module(f"tests.benchmarks.{module}").figures()


if __name__ == "__main__":
    print(f"{'':<58} {'ours':>12} {'reference':>12} {'ratio':>7} [quartiles]")
    for figure in all_figures():
        print(figure, flush=True)
