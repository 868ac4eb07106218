"""Every figure of the benchmark table holds its bound, as a ratio and with slack."""

import pytest

from tests.benchmarks.__main__ import all_figures


@pytest.mark.alone
def test_every_figure_of_the_table_holds_its_bound():
    broken = [str(figure) for figure in all_figures() if not figure.holds]
    assert broken == []
