"""Every kind of fact can be noted, corrected, withdrawn, met twice, settled and erased."""

import json
from dataclasses import asdict, fields, is_dataclass, replace
from enum import Enum
from typing import get_args

import pytest

from teamrehab.domain.history import Erased
from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import FunctionCheck, HeelRaiseTest, HopTest, RunTest, Test
from teamrehab.records.canonical import canonical
from teamrehab.records.facts import body_text
from teamrehab.records.heads import heads, standing
from teamrehab.records.kinds import BY_SHAPE, KINDS, Kind, _upcast, read_body
from teamrehab.records.marks import EnteredInError, Erasure
from teamrehab.records.writing import plain
from tests.builders import ONSET
from tests.records.books import OtherLaptop, new_book, reopened, values
from tests.records.examples import EXAMPLES

WALKED = [kind for kind in KINDS.values() if kind.shape not in (EnteredInError, Erasure)]


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def of_slot(book, kind, value):
    with book._store.look() as connection:
        return standing(heads(connection, "slot", [kind.slot(value)]))


@pytest.mark.parametrize("kind", WALKED, ids=lambda kind: kind.name)
def test_a_kind_can_be_noted_corrected_withdrawn_met_twice_settled_and_erased(book, kind):
    first, second = EXAMPLES[kind.shape]
    (noted,) = book.note(first).fact_ids
    book = reopened(book)
    assert first in values(book, kind.shape)

    (corrected,) = book.note(second, replaces=[noted], why="misread").fact_ids
    (fact,) = of_slot(book, kind, first)
    assert (fact.value, fact.corrected, fact.versions) == (second, True, 1)

    book.withdraw(corrected, why="wrong person")
    assert of_slot(book, kind, first) == ()

    (again,) = book.note(first).fact_ids
    book.take_in([OtherLaptop(book).writes(second)])
    both = of_slot(book, kind, first)
    assert {fact.versions for fact in both} == {2}
    assert [fact.value for fact in both] in ([first, second], [second, first])

    (settled,) = book.note(second).fact_ids
    (fact,) = of_slot(book, kind, first)
    assert (fact.value, fact.versions, fact.author) == (second, 1, "s1")

    book.erase(settled, "the athlete's lawful wish")
    (fact,) = of_slot(book, kind, first)
    assert isinstance(fact.value, Erased)
    assert second not in values(book, kind.shape)
    found = book.check()
    assert (found.erased, found.troubles, again == settled) == (1, (), False)
    book.close()


def plainly(value):
    return value.value if isinstance(value, Enum) else value.isoformat()


@pytest.mark.parametrize("kind", WALKED, ids=lambda kind: kind.name)
def test_a_body_has_the_bytes_that_the_standard_library_s_slow_way_gives(kind):
    """A faster way to write values down must never change what has a hash already."""
    for value in EXAMPLES[kind.shape]:
        slowly = json.dumps(
            asdict(value),
            sort_keys=True,
            separators=(",", ":"),
            ensure_ascii=False,
            default=plainly,
        )
        assert canonical(plain(value)) == slowly


def test_a_fact_of_an_older_schema_is_read_by_the_steps_in_between():
    """A kind as it might look after two changes: a field renamed, then one added."""
    steps = (
        lambda old: {"remark_id" if key == "id" else key: old[key] for key in old},
        lambda old: old | {"text": old.get("text", "none written")},
    )
    kind = Kind(name="remark", shape=Remark, slot=str, upcasters=steps)
    body = {"id": "n1", "case_id": "c1", "athlete_id": "a1", "on": "2026-10-05"}
    expected = Remark(
        remark_id="n1", case_id="c1", athlete_id="a1", on=ONSET, text="none written"
    )
    assert _upcast(kind, 1, body_text(body, "")) == expected
    assert kind.schema == 3


@pytest.mark.parametrize("shape", [HeelRaiseTest, HopTest, FunctionCheck, RunTest])
@pytest.mark.parametrize("said", [True, False])
def test_a_test_kept_before_the_time_of_day_could_stay_open_says_what_it_said(shape, said):
    kind = BY_SHAPE[shape]
    kept = replace(EXAMPLES[shape][0], after_training=said)
    text = body_text(plain(kept), "")
    assert read_body(kind.name, 1, "2026-10-05", text) == kept
    assert kind.schema >= 3, "an older program must say newer, not damaged, of an open answer"


def test_whether_an_athlete_was_fresh_may_stay_open_and_is_kept_so(book):
    shapes = get_args(Test)
    for number, shape in enumerate(shapes):
        book.note(replace(EXAMPLES[shape][0], test_id=f"open{number}"))
    assert {value.after_training for shape in shapes for value in values(book, shape)} == {None}


def test_every_dataclass_that_has_a_day_and_an_athlete_is_a_kind():
    """A value added to the domain and forgotten here could be typed in and never kept."""
    from teamrehab.domain import availability, days, injuries, measures, sheets

    derived = {availability.Availability, measures._Test}
    found = {
        thing
        for module in (availability, days, injuries, measures, sheets)
        for thing in vars(module).values()
        if is_dataclass(thing) and {"on", "athlete_id"} <= {f.name for f in fields(thing)}
    }
    assert found - derived <= {kind.shape for kind in KINDS.values()}
    assert len(found) > 10
