"""Every figure of the benchmark table holds its bound, as a ratio and with slack."""

import pytest

from tests.benchmarks.__main__ import all_figures


@pytest.mark.alone
def test_every_figure_of_the_table_holds_its_bound():
    figures = []
    for figure in all_figures():
        print(f"\n{figure}", end="", flush=True)
        figures.append(figure)
    assert [str(figure) for figure in figures if not figure.holds] == []
