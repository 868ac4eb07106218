"""A row of a team session key by key: any keys leave it alone, named as wrong, or savable."""

from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st

from teamrehab.desktop.group.draft import draft_of, from_text, restored, to_text
from teamrehab.desktop.group.typed import (
    Cell,
    GridRow,
    as_saved,
    complaint,
    exposure_of,
    press,
    rubbed_out,
    with_length,
)
from teamrehab.domain.days import Exposure
from teamrehab.domain.history import Standing
from teamrehab.domain.plausibility import check
from teamrehab.tasks.group import Occasion
from tests.builders import athlete, day

TODAY = day(3)
TONIGHT = Occasion(on=TODAY)
SAVED = Standing(
    fact_id="f1",
    value=Exposure(athlete_id="a1", on=TODAY, match=False, minutes=70, effort=5),
    author="s1",
    noted_at=datetime(2026, 10, 8, 20, tzinfo=UTC),
)
KEYS = st.lists(
    st.tuples(
        st.sampled_from(Cell), st.sampled_from([*"0123456789+ynqY٣", "<", "<<"]), st.booleans()
    )
)
LENGTHS = st.sampled_from(["", "75", "301"])
ROWS = st.sampled_from(
    [GridRow(athlete=athlete()), as_saved(GridRow(athlete=athlete(), saved=SAVED))]
)


def typed(row, keys, length):
    for cell, sign, first in keys:
        if sign in ("<", "<<"):
            row = rubbed_out(row, cell, all_of_it=sign == "<<")
        else:
            row = press(row, cell, sign, length, first=first) or row
    return row


@given(ROWS, KEYS, LENGTHS)
def test_any_keys_leave_a_row_untouched_named_as_wrong_or_savable(row, keys, length):
    row = typed(row, keys, length)
    wrong = complaint(row, TONIGHT, TODAY)
    if not row.touched:
        assert not wrong
    elif not wrong:
        value = exposure_of(row, TONIGHT)
        assert value is not None
        assert not check(value, TODAY)
        assert (str(value.minutes), value.minutes > 0) == (row.minutes, row.there)
        assert row.effort == ("" if value.effort is None else str(value.effort))


@given(ROWS, KEYS, LENGTHS)
def test_a_draft_brings_back_what_was_typed_and_nothing_else(row, keys, length):
    after = typed(row, keys, length)
    found = from_text(to_text(draft_of(TONIGHT, length, [after], "Line 3")))
    assert found is not None
    assert (found.occasion, found.length, found.not_read) == (TONIGHT, length, "Line 3")
    assert restored(found, row) == (after if after.touched else row)


@given(st.one_of(st.text(), st.sampled_from(["{}", "[]", '{"on": 3}', "null"])))
def test_a_text_that_is_no_draft_is_left_alone(text):
    assert from_text(text) is None


@given(ROWS, KEYS, LENGTHS)
def test_a_length_changes_no_minutes_that_a_person_typed(row, keys, length):
    row = typed(row, keys, length)
    after = with_length(row, "60")
    assert after.minutes == ("60" if row.by_length else row.minutes)
    assert as_saved(after) == as_saved(row)
