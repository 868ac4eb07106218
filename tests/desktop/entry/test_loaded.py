"""Raises with weight are typed in kilograms, kept in grams, and held within limits."""

from typing import Any

import pytest

from teamrehab.desktop.entry.loaded_part import WeightField
from teamrehab.domain.measures import Knee, Loaded, LoadedRaiseTest
from teamrehab.domain.plausibility import check
from tests.builders import case, day, history


@pytest.mark.parametrize(
    ("typed", "grams"), [("42.5", 42_500), ("42,5", 42_500), ("40", 40_000), ("", None)]
)
def test_a_weight_is_typed_in_kilograms_and_kept_in_grams(qtbot, typed, grams):
    field = WeightField()
    qtbot.addWidget(field)
    qtbot.keyClicks(field, typed)
    assert field.value == grams


def test_a_weight_that_is_corrected_is_shown_as_it_was_typed(qtbot):
    field = WeightField()
    qtbot.addWidget(field)
    field.show_value(42_500)
    assert (field.text(), field.value) == ("42.5", 42_500)


def lifted(**legs):
    ids: dict[str, Any] = {"test_id": "l1", "case_id": "c1", "athlete_id": "a1"}
    return LoadedRaiseTest(on=day(3), knee=Knee.BENT, **ids, **legs)


@pytest.mark.parametrize(
    ("legs", "field", "value"),
    [
        ({"left": Loaded(7, 400_100)}, "Weight of these raises", "left 400.1 kg"),
        ({"right": Loaded(31, 40_000)}, "Raises with weight", "31"),
        ({"right": Loaded(0, 40_000)}, "Raises with weight", "0"),
        ({}, "Raises with weight", ""),
    ],
)
def test_what_cannot_be_lifted_is_refused_by_name(legs, field, value):
    (found,) = check(lifted(**legs), day(4), history(of=case()))
    assert found.field == field
    assert value in found.value


def test_a_weight_within_the_limits_stands():
    assert check(lifted(left=Loaded(6, 400_000), right=Loaded(8, 0)), day(4)) == ()
