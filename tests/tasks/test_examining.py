"""An examination on a real casebook: all of it is written, or nothing."""

from typing import Any

import pytest

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.examination import EarlierInjury, Examination, Gait, OnsetKind
from teamrehab.domain.injuries import Case, RedFlag, ReturnDecision, Side, Urgency
from teamrehab.domain.measures import Hops, HopTest, KneeToWallTest
from teamrehab.domain.onset import OnsetSigns, flag_at_onset
from teamrehab.tasks import cases
from teamrehab.tasks.examining import note_examination
from teamrehab.tasks.refusals import ImplausibleError
from tests import builders
from tests.builders import day
from tests.records import books

IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
TODAY = day(2)
FOUND = Examination(
    examination_id="e1", on=TODAY, onset=OnsetKind.SUDDEN, walking=Gait.LIMPS, **IDS
)
WALL = KneeToWallTest(test_id="k1", on=TODAY, left_mm=70, right_mm=115, **IDS)
HOPS = HopTest(test_id="h1", on=TODAY, right=Hops(24), **IDS)
EARLIER = EarlierInjury(
    earlier_id="x", athlete_id="a1", on=day(-400), side=Side.RIGHT, area="thigh", days_out=30
)


@pytest.fixture
def book(tmp_path):
    with books.new_book(tmp_path / "club", builders.clock(TODAY)) as casebook:
        casebook.note(builders.athlete())
        yield casebook


@pytest.fixture
def hurt(book):
    cases.open_case(book, builders.case(), builders.stated(builders.case()))
    return book


def stands(book, kind):
    return [fact.value for fact in book.all_of(kind)]


def test_findings_first_values_and_the_past_are_written_in_one_go(hurt):
    receipt = note_examination(hurt, hurt.case("c1"), (FOUND, WALL, HOPS, EARLIER))
    assert len(receipt.fact_ids) == 4
    assert [stands(hurt, type(v)) for v in (FOUND, WALL, HOPS, EARLIER)] == [
        [FOUND],
        [WALL],
        [HOPS],
        [EARLIER],
    ]


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        (Examination(examination_id="e", on=day(-1), walking=Gait.CLEAN, **IDS), "Day"),
        (Examination(examination_id="e", on=TODAY, **IDS), "What was examined"),
        (KneeToWallTest(test_id="k", on=TODAY, left_mm=900, **IDS), "Knee to wall"),
        (
            EarlierInjury(
                earlier_id="x", athlete_id="a1", on=day(3), side=Side.LEFT, area="thigh"
            ),
            "Day of the earlier injury",
        ),
    ],
)
def test_one_thing_that_cannot_stand_keeps_all_of_it_out(hurt, wrong, field):
    with pytest.raises(ImplausibleError) as refused:
        note_examination(hurt, hurt.case("c1"), (HOPS, wrong))
    assert [one.field for one in refused.value.found] == [field]
    assert stands(hurt, HopTest) == []


def test_a_red_flag_at_the_onset_is_written_with_the_case_and_allows_nothing(book):
    case = builders.case()
    free = builders.stated(case, training=Training.FULL, match=Match.AVAILABLE)
    flag = flag_at_onset(case, OnsetSigns(pop_or_no_push_off=True), "f1")
    assert flag is not None
    expected = ReturnDecision(on=TODAY, expected=day(20), **IDS)
    receipt = cases.open_case(book, case, free, flag, expected)
    assert len(receipt.fact_ids) == 4
    (said,) = stands(book, AvailabilityStated)
    assert (said.training, said.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert stands(book, RedFlag) == [flag]


def test_a_day_expected_that_has_passed_keeps_the_case_itself_out(book):
    case = builders.case()
    past = ReturnDecision(on=TODAY, expected=day(1), **IDS)
    with pytest.raises(ImplausibleError):
        cases.open_case(book, case, builders.stated(case), past)
    assert stands(book, Case) == []


@pytest.mark.parametrize(
    ("signs", "urgency", "named"),
    [
        (OnsetSigns(), None, ""),
        (OnsetSigns(chest_or_breath=False, pop_or_no_push_off=False), None, ""),
        (OnsetSigns(chest_or_breath=True), Urgency.EMERGENCY, "Chest pain"),
        (OnsetSigns(chest_or_breath=False, pop_or_no_push_off=True), Urgency.SAME_DAY, "pop"),
        (OnsetSigns(chest_or_breath=True, pop_or_no_push_off=True), Urgency.EMERGENCY, "pop"),
    ],
)
def test_the_more_urgent_sign_counts_and_every_sign_is_named(signs, urgency, named):
    flag = flag_at_onset(builders.case(), signs, "f1")
    assert (None if flag is None else flag.urgency) == urgency
    assert named in ("" if flag is None else flag.what)
