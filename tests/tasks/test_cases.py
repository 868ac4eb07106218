"""What staff decide about a case, on a real casebook: what is written, and what is refused."""

from datetime import datetime
from typing import Any

import pytest

from teamrehab.domain.athletes import Role, StaffMember
from teamrehab.domain.availability import (
    Activity,
    AvailabilityStated,
    Limit,
    Match,
    Training,
)
from teamrehab.domain.days import Fixture
from teamrehab.domain.injuries import (
    Certainty,
    Clearance,
    Diagnosis,
    Outcome,
    RedFlag,
    ReturnDecision,
    Scope,
    StageMoved,
    Urgency,
)
from teamrehab.protocols import load_protocols
from teamrehab.reports.wording import day_words
from teamrehab.tasks import cases
from teamrehab.tasks.board import full_board, squad_board
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
from tests import builders
from tests.builders import day
from tests.records import books

IDS: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
TODAY = day(14)
NOON = datetime(2026, 10, 21, 12)  # noqa: DTZ001  club wall time


@pytest.fixture
def book(tmp_path):
    with books.new_book(tmp_path / "club", builders.clock(TODAY)) as casebook:
        casebook.note(builders.athlete())
        cases.open_case(casebook, builders.case(), builders.stated(builders.case()))
        yield casebook


def _history(book):
    return book.case("c1")


def _diagnose(book, **changes):
    values = {"injury": "calf_strain", "muscle": "soleus", "certainty": Certainty.CONFIRMED}
    diagnosis = Diagnosis(**IDS, on=day(2), **(values | changes))
    cases.diagnose(book, _history(book), diagnosis, load_protocols()["calf_strain"])


def _flag(book):
    flag = RedFlag(
        flag_id="f1", **IDS, on=TODAY, what="calf squeezed: less", urgency=Urgency.SAME_DAY
    )
    cases.raise_red_flag(book, _history(book), flag)
    return flag


def _clearance(scope=Scope.MATCH, **changes):
    return Clearance(**IDS, on=TODAY, scope=scope, signed_by="s1", **changes)


def _median(book):
    (row,) = full_board(book, TODAY).rows
    assert row.likely is not None
    assert row.likely.median is not None
    return row.likely.median


def test_a_case_opens_with_what_it_allows(book):
    (row,) = squad_board(book, TODAY).rows
    assert (row.training, row.match) == (Training.NONE, Match.NOT_AVAILABLE)


def test_a_diagnosis_chooses_the_protocol_once(book):
    _diagnose(book)
    chosen = _history(book).protocol
    _diagnose(book, grade=2)
    assert _history(book).protocol == chosen
    assert _history(book).diagnosis.grade == 2
    assert _history(book).stage == 1


def test_a_move_against_the_proposal_without_a_reason_is_refused_and_nothing_is_written(book):
    _diagnose(book)
    with pytest.raises(ImplausibleError):
        cases.move_stage(book, _history(book), StageMoved(**IDS, on=TODAY, stage=4, proposed=1))
    assert _history(book).stage == 1


def test_a_move_with_its_reason_stands_and_the_estimate_follows_it(book):
    _diagnose(book)
    before = _median(book)
    moved = StageMoved(**IDS, on=TODAY, stage=4, proposed=1, why="ran with the academy")
    cases.move_stage(book, _history(book), moved)
    assert _median(book) < before


def test_no_stage_is_opened_and_nobody_is_cleared_while_a_red_flag_is_open(book):
    _diagnose(book)
    flag = _flag(book)
    moved = StageMoved(**IDS, on=TODAY, stage=2, proposed=2, why="walks")
    for act in (
        lambda: cases.move_stage(book, _history(book), moved),
        lambda: cases.clear(book, _history(book), _clearance()),
    ):
        with pytest.raises(RefusedError, match="red flag"):
            act()
    cases.close_red_flag(book, flag, "Dr Imre Sato")
    cases.move_stage(book, _history(book), moved)
    assert _history(book).stage == 2


def test_a_step_back_is_possible_while_a_red_flag_is_open(book):
    _diagnose(book)
    forward = StageMoved(**IDS, on=day(10), stage=3, proposed=3, why="hops")
    cases.move_stage(book, _history(book), forward)
    _flag(book)
    back = StageMoved(**IDS, on=TODAY, stage=2, proposed=3, why="swollen and warm")
    cases.move_stage(book, _history(book), back)
    assert _history(book).stage == 2
    again = StageMoved(**IDS, on=TODAY, stage=3, proposed=3, why="hops")
    with pytest.raises(RefusedError, match="red flag"):
        cases.move_stage(book, _history(book), again)


def test_a_red_flag_beats_what_was_stated(book):
    _state(book, 14, training=Training.FULL, match=Match.AVAILABLE)
    _flag(book)
    (row,) = full_board(book, TODAY).rows
    assert (row.training, row.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert row.likely is None


def test_a_red_flag_is_closed_by_a_named_doctor_only(book):
    flag = _flag(book)
    with pytest.raises(RefusedError, match="doctor"):
        cases.close_red_flag(book, flag, "  ")
    assert _history(book).open_red_flags


def test_a_clearance_for_matches_states_full_availability_and_ends_the_case(book):
    cases.clear(book, _history(book), _clearance())
    assert _history(book).closed.outcome is Outcome.CLEARED
    (row,) = squad_board(book, TODAY).rows
    assert (row.training, row.match) == (Training.FULL, Match.AVAILABLE)


def test_a_clearance_for_team_training_leaves_the_match_answer_as_it_was(book):
    cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    (row,) = squad_board(book, TODAY).rows
    assert (row.training, row.match) == (Training.FULL, Match.NOT_AVAILABLE)
    assert row.case_id == "c1"


def _state(book, on, **said):
    stated = builders.stated(builders.case(), on, **said)
    cases.state_availability(book, _history(book), stated)


@pytest.mark.parametrize(
    "match",
    [
        {"match": Match.LIMITED, "match_minutes": 30, "match_role": "bench"},
        {"match": Match.UNDECIDED, "next_update": NOON, "until": day(20)},
        {"match": Match.NOT_AVAILABLE, "next_update": NOON},
        {"match": Match.AVAILABLE},
    ],
)
def test_a_clearance_for_team_training_keeps_all_that_was_said_of_matches(book, match):
    limits = (Limit(Activity.SPRINT),)
    _state(book, 9, training=Training.WITH_LIMITS, limits=limits, **match)
    cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    wanted = builders.stated(builders.case(), 14, training=Training.FULL, **match)
    assert _history(book).last(AvailabilityStated) == wanted


def test_an_end_that_has_passed_does_not_hinder_a_clearance(book):
    _state(book, 9, until=day(11))
    cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    assert _history(book).last(AvailabilityStated).until is None


def test_an_update_that_has_passed_does_not_go_on_and_a_decision_that_was_due_comes_first(book):
    past = datetime(2026, 10, 15, 12)  # noqa: DTZ001  club wall time
    _state(book, 9, match=Match.UNDECIDED, next_update=past)
    with pytest.raises(RefusedError, match="was due Thu 15 Oct, 12:00: state the avail"):
        cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    _state(book, 9, next_update=past)
    cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    assert _history(book).last(AvailabilityStated).next_update is None


def test_what_is_stated_for_a_coming_day_is_not_what_a_clearance_goes_on_from(book):
    _state(book, 16, match=Match.AVAILABLE)
    cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    (row,) = squad_board(book, TODAY).rows
    assert (row.training, row.match) == (Training.FULL, Match.NOT_AVAILABLE)


@pytest.mark.parametrize(
    ("match", "missing"), [(Match.UNDECIDED, "Next update"), (Match.LIMITED, "Role")]
)
def test_no_clearance_goes_on_from_a_match_answer_that_lacks_its_half(book, match, missing):
    book.note(builders.stated(builders.case(), 9, match=match))
    with pytest.raises(ImplausibleError, match=missing):
        cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    assert _history(book).clearances == ()


def test_a_limited_clearance_leaves_nothing_of_an_earlier_limit(book):
    _state(book, 9, match=Match.LIMITED, match_minutes=30)
    limited = _clearance(Scope.MATCH_WITH_LIMIT, limit="second half only")
    cases.clear(book, _history(book), limited)
    stated = _history(book).last(AvailabilityStated)
    assert (stated.match_minutes, stated.match_role) == (None, "second half only")


def test_a_limited_clearance_is_worded_for_the_coach_and_checked_for_medical_words(book):
    limited = _clearance(Scope.MATCH_WITH_LIMIT, limit="30 minutes, soleus still weak")
    with pytest.raises(RefusedError, match="soleus"):
        cases.clear(book, _history(book), limited)
    assert _history(book).clearances == ()
    cases.clear(
        book, _history(book), _clearance(Scope.MATCH_WITH_LIMIT, limit="second half only")
    )
    stated = _history(book).last(AvailabilityStated)
    assert (stated.match, stated.match_role) == (Match.LIMITED, "second half only")


def test_a_clearance_without_a_signature_is_refused(book):
    with pytest.raises(ImplausibleError):
        cases.clear(
            book, _history(book), Clearance(**IDS, on=TODAY, scope=Scope.MATCH, signed_by=" ")
        )
    assert _history(book).closed is None


def test_who_the_protocol_does_not_name_cannot_sign(book):
    _diagnose(book)
    book.me = StaffMember(staff_id="s1", name="Kim Vale", role=Role.ASSISTANT)
    with pytest.raises(RefusedError, match="signed in as assistant"):
        cases.clear(book, _history(book), _clearance())
    assert _history(book).closed is None


def test_a_decision_cuts_the_estimate_and_is_shown_as_one(book):
    _diagnose(book)
    decision = ReturnDecision(**IDS, on=TODAY, not_before=day(60), why="operation planned")
    cases.decide_return(book, _history(book), decision)
    (row,) = full_board(book, TODAY).rows
    assert row.likely is not None
    assert row.likely.not_before == day(60)
    assert row.likely.earliest is not None
    assert row.likely.earliest >= day(60)


LIMITED = {"scope": Scope.MATCH_WITH_LIMIT, "limit": "30 minutes"}


def _decide(book, **decided):
    book.note(Fixture(fixture_id="m1", on=day(16), opponent="Fernwick Town"))
    decision = ReturnDecision(**IDS, on=day(13), why="new pain", **decided)
    cases.decide_return(book, _history(book), decision)


@pytest.mark.parametrize("signed", [{"scope": Scope.MATCH}, LIMITED])
@pytest.mark.parametrize(
    "decided", [{"ruled_out": ("m1",)}, {"not_before": day(16)}, {"ruled_out": ("m0", "m1")}]
)
def test_no_clearance_for_matches_undoes_a_decision_that_lies_ahead(book, signed, decided):
    _decide(book, **decided)
    with pytest.raises(RefusedError) as refused:
        cases.clear(book, _history(book), _clearance(**signed))
    said = str(refused.value)
    assert day_words(day(13)) in said
    assert day_words(day(16)) in said
    assert ("Fernwick Town" in said) == ("ruled_out" in decided)
    assert "Withdraw or change this decision first" in said
    assert (_history(book).clearances, _history(book).closed) == ((), None)


def test_a_clearance_for_training_does_not_touch_a_decision_about_a_match(book):
    _decide(book, ruled_out=("m1",))
    cases.clear(book, _history(book), _clearance(Scope.TEAM_TRAINING))
    assert _history(book).clearances


@pytest.mark.parametrize(
    "fixture",
    [
        {"on": day(13)},
        {"on": day(16), "cancelled": True},
        {"on": TODAY, "kick_off": datetime(2026, 10, 19, 19, 30)},  # noqa: DTZ001
    ],
)
def test_a_match_that_is_over_or_cancelled_hinders_no_clearance(book, fixture):
    _decide(book, ruled_out=("m1",), not_before=TODAY)
    book.note(Fixture(fixture_id="m1", opponent="Fernwick Town", **fixture))
    cases.clear(book, _history(book), _clearance())
    assert _history(book).closed is not None


def test_once_the_decision_is_withdrawn_the_clearance_is_signed(book):
    _decide(book, ruled_out=("m1",))
    (decision,) = _history(book).standing(ReturnDecision)
    book.withdraw(decision.fact_id, why="the doctor saw him")
    cases.clear(book, _history(book), _clearance())
    assert _history(book).closed is not None


def test_words_for_the_coach_are_checked_when_availability_is_stated(book):
    with pytest.raises(RefusedError, match="hamstring"):
        _state(book, 14, match=Match.LIMITED, match_role="mind the hamstring")


def test_a_case_that_ends_otherwise_leaves_the_squad_board(book):
    cases.close_case(book, _history(book), TODAY, Outcome.LEFT_CLUB)
    assert squad_board(book, TODAY).squad.open_cases == ()


def test_a_case_with_an_open_red_flag_is_not_closed(book):
    flag = _flag(book)
    for outcome in Outcome:
        with pytest.raises(RefusedError, match="Close the red flag first"):
            cases.close_case(book, _history(book), TODAY, outcome, why="feels fine")
    (row,) = squad_board(book, TODAY).rows
    assert row.training is Training.NONE
    cases.close_red_flag(book, flag, "Dr Imre Sato")
    cases.close_case(book, _history(book), TODAY, Outcome.OTHER, why="feels fine")
    assert _history(book).closed is not None


def test_a_case_ends_as_cleared_by_a_signature_only(book):
    with pytest.raises(RefusedError, match="sign a clearance"):
        cases.close_case(book, _history(book), TODAY, Outcome.CLEARED, why="feels fine")
    assert _history(book).closed is None


def test_no_range_while_the_diagnosis_is_new_or_not_confirmed(book):
    _diagnose(book, certainty=Certainty.SUSPECTED)
    (row,) = full_board(book, TODAY).rows
    assert row.likely is None
    assert row.no_estimate is not None


def test_next_update_reaches_the_row(book):
    _state(book, 14, match=Match.UNDECIDED, next_update=NOON)
    assert squad_board(book, TODAY).rows[0].availability.next_update == NOON
