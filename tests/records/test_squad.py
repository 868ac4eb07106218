"""What the casebook answers: a case, the squad on a day, the cases behind the estimate."""

from datetime import timedelta
from typing import Any

import pytest

from teamrehab.domain.athletes import StaffMember
from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    AvailabilityStated,
    Match,
    Training,
)
from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import CaseClosed, Remark
from teamrehab.domain.measures import HeelRaiseTest, Hops, HopTest, Raises
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.sheets import Disclosed, SheetIssued
from teamrehab.records import UnknownCaseError
from tests.builders import ONSET, athlete, case, day
from tests.records.books import OtherLaptop, new_book, reopened
from tests.records.examples import CASE, EXAMPLES


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        book.note(athlete(), case())
        yield book


def closed(on):
    return CaseClosed(case_id="c1", athlete_id="a1", on=on)


def stated(training):
    return AvailabilityStated(training=training, match=Match.NOT_AVAILABLE, **CASE)


def test_a_case_comes_back_oldest_first_with_its_athlete(book):
    remarks = [
        Remark(remark_id=f"n{n}", text="x", **(CASE | {"on": day(n)})) for n in (9, 2, 5)
    ]
    book.note(*remarks)
    history = reopened(book).case("c1")
    assert history.athlete == athlete()
    assert [fact.value.on for fact in history.facts] == [day(0), day(2), day(5), day(9)]
    assert history.case == case()


def test_a_correction_keeps_the_stamp_of_the_first_noting(book):
    values = [Remark(remark_id="n", text=text, **CASE) for text in "abc"]
    stamps = []
    for value in values:
        book.note(value)
        (fact,) = book.case("c1").standing(Remark)
        stamps.append((fact.began, fact.stamp))
        assert fact.corrected is (value is not values[0])
    first = stamps[0][1]
    assert [began for began, _stamp in stamps] == [first, first, first]
    assert len({stamp for _began, stamp in stamps}) == len(values)
    assert reopened(book).case("c1").facts[-1].began == first


def test_an_unknown_case_is_said_to_be_unknown(book):
    with pytest.raises(UnknownCaseError, match="c77"):
        book.case("c77")


def test_a_case_is_open_until_the_day_it_was_closed(book):
    book.note(closed(day(9)))
    assert [h.case.case_id for h in book.squad(day(8)).open_cases] == ["c1"]
    assert book.squad(day(9)).open_cases == ()


def test_a_closing_entered_in_error_opens_the_case_again(book):
    (closing,) = book.note(closed(day(9))).fact_ids
    book.withdraw(closing, why="it was the other case")
    assert len(book.squad(day(10)).open_cases) == 1
    book.note(closed(day(11)))
    assert book.squad(day(11)).open_cases == ()


def test_two_statements_for_one_day_are_both_told_until_settled(book):
    book.note(stated(Training.WITH_LIMITS))
    book.take_in([OtherLaptop(book).writes(stated(Training.NONE))])
    (history,) = book.squad(day(3)).open_cases
    found = list(history.standing(AvailabilityStated))
    assert {f.value.training for f in found} == {Training.WITH_LIMITS, Training.NONE}
    assert [f.versions for f in found] == [2, 2]
    book.note(stated(Training.NONE))
    (history,) = book.squad(day(3)).open_cases
    assert [f.versions for f in history.standing(AvailabilityStated)] == [1]


def test_the_squad_holds_those_who_belong_to_it_on_the_day(book):
    book.note(athlete(athlete_id="a2", left=day(5)), athlete(athlete_id="a3", joined=day(5)))
    ids = [{a.athlete_id for a in book.squad(day(n)).athletes} for n in (4, 5)]
    assert ids == [{"a1", "a2"}, {"a1", "a3"}]
    former = [[a.athlete_id for a in book.squad(day(n)).former] for n in (4, 5)]
    assert former == [[], ["a2"]]


def test_two_versions_of_an_athlete_are_one_line_in_the_squad(book):
    later = athlete(position="wing")
    book.take_in([OtherLaptop(book).writes(later)])
    assert len(book.squad(day(1)).athletes) == 1


def test_absences_count_until_they_have_ended(book):
    def away(name, on, until):
        reason = AbsenceReason.SUSPENDED
        return Absence(absence_id=name, athlete_id="a1", on=on, reason=reason, until=until)

    long_ago = ONSET - timedelta(days=900)
    book.note(away("over", long_ago, day(3)), away("last", ONSET, day(4)))
    book.note(away("open", long_ago, None), away("coming", day(8), day(9)))
    assert [a.absence_id for a in book.squad(day(4)).absences] == ["open", "last", "coming"]


def test_fixtures_reach_back_two_weeks_and_leave_out_the_cancelled(book):
    fixtures = [Fixture(fixture_id=f"f{n}", on=day(n), opponent="X") for n in (-15, -14, 3)]
    book.note(*fixtures, Fixture(fixture_id="f9", on=day(4), opponent="X", cancelled=True))
    assert [f.fixture_id for f in book.squad(ONSET).fixtures] == ["f-14", "f3"]


def test_the_higher_revision_of_a_fixture_counts_though_it_was_noted_first(book):
    new = Fixture(fixture_id="f1", on=day(6), opponent="Late", revision=2)
    old = Fixture(fixture_id="f1", on=day(5), opponent="Early", revision=1)
    book.note(new)
    book.take_in([OtherLaptop(book).writes(old)])
    assert book.squad(ONSET).fixtures == (new,)


def test_the_last_sheet_is_the_one_with_the_highest_number(book):
    sheets = [SheetIssued(number=n, on=day(n), signed="Kim") for n in range(1, 12)]
    book.note(*sheets)
    last = next(f.fact_id for f in book.all_of(SheetIssued) if f.value.number == 11)
    assert book.squad(day(20)).last_sheet == sheets[-1]
    book.withdraw(last, why="never printed")
    assert book.squad(day(20)).last_sheet == sheets[-2]


def test_a_disclosed_sentence_counts_on_its_days_only(book):
    sentence, _ = EXAMPLES[Disclosed]
    book.note(sentence)
    told = [book.squad(day(n)).disclosed for n in (-1, 0, 7, 8)]
    assert told == [(), (sentence,), (sentence,), ()]


def test_settings_and_staff_are_told_as_they_stand(book):
    book.note(ClubSettings(retest_days=9), StaffMember(staff_id="s2", name="Ana Ruiz"))
    squad = reopened(book).squad(day(1))
    assert squad.settings.retest_days == 9
    assert {person.name for person in squad.staff} == {"Kim Vale", "Ana Ruiz"}


def test_past_cases_tell_the_course_and_not_the_tests(book):
    book.note(*(EXAMPLES[kind][0] for kind in EXAMPLES if kind is not CaseClosed))
    book.note(closed(day(30)))
    (history,) = book.past_cases()
    kinds = {type(fact.value).__name__ for fact in history.facts}
    course = {"Case", "Diagnosis", "ProtocolChosen", "StageMoved", "Clearance", "CaseClosed"}
    assert kinds == course


def test_cases_of_one_athlete_come_by_onset_and_nobody_else_s(book):
    book.note(
        case(case_id="c3", on=day(40)),
        case(case_id="c2", on=day(20)),
        case(case_id="c4", athlete_id="a2", on=day(1)),
    )
    assert [h.case.case_id for h in book.cases_of("a1")] == ["c1", "c2", "c3"]


def test_a_case_comes_with_the_healthy_values_of_its_athlete_only(book):
    values: dict[str, Any] = {
        "left": Raises(30),
        "athlete_id": "a1",
        "case_id": "",
        "on": day(-40),
    }
    own = HeelRaiseTest(**(values | {"test_id": "b1"}))
    book.note(
        own,
        HopTest(**(values | {"test_id": "b2", "on": day(-731), "left": Hops(20)})),
        HeelRaiseTest(**(values | {"test_id": "b3", "athlete_id": "a2"})),
        HeelRaiseTest(**(values | {"test_id": "t4", "case_id": "c1", "on": day(2)})),
    )
    (wrong,) = book.note(HeelRaiseTest(**(values | {"test_id": "b5"}))).fact_ids
    book.withdraw(wrong, why="the other athlete")
    for history in (book.case("c1"), *book.squad(day(9)).open_cases, *book.cases_of("a1")):
        assert [fact.value for fact in history.baseline] == [own]
        assert all(fact.value.case_id == "c1" for fact in history.facts)


def test_a_case_whose_athlete_was_erased_is_still_told(book):
    (person,) = book.all_of(type(athlete()))
    book.erase(person.fact_id, "asked for")
    assert book.case("c1").athlete.athlete_id == "a1"
    assert "Okafor" not in str(book.case("c1"))


def test_an_erased_case_is_counted_and_not_shown(book):
    book.erase(book.case("c1").facts[0].fact_id, "asked for")
    squad = book.squad(day(1))
    assert (squad.open_cases, squad.unreadable) == ((), 1)
