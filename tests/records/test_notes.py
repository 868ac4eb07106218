"""A save is one transaction; what replaces what is what its author saw."""

import unicodedata
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teamrehab.domain.athletes import Athlete, Team
from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.injuries import Case, Diagnosis, Remark, StageMoved
from teamrehab.records import ReplacedMeanwhileError, UnwritableTextError, new_fact_id
from teamrehab.records.canonical import canonical, cleaned
from tests.builders import athlete, case, clock, day
from tests.records.books import OtherLaptop, facts_of, new_book, reopened, seen, values
from tests.records.examples import CASE, EXAMPLES


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def diagnosis(injury):
    return Diagnosis(injury=injury, **CASE)


def test_several_values_go_in_together_or_not_at_all(book):
    with pytest.raises(UnwritableTextError, match=r"surname.*U\+0000"):
        book.note(case(), athlete(surname="O\0Brien"))
    assert values(book, Case) == []


@pytest.mark.parametrize("broken", ["a\0b", "half \ud83d a face"])
def test_a_character_no_later_reader_could_store_is_refused_with_the_field_s_name(book, broken):
    with pytest.raises(UnwritableTextError, match="text"):
        book.note(Remark(remark_id="n1", text=broken, **CASE))
    assert len(facts_of(book)) == 2


@pytest.mark.parametrize(
    "name",
    [
        "O'Brien-Łukasz",
        "محمد ٧",
        "ע 12",
        "한글",
        "👩🏽‍⚕️",
        "\u202eabc",
        "<b>'; DROP TABLE",
        "x" * 10_000,
    ],
)
def test_names_of_any_script_come_back_as_they_were_typed(book, name):
    book.note(athlete(surname=name))
    assert values(reopened(book), Athlete)[0].surname == unicodedata.normalize("NFC", name)


def test_a_text_typed_in_pieces_is_kept_in_its_composed_form(book):
    book.note(athlete(surname="Rene\u0301"))
    assert values(book, Athlete)[0].surname == "Ren\u00e9"


@given(st.recursive(st.text() | st.integers() | st.none(), lambda v: st.lists(v, max_size=3)))
def test_writing_down_twice_gives_the_same_bytes(value):
    try:
        once = canonical(cleaned(value))
    except UnwritableTextError:
        return
    assert canonical(cleaned(value)) == once
    assert unicodedata.is_normalized("NFC", once)


def test_a_quantity_that_is_not_whole_is_our_mistake(book):
    with pytest.raises(TypeError, match="weight_g"):
        book.note(athlete(weight_g=80.5))


def test_a_retry_under_the_same_id_writes_nothing_twice(book):
    ids = [new_fact_id(book.clock) for _ in range(2)]
    first = book.note(case(), athlete(), fact_ids=ids)
    before = facts_of(book)
    assert book.note(case(), athlete(), fact_ids=ids) == first
    assert facts_of(book) == before


def test_a_retry_never_passes_off_changed_words_as_saved(book):
    ids = [new_fact_id(book.clock)]
    book.note(case(what="felt a pull"), fact_ids=ids)
    with pytest.raises(ValueError, match="another value"):
        book.note(case(what="felt a pop"), fact_ids=ids)


@settings(max_examples=20)
@given(st.lists(st.integers(0, 2), min_size=2, max_size=30), st.booleans())
def test_values_noted_in_one_call_come_back_in_the_order_noted(days, one_by_one):
    """By day, and within a day by what was said first, though the clock stood still."""
    remarks = [
        Remark(remark_id=f"n{number}", text="", **(CASE | {"on": day(n)}))
        for number, n in enumerate(days)
    ]
    with TemporaryDirectory() as place, new_book(Path(place) / "book") as book:
        book.note(case(), athlete())
        for values_ in [[r] for r in remarks] if one_by_one else [remarks]:
            book.note(*values_)
        by_day = sorted(remarks, key=lambda remark: remark.on)
        assert values(book, Remark) == by_day
        assert list(book.case("c1").as_of(day(9)).of(Remark)) == by_day
        stamps = [fact.header.stamp for fact in facts_of(book)]
        assert stamps == sorted(set(stamps))


def test_more_values_of_one_instant_than_the_counter_counts_keep_their_order(book):
    remarks = [Remark(remark_id=f"n{number}", text="", **CASE) for number in range(10_100)]
    book.note(*remarks)
    assert values(book, Remark) == remarks


def test_a_later_value_of_the_same_thing_replaces_the_earlier_one(book):
    book.note(diagnosis("calf"), diagnosis("hamstring"))
    book.note(diagnosis("ankle"))
    (fact,) = book.all_of(Diagnosis)
    assert (fact.value.injury, fact.versions) == ("ankle", 1)


def test_moves_of_a_case_add_up_instead_of_replacing_each_other(book):
    moves = [StageMoved(stage=n, proposed=n, **(CASE | {"on": day(n)})) for n in (1, 2, 3)]
    for move in moves:
        book.note(move)
    assert values(book, StageMoved) == moves


def test_a_corrected_day_moves_the_value_and_leaves_nothing_behind(book):
    stated: Any = EXAMPLES[AvailabilityStated][0]
    (old,) = book.note(stated).fact_ids
    moved = AvailabilityStated(
        case_id="c1", athlete_id="a1", on=day(4), training=stated.training, match=stated.match
    )
    book.note(moved, replaces=[old], why="it was Friday")
    assert values(book, AvailabilityStated) == [moved]


def test_naming_what_one_saw_leaves_what_one_did_not_see(book):
    (mine,) = book.note(diagnosis("calf")).fact_ids
    book.take_in([OtherLaptop(book).writes(diagnosis("achilles"))])
    book.note(diagnosis("soleus"), replaces=[mine])
    found = book.all_of(Diagnosis)
    assert {f.value.injury for f in found} == {"achilles", "soleus"}
    assert [f.versions for f in found] == [2, 2]


def test_only_a_value_of_the_same_kind_can_replace_another(book):
    (noted,) = book.note(case()).fact_ids
    with pytest.raises(ValueError, match="case"):
        book.note(athlete(), replaces=[noted])
    assert values(book, Athlete) == []


def test_withdrawing_one_of_two_versions_settles_them(book):
    (mine,) = book.note(diagnosis("calf")).fact_ids
    book.take_in([OtherLaptop(book).writes(diagnosis("achilles"))])
    book.withdraw(mine, why="wrong leg")
    (fact,) = book.all_of(Diagnosis)
    assert (fact.value.injury, fact.versions) == ("achilles", 1)


def test_a_withdrawal_that_did_not_see_a_correction_leaves_two_versions(book):
    (mine,) = book.note(diagnosis("calf")).fact_ids
    target = seen(book, mine)
    book.note(diagnosis("soleus"), replaces=[mine])
    book.take_in([OtherLaptop(book).withdraws(target)])
    (fact,) = book.all_of(Diagnosis)
    assert (fact.value.injury, fact.versions) == ("soleus", 2)


def test_what_was_replaced_already_cannot_be_withdrawn(book):
    (old,) = book.note(diagnosis("calf")).fact_ids
    (new,) = book.note(diagnosis("soleus")).fact_ids
    with pytest.raises(ReplacedMeanwhileError):
        book.withdraw(old, why="late")
    book.withdraw(new, why="wrong leg")
    with pytest.raises(ReplacedMeanwhileError):
        book.withdraw(new, why="again")


def test_several_facts_are_withdrawn_together_or_none_of_them(book):
    gone = book.note(case(), diagnosis("calf")).fact_ids
    (old,) = book.note(diagnosis("soleus")).fact_ids
    before = facts_of(book)
    with pytest.raises(ReplacedMeanwhileError):
        book.withdraw(old, *gone, why="one was corrected since")
    assert facts_of(book) == before
    book.withdraw(gone[0], old, why="wrong athlete")
    assert (values(book, Case), values(book, Diagnosis)) == ([], [])
    assert book.check().troubles == ()


def test_two_versions_withdrawn_together_leave_nothing_unsettled(book):
    (mine,) = book.note(diagnosis("calf")).fact_ids
    theirs = OtherLaptop(book).writes(diagnosis("achilles"))
    book.take_in([theirs])
    book.withdraw(mine, theirs.header.id, why="wrong athlete")
    assert book.all_of(Diagnosis) == ()
    book.note(diagnosis("soleus"))
    (fact,) = book.all_of(Diagnosis)
    assert (fact.value.injury, fact.versions) == ("soleus", 1)


@pytest.mark.parametrize("twice", [(), ("f1", "f1")])
def test_a_withdrawal_names_each_fact_once(book, twice):
    with pytest.raises(ValueError, match="each once"):
        book.withdraw(*twice, why="a mistake")


def test_the_team_s_zone_says_which_day_an_entry_belongs_to(tmp_path):
    late = clock(day(0), hour=23)
    with new_book(tmp_path / "other", late) as book:
        assert book.clock.zone == "Europe/Rome"
        book.note(Team(name="Riverside", zone="Pacific/Auckland"))
        assert (book.clock.zone, book.clock.today()) == ("Pacific/Auckland", day(1))


def test_a_closed_casebook_answers_nothing(book):
    book.close()
    with pytest.raises(RuntimeError, match="closed"):
        book.squad(day(0))
    with pytest.raises(RuntimeError, match="closed"):
        book.note(case())
