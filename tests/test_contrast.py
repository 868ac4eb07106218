from itertools import permutations

import pytest

from tests.contrast import contrast


def test_the_formula_gives_the_published_ends_and_the_known_grey():
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.005)


def test_the_order_of_two_colours_does_not_matter():
    colours = ("#1f1b18", "#e69f00", "#56b4e9")
    assert all(contrast(a, b) == contrast(b, a) > 1 for a, b in permutations(colours, 2))
