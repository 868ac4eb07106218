"""Surnames that are easily taken for one another."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.names import alike, like_any, plain

names = st.text(max_size=12)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Lindqvist", "Lindquist"),
        ("Novak", "Nováková"),
        ("Wiśniewski", "WISNIEWSKA"),
        ("Łach", "Lach"),
        ("Okafor", "Okafor"),
    ],
)
def test_near_spellings_and_one_name_in_the_other_are_alike(one, other):
    assert alike(one, other)


@pytest.mark.parametrize(("one", "other"), [("Okafor", "Adeyemi"), ("Novak", ""), (" ", "Ng")])
def test_distant_and_unknown_names_are_not_alike(one, other):
    assert not alike(one, other)
    assert not like_any(one, [other])


@given(names, names)
def test_being_alike_does_not_depend_on_which_name_comes_first(one, other):
    assert alike(one, other) == alike(other, one)


@given(names)
def test_a_name_is_like_itself(name):
    assert alike(name, name) == bool(plain(name).strip())
