"""Preferences: kept, and forgiving."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QSettings

from teamrehab.desktop.appearance import Scheme
from teamrehab.desktop.preferences import RECENT, Preferences, keep, read


@pytest.fixture
def store(tmp_path):
    return QSettings(str(tmp_path / "teamrehab.ini"), QSettings.Format.IniFormat)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=50)
@given(
    st.builds(
        Preferences,
        scheme=st.sampled_from(Scheme),
        recent=st.lists(
            st.text("abc /.é-", min_size=1, max_size=20), max_size=RECENT, unique=True
        ).map(tuple),
        window=st.binary(max_size=40),
        split=st.binary(max_size=40),
    )
)
def test_what_is_kept_is_read_again(store, preferences):
    keep(store, preferences)
    again = QSettings(store.fileName(), QSettings.Format.IniFormat)
    assert read(again) == preferences


@pytest.mark.parametrize(
    ("name", "value"),
    [("scheme", "aubergine"), ("recent", 7), ("window", "x"), ("split", 3), ("nothing", "x")],
)
def test_what_cannot_be_understood_is_replaced_by_its_default(store, name, value):
    keep(store, Preferences(recent=("/a",)))
    store.setValue(name, value)
    found = read(store)
    assert getattr(found, name, None) == getattr(Preferences(), name, None)
    assert name == "recent" or found.recent == ("/a",)


def test_the_last_used_casebook_comes_first_and_only_a_few_are_remembered(tmp_path):
    preferences = Preferences()
    for number in range(RECENT + 3):
        preferences = preferences.with_recent(tmp_path / str(number))
    again = preferences.with_recent(tmp_path / "5")
    assert again.recent[0] == str(tmp_path / "5")
    assert len(again.recent) == RECENT
    assert len(set(again.recent)) == RECENT
