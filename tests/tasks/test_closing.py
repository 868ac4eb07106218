"""What is decided at the end of an evening: confirmed by name, and only as it was seen."""

from dataclasses import replace

import pytest

from teamrehab.domain.availability import Activity, Limit, Match, Training
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.injuries import (
    CaseClosed,
    LevelMoved,
    RedFlag,
    StageMoved,
    Urgency,
)
from teamrehab.domain.measures import (
    HeelRaiseTest,
    Knee,
    MorningResponse,
    Raises,
    Symptom,
)
from teamrehab.domain.mornings import provisional
from teamrehab.reports.closing import Proposed, ProposedKind
from teamrehab.tasks import cases, closing, evening
from teamrehab.tasks.board import squad_board
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
from tests import builders
from tests.builders import day
from tests.tasks.evening_book import (
    TONIGHT,
    answers,
    at,
    evening_book,
    ids,
    missed,
    save,
    session,
)

NAME = "Sam Okafor"
LEVEL = LevelMoved(**ids(), on=TONIGHT, ladder="raise_straight", level=2, proposed=2)
ONE_UP = Proposed(
    **ids(), name=NAME, kind=ProposedKind.LEVEL, words="", reason="", moves=True, value=LEVEL
)


@pytest.fixture
def book(tmp_path):
    with evening_book(tmp_path / "club") as casebook:
        yield casebook


def pass_strength(book):
    both = Raises(15)
    tests = [
        HeelRaiseTest(
            test_id=knee,
            **ids(),
            on=TONIGHT,
            left=both,
            right=both,
            knee=knee,
            symptom=Symptom(0),
        )
        for knee in Knee
    ]
    save(book, session(), *tests)
    return next(one for one in end(book) if one.kind is ProposedKind.STAGE and one.moves)


def end(book, on=TONIGHT):
    return closing.evening_end(squad_board(book, book.clock.today()), on)[0]


def accept(book, proposed, confirmed=NAME):
    return closing.accept(book, book.case(proposed.case_id), proposed, confirmed)


def test_a_stage_is_opened_for_who_was_named_and_for_nobody_else(book):
    stage = pass_strength(book)
    for wrong in ("", "Sam Adeyemi", "a2", "okafor"):
        with pytest.raises(RefusedError, match=NAME):
            accept(book, stage, wrong)
    assert book.case("c1").stage == 2
    accept(book, stage, f" {NAME} ")
    assert book.case("c1").stage == 3
    assert not any(one.value == stage.value for one in end(book))


def test_what_was_opened_today_is_provisional_until_the_morning_after(book):
    accept(book, pass_strength(book), "a1")
    opened = book.case("c1").of(StageMoved)[-1]
    assert provisional(book.case("c1"), TONIGHT) == (opened,)
    calm = MorningResponse(response_id="m", **ids(), on=day(15), symptom=Symptom(0))
    evening.save_morning(at(book, 15, hour=7), book.case("c1"), calm)
    assert provisional(book.case("c1"), day(15)) == ()


def test_a_level_takes_one_key_and_no_name(book):
    accept(book, ONE_UP, "")
    assert book.case("c1").of(LevelMoved) == (LEVEL,)


def test_a_stop_is_noted_from_the_next_day_on_and_not_twice(book):
    limits = (Limit(Activity.SPRINT),)
    allowed = builders.stated(
        book.case("c2").case, 10, training=Training.WITH_LIMITS, limits=limits
    )
    cases.state_availability(book, book.case("c2"), allowed)
    save(book, session("c2", symptom=Symptom(6)), answers("c2"), case_id="c2")
    (stop,) = end(book)
    accept(book, stop, stop.name)
    assert squad_board(book, TONIGHT).rows[1].training is Training.WITH_LIMITS
    there = squad_board(book, day(15)).rows[1]
    assert (there.training, there.match) == (Training.NONE, Match.NOT_AVAILABLE)
    assert [one.value for one in end(book)] == [None]


def test_nothing_goes_up_while_a_red_flag_is_open_but_down_it_may(book):
    stage = pass_strength(book)
    book.note(RedFlag(flag_id="f", **ids(), on=TONIGHT, what="warm", urgency=Urgency.SAME_DAY))
    for proposed in (stage, ONE_UP):
        with pytest.raises(RefusedError, match="red flag"):
            accept(book, proposed)
    down = replace(stage, value=StageMoved(**ids(), on=TONIGHT, stage=1, proposed=1))
    accept(book, down)
    lower = replace(ONE_UP, value=replace(LEVEL, level=1, proposed=1))
    accept(book, lower)
    assert book.case("c1").stage == 1


def test_what_was_decided_meanwhile_is_looked_at_again(book):
    stage, seen = pass_strength(book), book.case("c1")
    book.note(StageMoved(**ids(), on=TONIGHT, stage=1, proposed=3, why="swollen in the gym"))
    book.note(replace(LEVEL, ladder="raise_seated"))
    with pytest.raises(RefusedError, match="meanwhile"):
        closing.accept(book, seen, stage, NAME)
    assert book.case("c1").stage == 1
    seen = book.case("c1")
    book.note(replace(LEVEL, ladder="raise_bent"))
    closing.accept(book, seen, ONE_UP)


def test_levels_the_protocol_lacks_and_cases_that_ended_are_refused(book):
    wrong = [
        (replace(LEVEL, ladder="swim"), RefusedError, "no such level"),
        (replace(LEVEL, level=9, proposed=9), RefusedError, "no such level"),
        (replace(LEVEL, level=3), ImplausibleError, "needs one"),
        (replace(LEVEL, on=day(15)), ImplausibleError, "Day"),
    ]
    for value, error, words in wrong:
        with pytest.raises(error, match=words):
            accept(book, replace(ONE_UP, value=value))
    book.note(CaseClosed(**ids(), on=TONIGHT))
    with pytest.raises(RefusedError, match="ended"):
        accept(book, ONE_UP)
    assert book.case("c1").of(LevelMoved) == ()


def test_what_takes_a_form_and_what_is_about_another_is_never_noted(book):
    with pytest.raises(RefusedError, match="form"):
        accept(book, replace(ONE_UP, value=None))
    with pytest.raises(ValueError, match="one athlete"):
        accept(book, replace(ONE_UP, value=replace(LEVEL, **ids("c2"))))


def test_an_evening_closed_the_next_morning_is_proposed_for_its_own_day(book):
    pass_strength(book)
    at(book, 15, hour=8)
    stage = next(one for one in end(book) if one.kind is ProposedKind.STAGE)
    assert stage.value.on == TONIGHT
    accept(book, stage)
    assert book.case("c1").of(StageMoved)[-1].on == TONIGHT


def test_an_evening_is_signed_with_its_count_by_who_is_at_the_desk(book):
    save(book, session())
    save(book, missed("c2"), case_id="c2")
    count = closing.evening_end(squad_board(book, TONIGHT), TONIGHT)[1]
    assert count.open == ("Sam Ferrigno",)
    closing.sign(book, TONIGHT, count)
    (signed,) = book.all_of(EveningSigned)
    assert signed.value == EveningSigned(
        on=TONIGHT, signed_by="Kim Vale", entered=1, missed=1, open=1
    )
