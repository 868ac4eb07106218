"""What is decided at the end of an evening: confirmed by name, and only as it was seen."""

from dataclasses import replace
from datetime import timedelta

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
from teamrehab.domain.ladders import before_session, level_of
from teamrehab.domain.measures import (
    Done,
    Feeling,
    HeelRaiseTest,
    Knee,
    MorningResponse,
    Raises,
    SessionEntry,
    Symptom,
)
from teamrehab.domain.mornings import provisional
from teamrehab.protocols import load_protocols
from teamrehab.reports.closing import ProposedKind
from teamrehab.reports.taking_back import take_backs
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
    plan_of,
    save,
    session,
)

NAME = "Sam Okafor"
LEVEL = LevelMoved(**ids(), on=TONIGHT, ladder="raise_straight", level=2, proposed=2)


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


def level_up(book):
    """Return the step on the first ladder that a whole session of tonight proposes."""
    save(book, session(done=Done.AS_PLANNED))
    return next(one for one in end(book) if one.value == LEVEL)


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
    accept(book, level_up(book), "")
    assert book.case("c1").of(LevelMoved) == (LEVEL,)


def test_correcting_a_session_after_a_level_was_accepted_leaves_its_plan_as_it_was(book):
    level, planned = level_up(book), plan_of(book, "c1")
    accept(at_minute(book, 5), level)
    for effort, minute in ((5, 10), (6, 15)):
        at_minute(book, minute)
        (done,) = book.case("c1").sessions
        save(book, replace(done, effort=effort), replaces=())
        assert plan_of(book, "c1") == planned
        assert level_of(before_session(book.case("c1"), TONIGHT), first_ladder()) == 1
        assert level_of(book.case("c1"), first_ladder()) == 2


def at_minute(book, minute):
    moment = at(book, 14).clock.now() + timedelta(minutes=minute)
    book.clock = replace(book.clock, now=lambda: moment)
    return book


def first_ladder():
    ladders = load_protocols()["calf_strain"].ladders
    return next(one for one in ladders if one.key == LEVEL.ladder)


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
    level, stage = level_up(book), pass_strength(book)
    closing.move_level(book, book.case("c1"), replace(LEVEL, why="both at once"))
    book.note(RedFlag(flag_id="f", **ids(), on=TONIGHT, what="warm", urgency=Urgency.SAME_DAY))
    for proposed in (stage, replace(level, value=replace(LEVEL, level=3, proposed=3))):
        with pytest.raises(RefusedError, match="red flag"):
            accept(book, proposed)
    lower = replace(LEVEL, level=1, why="swollen")
    closing.move_level(book, book.case("c1"), lower)
    down = StageMoved(**ids(), on=TONIGHT, stage=1, proposed=1)
    cases.move_stage(book, book.case("c1"), down)
    assert book.case("c1").of(LevelMoved)[-1].level == 1
    assert book.case("c1").stage == 1


def correct_to(book, symptom):
    """Correct the session of tonight to another symptom, with the four answers."""
    first = next(f for f in book.case("c1").facts if isinstance(f.value, SessionEntry))
    changed = replace(first.value, symptom=symptom)
    save(book, changed, answers(), replaces=(first.fact_id,))


@pytest.mark.parametrize("propose", [pass_strength, level_up])
def test_what_is_not_proposed_any_more_after_a_correction_is_refused(book, propose):
    proposed, seen = propose(book), book.case("c1")
    correct_to(book, Symptom(8, Feeling.SHARP))
    with pytest.raises(RefusedError, match=r"Rehab is stopped.*Symptom 8 today"):
        closing.accept(book, seen, proposed, NAME)
    assert (book.case("c1").stage, book.case("c1").of(LevelMoved)) == (2, ())


def test_a_weaker_result_typed_meanwhile_takes_the_proposal_away(book):
    stage, seen = pass_strength(book), book.case("c1")
    save(book, replace(seen.of(HeelRaiseTest)[0], left=Raises(14)), replaces=())
    with pytest.raises(RefusedError, match=f"not proposed for {NAME} any more"):
        closing.accept(book, seen, stage, NAME)
    assert book.case("c1").stage == 2


def test_a_bad_morning_since_takes_the_steps_of_a_late_evening_away(book):
    level, stage = level_up(book), pass_strength(book)
    at(book, 15, hour=8)
    bad = MorningResponse(
        response_id="m", **ids(), on=day(15), symptom=Symptom(7, Feeling.SHARP)
    )
    four = replace(answers(), check_id="q2", on=day(15))
    evening.save_morning(book, book.case("c1"), bad, four)
    (stop,) = (one for one in end(book) if one.moves)
    assert stop.kind is ProposedKind.AVAILABILITY
    assert "This morning: A sharp symptom" in stop.reason
    for proposed in (stage, level):
        with pytest.raises(RefusedError, match="This morning"):
            accept(book, proposed)
    with pytest.raises(RefusedError, match="This morning"):
        cases.move_stage(book, book.case("c1"), replace(stage.value, why="felt fine to me"))
    with pytest.raises(RefusedError, match="This morning"):
        closing.move_level(book, book.case("c1"), LEVEL)
    assert (book.case("c1").stage, book.case("c1").of(LevelMoved)) == (2, ())


def test_a_move_that_turned_out_badly_is_taken_back_as_offered_and_no_longer_then(book):
    accept(book, pass_strength(book), "a1")
    at(book, 15, hour=8)
    bad = MorningResponse(response_id="m", **ids(), on=day(15), symptom=Symptom(5))
    four = replace(answers(), check_id="q2", on=day(15))
    evening.save_morning(book, book.case("c1"), bad, four)
    protocol = load_protocols()["calf_strain"]
    ((_move, offered),) = take_backs(book.case("c1"), protocol, day(15))
    worse = replace(bad, symptom=Symptom(6))
    evening.save_morning(book, book.case("c1"), worse, replace(four, check_id="q3"))
    with pytest.raises(RefusedError, match="not proposed"):
        accept(book, offered)
    ((_move, offered),) = take_backs(book.case("c1"), protocol, day(15))
    accept(book, offered)
    assert book.case("c1").stage == 2
    assert book.case("c1").of(StageMoved)[-1].proposed == 2


def test_what_was_decided_meanwhile_is_looked_at_again(book):
    stage, seen = pass_strength(book), book.case("c1")
    book.note(StageMoved(**ids(), on=TONIGHT, stage=1, proposed=3, why="swollen in the gym"))
    book.note(replace(LEVEL, ladder="raise_seated"))
    with pytest.raises(RefusedError, match="meanwhile"):
        closing.accept(book, seen, stage, NAME)
    assert book.case("c1").stage == 1


def test_after_a_step_on_another_ladder_of_the_same_evening_this_one_waits(book):
    level, seen = level_up(book), book.case("c1")
    book.note(replace(LEVEL, ladder="raise_bent"))
    with pytest.raises(RefusedError, match="not proposed"):
        closing.accept(book, seen, level)
    assert LEVEL not in book.case("c1").of(LevelMoved)


def test_levels_nothing_has_opened_and_cases_that_ended_are_refused(book):
    level = level_up(book)
    why = "looked strong to me"
    wrong = [
        (replace(LEVEL, ladder="swim"), RefusedError, "no such level"),
        (replace(LEVEL, level=9, proposed=9), RefusedError, "no such level"),
        (replace(LEVEL, ladder="hop", level=1, why=why), RefusedError, "not worked at in Stre"),
        # what was proposed is worked out afresh, whatever the value says
        (replace(LEVEL, level=3, proposed=3), ImplausibleError, "needs one"),
        (replace(LEVEL, on=day(15), why=why), ImplausibleError, "Day"),
    ]
    for value, error, words in wrong:
        with pytest.raises(error, match=words):
            closing.move_level(book, book.case("c1"), value)
    assert book.case("c1").of(LevelMoved) == ()
    closing.move_level(book, book.case("c1"), replace(LEVEL, level=3, proposed=3, why=why))
    (decided,) = book.case("c1").of(LevelMoved)
    assert (decided.level, decided.proposed, decided.why) == (3, 2, why)
    book.note(StageMoved(**ids(), on=TONIGHT, stage=1, proposed=1))
    with pytest.raises(RefusedError, match="level 2, is opened by a later stage than Settle"):
        closing.move_level(book, book.case("c1"), replace(LEVEL, why=why))
    book.note(CaseClosed(**ids(), on=TONIGHT))
    with pytest.raises(RefusedError, match="ended"):
        accept(book, level)
    with pytest.raises(RefusedError, match="ended"):
        closing.move_level(book, book.case("c1"), LEVEL)


def test_what_takes_a_form_and_what_is_about_another_is_never_noted(book):
    level = level_up(book)
    with pytest.raises(RefusedError, match="form"):
        accept(book, replace(level, value=None))
    with pytest.raises(ValueError, match="one athlete"):
        accept(book, replace(level, value=replace(LEVEL, **ids("c2"))))


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
