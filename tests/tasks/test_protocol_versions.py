"""A case is moved to another version by a person, who says why; nothing goes up with it."""

from dataclasses import replace

import pytest

from teamrehab.domain.injuries import LevelMoved, ProtocolChosen, StageMoved
from teamrehab.domain.ladders import level_of, present_stage
from teamrehab.domain.protocol import Followed, followed
from teamrehab.protocols import load_protocols
from teamrehab.tasks.protocol_versions import move_to_version, newer_version
from teamrehab.tasks.refusals import RefusedError
from tests.builders import clock, day
from tests.tasks.evening_book import TONIGHT, evening_book, ids

V2 = load_protocols()["calf_strain"]
(V1,) = V2.earlier


@pytest.fixture
def book(tmp_path):
    with evening_book(tmp_path / "book") as book:
        book.note(ProtocolChosen(**ids(), on=day(3), protocol=V1.key, version="1"))
        book.note(StageMoved(**ids(), on=day(9), stage=4, proposed=4))
        yield book


def at_hand(*earlier, **changes):
    return {V2.key: replace(V2, earlier=earlier or (V1,), **changes)}


def moved(book, protocols, version="2", why="agreed with the doctor"):
    move_to_version(book, book.case("c1"), version, why, protocols)
    return book.case("c1")


def test_a_case_moves_to_the_newest_version_and_the_reason_is_kept(book):
    here = at_hand()
    assert newer_version(book.case("c1"), here) == V2
    known = moved(book, here)
    assert followed(known, here) == Followed(V2)
    assert newer_version(known, here) is None
    assert present_stage(known, V2) == 4
    assert [f.value.version for f in known.facts if isinstance(f.value, ProtocolChosen)] == [
        "2"
    ]


@pytest.mark.parametrize(
    ("order", "stage"),
    [
        ([0, 1, 2, 3, 4], 4),
        ([0, 1, 3, 4], 3),  # a stage before it is gone: the same name stands earlier
        ([0, 0, 1, 2, 3, 4], 4),  # one came before it: the number is kept, which is less far
        ([0, 1], 2),  # it is gone, and all after the second
        ([0, 4], 1),  # what is left is for later in the healing
    ],
)
def test_the_stage_stays_or_goes_back_and_never_on(book, order, stage):
    stages = tuple(
        replace(V2.stages[n], name=f"{V2.stages[n].name}{' again' if n in order[:at] else ''}")
        for at, n in enumerate(order)
    )
    new = replace(V2, stages=stages, ladders=())
    known = moved(book, at_hand(stages=stages, ladders=()))
    assert present_stage(known, new) == stage
    assert new.stages[stage - 1].phase <= V1.stages[3].phase


def test_a_level_stays_as_far_as_the_ladders_are_the_same(book):
    ladder = max(V1.ladders, key=lambda one: one.opened_by(4))
    top = ladder.opened_by(4)
    assert top >= 3
    book.note(LevelMoved(**ids(), on=day(10), ladder=ladder.key, level=top, proposed=top))
    levels = list(ladder.levels)
    levels[1] = replace(levels[1], name="something else")
    other = replace(ladder, levels=tuple(levels))
    known = moved(book, at_hand(ladders=(other,)))
    assert level_of(known, other) == 1
    assert "Version 2" in known.of(LevelMoved)[-1].why


@pytest.mark.parametrize(
    ("version", "why", "said"),
    [
        ("2", "  ", "Type why"),
        ("1", "agreed", "follows version 1 already"),
        ("7", "agreed", r"Version 7 of Calf strain is not at hand. There are: 2, 1"),
    ],
)
def test_a_move_without_reason_or_to_nowhere_is_refused_and_writes_nothing(
    book, version, why, said
):
    before = book.case("c1").facts
    with pytest.raises(RefusedError, match=said):
        moved(book, at_hand(), version, why)
    assert book.case("c1").facts == before


def test_a_case_without_a_protocol_is_not_moved(book):
    with pytest.raises(RefusedError, match="follows a protocol"):
        move_to_version(book, book.case("c3"), "2", "agreed", at_hand())
    assert clock(TONIGHT).today() == TONIGHT
