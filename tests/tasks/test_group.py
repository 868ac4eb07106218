"""A team session saved in one go: corrected and never doubled, refused as a whole."""

import pytest

from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.days import Exposure
from teamrehab.records import Cost, create_casebook
from teamrehab.tasks.group import Occasion, save_team_session, team_session
from teamrehab.tasks.refusals import ImplausibleError
from tests.builders import clock, day

TODAY = day(3)
TONIGHT = Occasion(on=TODAY)


@pytest.fixture
def book(tmp_path):
    casebook = create_casebook(
        tmp_path / "club",
        team=Team(name="Harbour Rovers"),
        founder=StaffMember(staff_id="s1", name="Ines Duarte"),
        passphrase="four words that nobody owns",
        clock=clock(TODAY),
        cost=Cost(memory_kib=64, passes=1, lanes=1),
    )
    with casebook:
        yield casebook


def took_part(athlete_id, minutes=75, effort=6, **changes):
    said = {"on": TODAY, "match": False, "minutes": minutes, "effort": effort}
    return Exposure(athlete_id=athlete_id, **(said | changes))


def test_only_what_is_new_is_written_and_a_correction_takes_the_place(book):
    first = save_team_session(book, [took_part("a1"), took_part("a2")])
    assert first is not None
    assert len(first.fact_ids) == 2
    assert save_team_session(book, [took_part("a1"), took_part("a2")]) is None
    second = save_team_session(book, [took_part("a1", effort=7), took_part("a2")])
    assert second is not None
    assert len(second.fact_ids) == 1
    standing = {fact.value.athlete_id: fact for fact in team_session(book, TONIGHT)}
    assert [fact.value.effort for fact in standing.values()] == [6, 7]
    assert standing["a1"].corrected


def test_a_session_is_told_by_its_day_its_kind_and_its_number(book):
    others = [
        took_part("a1", on=day(2)),
        took_part("a1", match=True),
        took_part("a1", session=2, effort=2),
    ]
    save_team_session(book, [took_part("a1"), *others])
    assert [fact.value for fact in team_session(book, TONIGHT)] == [took_part("a1")]
    second = Occasion(on=TODAY, session=2)
    assert [fact.value.effort for fact in team_session(book, second)] == [2]


@pytest.mark.parametrize(
    "wrong", [{"minutes": 301}, {"effort": 11}, {"on": day(4)}, {"minutes": -1}]
)
def test_one_value_that_cannot_stand_refuses_all_of_them(book, wrong):
    with pytest.raises(ImplausibleError):
        save_team_session(book, [took_part("a1"), took_part("a2", **wrong)])
    assert book.all_of(Exposure) == ()


def test_what_lies_before_a_day_is_not_read_and_the_rest_as_ever(book):
    for number in (1, 2, 3):
        book.note(took_part("a1", on=day(number)))
    withdrawn = book.note(took_part("a2")).fact_ids
    book.withdraw(*withdrawn, why="wrong athlete")
    assert [fact.value.on for fact in book.since(Exposure, day(2))] == [day(2), day(3)]
