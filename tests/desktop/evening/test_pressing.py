"""Keys of a row: what each one means where the cursor is, and what is never lost or taken."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.desktop.evening.pressing import NAMED, press
from teamrehab.desktop.evening.row_values import typed_again, values, why_questions
from teamrehab.desktop.evening.typed import Cell, Draft, TypedRow, draft_text, read_draft
from teamrehab.domain.injuries import Remark, Urgency
from teamrehab.domain.load import session_load
from teamrehab.domain.measures import (
    Done,
    Feeling,
    Missed,
    MorningResponse,
    SafetyCheck,
    SessionEntry,
    SessionKind,
    SessionMissed,
    Symptom,
)
from teamrehab.domain.plausibility import check
from teamrehab.domain.safety import answered
from teamrehab.protocols import load_protocols
from tests.builders import day, history
from tests.desktop.evening.lines import TONIGHT, ids, line, tonight, typed

KEYS = [*"ypmnxsiadotklj0123456789+-ct?é", *sorted(NAMED)]


def said(keys, **changes):
    """Return what the last key is told."""
    return typed(keys, tonight(**changes)).said


def noted(keys, **changes):
    """Return the values of a row typed to its Enter."""
    of = tonight(**changes)
    row = typed([*keys, "Enter"], of)
    assert row.ready
    return values(row, of, ids)


def test_four_keys_are_an_evening_done_as_planned():
    (entry,) = noted("y14")
    assert (entry.done, entry.symptom, entry.effort) == (Done.AS_PLANNED, Symptom(1), 4)
    assert (entry.kind, entry.minutes, entry.on) == (SessionKind.REHAB, 40, TONIGHT)
    assert [(e.exercise, e.level, e.sets, e.faults) for e in entry.exercises] == [
        ("raises", 2, 3, ()),
        ("hops", 2, 4, ()),
    ]
    assert (entry.limp, entry.painkiller) == (None, None)


def test_a_letter_counts_for_the_symptom_only_right_after_its_digit():
    assert typed("y3t").felt == Symptom(3, Feeling.TIGHTNESS)
    assert typed("y3t").cell is Cell.EFFORT
    assert typed("y34t").cell is Cell.TESTS
    assert typed("y34t").felt == Symptom(3)


def test_a_number_without_a_letter_is_no_pain_until_somebody_says_so():
    assert typed("y3").felt == Symptom(3, Feeling.NOT_SAID)
    assert typed("y3p").felt == Symptom(3, Feeling.PAIN)
    for keys in ("y34", "y3p4"):
        (entry,) = noted(keys)
        assert typed_again(entry, tonight()).felt == entry.symptom


def test_a_symptom_of_0_takes_no_letter_and_the_letter_means_nothing_else():
    row = typed("y0s")
    assert (row.kind, row.feeling, row.symptom) == (None, None, 0)
    assert row.said.startswith("Symptom 0 has no kind: s")


def test_plus_is_ten_and_1_then_0_are_symptom_and_effort():
    assert (typed("y1+").symptom, typed("y1+").effort) == (1, 10)
    assert (typed("y10").symptom, typed("y10").effort) == (1, 0)


def test_minutes_take_several_digits_and_overrule_the_plan():
    assert noted("y1465")[0].minutes == 65
    assert typed("y14301").minutes == 30
    assert said("y14301").startswith("Minutes: 301 - a number from 0 to 300")


@pytest.mark.parametrize(
    ("keys", "sentence"),
    [
        ("7", "Done: 7 - Y as planned"),
        ("yg", "Symptom: g - a digit 0 to 9, or + for 10. Type the digit."),
        ("y1g", "Effort: g - a digit 0 to 9, or + for 10. Type the digit."),
        ("y14y", "Minutes: y - a number"),
        ("nz", "Not done: z is no reason."),
        ("y٣", "Symptom: ٣ - a digit"),
    ],
)
def test_a_key_that_does_not_fit_is_named_and_changes_nothing(keys, sentence):
    assert said(keys).startswith(sentence)
    assert typed(keys).content == typed(keys[:-1]).content
    assert typed(keys).cell is typed(keys[:-1]).cell


def test_partly_notes_only_the_exercises_something_was_typed_of():
    (entry,) = noted(["p", "2", "1", "2", "2", "Enter", "Enter", "3", "5"])
    (seen,) = entry.exercises
    assert (seen.exercise, seen.sets, seen.faults) == ("raises", 2, ("height",))
    assert (entry.done, entry.minutes, entry.symptom) == (Done.PARTLY, None, Symptom(3))


def test_a_fault_that_is_not_on_the_list_is_named():
    assert said("p27").startswith("Exercise: 7 - the sets done")


def test_not_done_asks_for_a_reason_and_not_seen_is_one():
    assert noted("ni")[0].reason is Missed.ILL
    (away,) = noted([*"nobus late"])
    assert (away.reason, away.text) == (Missed.OTHER, "bus late")
    assert noted("x")[0].reason is Missed.NOT_SEEN
    assert said(["n", "o", "Enter"]) == "Not done: the reason is not typed. Type a few words."


def test_not_done_is_not_taken_over_a_symptom_already_typed():
    row = typed(["y", "1", "Left", "Left", "n"])
    assert (row.done, row.symptom, row.missed) == (Done.AS_PLANNED, 1, None)
    assert "Esc empties the row first" in row.said


def test_enter_in_an_untouched_row_saves_nothing():
    row = typed(["Enter"])
    assert not row.ready
    assert row.content == TypedRow()
    assert row.said == "Nothing is typed: this row stays not entered. Down goes on."


def test_symptom_and_effort_are_typed_or_it_is_typed_that_nobody_asked():
    row = typed(["y", "1", "Enter", "Enter"])
    assert not row.ready
    assert row.said.startswith("Effort: nothing typed - a digit 0 to 9")
    (entry,) = noted("y--")
    assert (entry.symptom, entry.effort) == (None, None)
    assert typed(["y", "-", "-", "Backspace", "4"]).effort == 4
    assert typed(["y", "-", "Left", "3"]).felt == Symptom(3)


def test_toggles_go_from_not_asked_to_yes_to_no():
    assert [typed("y" + "k" * n).painkiller for n in range(4)] == [None, True, False, None]
    of = replace(tonight(), protocol=load_protocols()["calf_strain"])
    assert values(typed([*"y14l", "Enter"], of), of, ids)[0].limp is True


def test_the_kind_of_session_is_turned_and_takes_the_plan_of_exercises_away():
    (entry,) = noted("y14s")
    assert (entry.kind, entry.exercises, entry.minutes) == (
        SessionKind.TEAM_WITH_LIMITS,
        (),
        None,
    )


def test_a_note_holds_every_letter_and_goes_with_the_session():
    entry, remark = noted(["j", *"Tape y14, ok?", "Enter", *"y14"])
    assert isinstance(entry, SessionEntry)
    assert (type(remark), remark.text) == (Remark, "Tape y14, ok?")
    assert [type(v) for v in noted(["j", *"only words", "Enter"])] == [Remark]


def test_a_note_that_is_full_says_so():
    row = TypedRow(note="a" * 2000, cell=Cell.NOTE)
    assert typed("b", row=row).note == row.note
    assert typed("b", row=row).said.startswith("Words: 2000 signs")


@pytest.mark.parametrize(
    ("keys", "changes", "reason"),
    [
        ("y44", {}, "Symptom 4: 4 or more."),
        ("y2s4", {}, "A sharp symptom, whatever the number."),
        ("y14l", {}, "A limp."),
    ],
)
def test_a_symptom_not_accepted_silently_asks_four_questions_first(keys, changes, reason):
    of = tonight(**changes)
    row = typed([*keys, "Enter"], of)
    assert (row.ready, row.cell, why_questions(row, of)) == (False, Cell.SAFETY, (reason,))
    assert not typed(["y", "n", "y", "Enter"], of, row).ready
    answered = typed(["y", "n", "y", "n", "Enter"], of, row)
    assert [type(v) for v in values(answered, of, ids)] == [SessionEntry, SafetyCheck]


def test_a_morning_that_rose_by_two_asks_and_is_not_asked_again_once_answered():
    mornings = [
        MorningResponse(
            response_id=f"m{n}",
            case_id="c1",
            athlete_id="a1",
            on=day(n),
            symptom=Symptom(score),
        )
        for n, score in ((19, 0), (20, 2))
    ]
    done = SafetyCheck(
        check_id="k",
        case_id="c1",
        athlete_id="a1",
        on=TONIGHT,
        same_spot=True,
        swollen_or_warm=False,
        can_push_off=True,
        chest_or_breath=False,
    )
    row = typed("y14")
    assert why_questions(row, tonight(history=history(*mornings))) == (
        "The symptom rose from 0 to 2 by the morning.",
    )
    assert why_questions(row, tonight(history=history(*mornings, done))) == ()


def test_the_answers_of_chest_pain_are_an_emergency():
    entry, answers = noted(["y", "6", "4", "Enter", *"ynyy"])
    assert (entry.symptom, answers.chest_or_breath) == (Symptom(6), True)
    assert answered(answers).urgency is Urgency.EMERGENCY


def test_a_stopped_athlete_has_no_plan_and_a_session_is_asked_about():
    of = tonight(stopped="Red flag: a doctor first.")
    row = typed("y", of)
    assert (row.done, row.said[:9]) == (None, "Red flag:")
    (entry,) = values(typed("yy02", of), of, ids)
    assert (entry.exercises, entry.minutes) == ((), None)


def test_backspace_takes_back_one_cell_after_the_other():
    cells = []
    row = typed("y1430")
    for _step in range(6):
        row = press(row, "Backspace", tonight())
        cells.append((row.done, row.symptom, row.effort, row.minutes))
    as_planned = Done.AS_PLANNED
    assert cells[:5] == [
        (as_planned, 1, 4, 3),
        (as_planned, 1, 4, None),
        (as_planned, 1, None, None),
        (as_planned, None, None, None),
        (None, None, None, None),
    ]
    assert row.said.startswith("Nothing is typed before this")


def test_escape_empties_a_row_and_asks_before_words_are_lost():
    assert typed(["y", "1", "Escape"]).is_empty
    row = typed(["j", *"limps on stairs", "Enter", "Escape"])
    assert row.note == "limps on stairs"
    assert typed(["Escape"], row=row).is_empty


def test_session_load_of_what_four_keys_save_is_effort_times_minutes():
    """J Strength Cond Res 2001;15:109,."""
    (entry,) = noted("y1465")
    assert session_load(entry.effort, entry.minutes) == 4 * 65


@given(st.lists(st.sampled_from(KEYS), max_size=30))
def test_any_keys_keep_a_row_well_formed(keys):
    of = tonight()
    row = typed(keys, of)
    assert not (row.done and row.missed)
    assert row.line < max(len(row.exercises), 1)
    assert len(row.exercises) in (0, len(of.plan.exercises))
    made = values(row, of, ids)
    assert bool(made) == (not row.is_empty) or not (row.done or row.missed)
    assert not any(check(value, TONIGHT, of.line.history) for value in made)
    assert read_draft(draft_text(Draft(typed=row, ids={}))) == Draft(typed=row, ids={})


@given(st.lists(st.sampled_from(KEYS), max_size=30))
def test_nothing_typed_means_no_values_and_ready_means_some(keys):
    row = typed(keys)
    if row.is_empty:
        assert values(row, tonight(), ids) == ()
    if row.ready:
        assert values(row, tonight(), ids)


@given(st.lists(st.sampled_from(KEYS), max_size=30))
def test_a_saved_session_opened_again_says_the_same(keys):
    of = tonight()
    for value in values(typed(keys, of), of, ids):
        if isinstance(value, SessionEntry | SessionMissed):
            assert values(typed_again(value, of), of, ids)[0] == value


def test_a_text_that_is_no_draft_is_none():
    assert read_draft("{}") is None
    assert read_draft("not json") is None


def test_a_line_without_a_plan_opens_no_exercises():
    of = tonight(plan=line().plan.__class__(kind=SessionKind.REHAB))
    assert typed("p", of).cell is Cell.SYMPTOM
