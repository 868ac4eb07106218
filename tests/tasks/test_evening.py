"""Rows of an evening on a real casebook: what is written together, and what is refused."""

from dataclasses import replace

import pytest

from teamrehab.domain.combining import availability_on
from teamrehab.domain.evenings import EveningSigned, is_late
from teamrehab.domain.injuries import (
    CaseClosed,
    Clearance,
    LevelMoved,
    RedFlag,
    Remark,
    Scope,
    Urgency,
)
from teamrehab.domain.load import monotony, session_load, strain
from teamrehab.domain.measures import (
    ExerciseDone,
    Feeling,
    HeelRaiseTest,
    MorningResponse,
    Raises,
    SessionEntry,
    Symptom,
)
from teamrehab.records import ReplacedMeanwhileError
from teamrehab.tasks import evening
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
from tests.builders import day
from tests.tasks.evening_book import (
    TONIGHT,
    after_reopening,
    answers,
    at,
    entered,
    evening_book,
    ids,
    missed,
    save,
    session,
)

BAD, SHARP = Symptom(5), Symptom(6, Feeling.SHARP)
TEST = HeelRaiseTest(test_id="t", **ids(), on=TONIGHT, left=Raises(20), symptom=SHARP)
MORNING = MorningResponse(response_id="m", **ids(), on=TONIGHT, symptom=SHARP)


@pytest.fixture
def book(tmp_path):
    with evening_book(tmp_path / "club") as casebook:
        yield casebook


def test_a_row_is_one_transaction_and_is_read_back_as_it_was_typed(book):
    raised = HeelRaiseTest(test_id="t", **ids(), on=TONIGHT, left=Raises(20), right=Raises(27))
    note = Remark(remark_id="n", **ids(), on=TONIGHT, text="asks for a later start")
    values = (session(), raised, note)
    receipt = save(book, *values)
    assert len(receipt.fact_ids) == 3
    history = after_reopening(book, "c1")
    assert {f.value for f in history.facts if f.fact_id in receipt.fact_ids} == set(values)


def test_a_retry_leaves_one_session_and_one_red_flag(book):
    seen = book.case("c1")
    values = (session(symptom=BAD), answers(swollen_or_warm=True))
    for _each in range(2):
        evening.save_row(book, seen, values)
    history = book.case("c1")
    assert entered(history) == list(values)
    assert len(history.open_red_flags) == 1
    assert all(fact.versions == 1 for fact in history.facts)


@pytest.mark.parametrize("named", [True, False])
def test_a_correction_never_overwrites_a_newer_one_unseen(book, named):
    first = save(book, session())
    seen = book.case("c1")
    save(book, session(effort=7))
    replaces = first.fact_ids if named else None
    with pytest.raises(ReplacedMeanwhileError):
        evening.save_row(book, seen, [session(effort=2)], replaces=replaces)
    assert entered(book.case("c1")) == [session(effort=7)]


def test_a_correction_of_what_was_taken_back_leaves_no_second_version(book):
    first = save(book, session())
    better = save(book, session(effort=7), replaces=first.fact_ids)
    book.undo(*better.fact_ids, why="a slip")
    with pytest.raises(ReplacedMeanwhileError):
        save(book, session(effort=8), replaces=better.fact_ids)
    assert [(f.value, f.versions) for f in book.case("c1").standing(SessionEntry)] == [
        (session(), 1)
    ]
    again = next(book.case("c1").standing(SessionEntry))
    book.withdraw(again.fact_id, why="a slip")
    with pytest.raises(ReplacedMeanwhileError):
        save(book, session(effort=8), replaces=[again.fact_id])
    save(book, session(effort=8))
    found = next(book.case("c1").standing(SessionEntry))
    assert (found.value.effort, found.versions) == (8, 1)


def test_a_draft_goes_with_the_save_and_stays_when_the_save_is_refused(book):
    for place in ("ours", "another"):
        book.keep_draft(place, "Y 1 4")
    with pytest.raises(ImplausibleError):
        save(book, session(effort=11), drops_draft="ours")
    assert set(book.drafts()) == {"ours", "another"}
    save(book, session(), drops_draft="ours")
    assert set(book.drafts()) == {"another"}


def test_a_second_session_of_the_evening_is_asked_about_and_kept_where_it_is_meant(book):
    save(book, session())
    for second in (session(nth=2), missed(nth=2)):
        with pytest.raises(evening.SavedTwiceError, match=r"Sam Okafor .* Mon 19 Oct"):
            save(book, second)
    assert entered(book.case("c1")) == [session()]
    save(book, session(nth=2), again=True)
    save(book, session(nth=3, on=day(13)))
    assert len(entered(book.case("c1"))) == 3


def test_a_correction_replaces_the_session_and_what_else_it_corrects(book):
    raised = HeelRaiseTest(test_id="t", **ids(), on=TONIGHT, left=Raises(20))
    first = save(book, session(), raised)
    better = replace(raised, left=Raises(21))
    named = [first.fact_ids[0]]
    save(book, missed(), better, replaces=named)
    history = book.case("c1")
    assert entered(history) == [missed()]
    assert history.of(HeelRaiseTest) == (better,)
    assert all(fact.versions == 1 for fact in history.facts)


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"symptom": Symptom(4)}, "Symptom 4"),
        ({"symptom": Symptom(0, Feeling.SHARP)}, "sharp"),
        ({"limp": True}, "limp"),
    ],
)
def test_a_symptom_is_not_accepted_silently_whoever_saves_it(book, changes, why):
    with pytest.raises(RefusedError, match=why):
        save(book, session(**changes))
    assert entered(book.case("c1")) == []
    save(book, session(**changes), answers())
    assert book.case("c1").open_red_flags == ()


@pytest.mark.parametrize("value", [session(symptom=SHARP), TEST, MORNING])
def test_answers_of_the_day_to_something_else_let_no_sharp_symptom_through(book, value):
    earlier = replace(MORNING, response_id="m0", on=day(13), symptom=Symptom(0))
    evening.save_morning(book, book.case("c1"), earlier)
    with pytest.raises(RefusedError, match="rose from 0 to 2"):
        evening.save_morning(book, book.case("c1"), replace(MORNING, symptom=Symptom(2)))
    rise = replace(MORNING, response_id="m1", symptom=Symptom(2))
    evening.save_morning(book, book.case("c1"), rise, answers())
    with pytest.raises(RefusedError, match="sharp"):
        save(book, value)
    assert not any(fact.value == value for fact in book.case("c1").facts)
    save(book, value, answers(check_id="q2"))
    assert any(fact.value == value for fact in book.case("c1").facts)


def test_a_test_of_a_case_without_a_protocol_asks_and_its_correction_is_saved_alike(book):
    there = replace(TEST, **ids("c3"))
    with pytest.raises(RefusedError, match="sharp"):
        save(book, there, case_id="c3")
    receipt = save(book, there, answers("c3"), case_id="c3")
    better = replace(there, left=Raises(21))
    save(book, better, case_id="c3", replaces=receipt.fact_ids[:1])
    with pytest.raises(RefusedError, match="Symptom 8"):
        save(book, replace(better, symptom=Symptom(8)), case_id="c3")
    assert book.case("c3").of(HeelRaiseTest) == (better,)


def test_answers_that_raise_a_red_flag_raise_it_in_the_same_transaction(book):
    save(book, session(symptom=BAD), answers(chest_or_breath=True))
    (flag,) = book.case("c1").open_red_flags
    assert flag.urgency is Urgency.EMERGENCY
    there = availability_on(TONIGHT, (book.case("c1"),))
    assert there.match.value == "not available"


def test_a_morning_with_bad_answers_raises_a_red_flag_and_its_own_is_not_doubled(book):
    response = MorningResponse(response_id="m", **ids(), on=TONIGHT, symptom=BAD)
    check = answers(can_push_off=False)
    evening.save_morning(book, book.case("c1"), response, check)
    assert len(book.case("c1").open_red_flags) == 1
    ours = RedFlag(flag_id="f", **ids("c2"), on=TONIGHT, what="seen", urgency=Urgency.SAME_DAY)
    other = (replace(response, **ids("c2")), answers("c2", can_push_off=False), ours)
    evening.save_morning(book, book.case("c2"), *other)
    assert book.case("c2").open_red_flags == (ours,)


@pytest.mark.parametrize(
    ("value", "field"),
    [
        (session(on=day(15)), "Day"),
        (session(on=day(-1)), "Day"),
        (session(effort=11), "Effort"),
        (session(exercises=(ExerciseDone(exercise="hop", level=1, sets=3),)), "Level"),
        (session(exercises=(ExerciseDone(exercise="raise_straight", level=3),)), "Level"),
        (session(exercises=(ExerciseDone(exercise="swim", level=1),)), "Exercise"),
    ],
)
def test_what_cannot_be_true_is_named_and_the_whole_row_is_refused(book, value, field):
    note = Remark(remark_id="n", **ids(), on=TONIGHT, text="fine")
    with pytest.raises(ImplausibleError, match=field):
        save(book, note, value)
    assert entered(book.case("c1")) == []
    assert book.case("c1").of(Remark) == ()


def test_a_level_taken_back_since_keeps_no_symptom_from_being_corrected(book):
    moved = LevelMoved(
        **ids(), on=day(13), ladder="raise_straight", level=2, proposed=2, why="clean"
    )
    level = book.note(moved)
    done = ExerciseDone(exercise="raise_straight", level=2, sets=3)
    save(book, session(exercises=(done,)))
    book.withdraw(*level.fact_ids, why="wrong ladder")
    worse = session(exercises=(done,), symptom=SHARP)
    save(book, worse, answers())
    assert book.case("c1").of(SessionEntry) == (worse,)
    for changed in (replace(done, sets=2), replace(done, level=3)):
        with pytest.raises(ImplausibleError, match="Level"):
            save(book, session(exercises=(changed,)))


def test_no_session_is_noted_after_the_case_has_ended(book):
    book.note(Clearance(**ids(), on=day(12), scope=Scope.MATCH, signed_by="s1"))
    book.note(CaseClosed(**ids("c2"), on=day(12)))
    for case_id in ("c1", "c2"):
        with pytest.raises(ImplausibleError, match="note a new case"):
            save(book, session(case_id), case_id=case_id)


def test_a_value_of_another_case_is_never_written(book):
    with pytest.raises(ValueError, match="one case"):
        save(book, session("c2"))
    assert entered(book.case("c2")) == []


def test_an_evening_entered_next_morning_is_kept_for_its_day_and_known_to_be_late(book):
    save(book, session())
    save(at(book, 15, hour=7), session("c2"), case_id="c2")
    found = [next(book.case(c).standing(SessionEntry)) for c in ("c1", "c2")]
    assert [fact.value.on for fact in found] == [TONIGHT, TONIGHT]
    assert [is_late(fact, book.clock.zone) for fact in found] == [False, True]


def test_the_day_turning_while_typing_makes_nothing_late_before_four_in_the_night(book):
    at(book, 15, hour=1)  # 03:00 in the club's zone
    save(book, session())
    assert not is_late(next(book.case("c1").standing(SessionEntry)), book.clock.zone)


def test_an_evening_is_signed_by_somebody_and_never_before_it_came(book):
    signed = EveningSigned(on=TONIGHT, signed_by="Kim Vale", entered=2, missed=1, open=0)
    for wrong in (replace(signed, signed_by=" "), replace(signed, on=day(15))):
        with pytest.raises(ImplausibleError):
            evening.sign_evening(book, wrong)
    evening.sign_evening(book, signed)
    evening.sign_evening(book, replace(signed, entered=3))
    assert [f.value.entered for f in book.all_of(EveningSigned)] == [3]


def test_a_week_saved_row_by_row_has_the_published_load(book):
    # J Strength Cond Res 2001;15:109: mean 295.714; SD 215.241 of a sample, 199.274 of all
    week = [(0, 0), (7, 60), (5, 60), (0, 0), (6, 75), (4, 90), (6, 90)]
    for number, (effort, minutes) in enumerate(week):
        on = day(7 + number)
        save(at(book, 7 + number), session(nth=number, on=on, effort=effort, minutes=minutes))
    done = after_reopening(book, "c1").sessions
    loads = [session_load(one.effort, one.minutes) for one in done]
    assert loads == [0, 420, 300, 0, 450, 360, 540]
    assert sum(load or 0 for load in loads) == 2070
    assert monotony(loads) == pytest.approx(1.3739, abs=1e-4)
    assert strain(loads) == pytest.approx(2843.9, abs=0.1)
    assert monotony(loads, population=True) == pytest.approx(1.4840, abs=1e-4)
    assert strain(loads, population=True) == pytest.approx(3071.8, abs=0.1)
