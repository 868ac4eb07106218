"""What was wrong about a case is put right, on a real casebook."""

from dataclasses import replace

import pytest
import sqlcipher3.dbapi2 as driver
from sqlalchemy import event

from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    AvailabilityStated,
    Match,
    Training,
)
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    RedFlag,
    Scope,
    Urgency,
)
from teamrehab.records import NotSavedError, ReplacedMeanwhileError
from teamrehab.tasks import cases, correcting
from teamrehab.tasks.board import squad_board
from teamrehab.tasks.refusals import RefusedError
from tests import builders
from tests.builders import day
from tests.records import books

TODAY = day(14)


@pytest.fixture
def book(tmp_path):
    with books.new_book(tmp_path / "club", builders.clock(TODAY)) as casebook:
        casebook.note(builders.athlete())
        cases.open_case(casebook, builders.case(), builders.stated(builders.case()))
        yield casebook


def the_case(book):
    return book.case("c1")


def standing(book, kind):
    return next(the_case(book).standing(kind))


def sign(book, scope):
    limit = "30 minutes" if scope is Scope.MATCH_WITH_LIMIT else ""
    signed = Clearance(
        case_id="c1", athlete_id="a1", on=TODAY, scope=scope, signed_by="Ines", limit=limit
    )
    cases.clear(book, the_case(book), signed)


def fail_half_way(book):
    """Let the disk fail once, at what the second of several withdrawals replaces."""
    written = 0

    def fail(_raw, _cursor, statement, parameters, _context, executemany):
        nonlocal written
        if statement.startswith("INSERT INTO supersession"):
            written += len(parameters) if executemany else 1
        if written > 1:
            event.remove(book._store.notes, "before_cursor_execute", fail)
            error = driver.OperationalError("disk I/O error")
            error.sqlite_errorcode = 10
            raise error

    event.listen(book._store.notes, "before_cursor_execute", fail)


def training(book):
    (row,) = squad_board(book, TODAY).rows
    return row.training


@pytest.mark.parametrize("chosen", [Clearance, CaseClosed])
def test_a_wrong_clearance_goes_with_the_case_it_ended_and_what_it_allowed(book, chosen):
    sign(book, Scope.MATCH)
    assert training(book) is Training.FULL
    what = correcting.fall_together(the_case(book), standing(book, chosen))
    kinds = [type(fact.value) for fact in what.facts]
    assert kinds == [AvailabilityStated, Clearance, CaseClosed]
    correcting.take_back(book, what, "signed for the wrong athlete")
    kept = the_case(book)
    assert (kept.closed, kept.clearances) == (None, ())
    assert training(book) is Training.NONE


@pytest.mark.parametrize("missing", [0, 1, 2])
def test_what_falls_together_never_falls_by_half(book, missing):
    sign(book, Scope.MATCH)
    what = correcting.fall_together(the_case(book), standing(book, Clearance))
    book.withdraw(what.facts[missing].fact_id, why="somebody was quicker")
    before = the_case(book)
    with pytest.raises(ReplacedMeanwhileError):
        correcting.take_back(book, what, "signed for the wrong athlete")
    assert the_case(book) == before


def test_a_correction_the_disk_refuses_half_way_is_not_written_at_all(book):
    sign(book, Scope.MATCH)
    what = correcting.fall_together(the_case(book), standing(book, Clearance))
    before = the_case(book)
    fail_half_way(book)
    with pytest.raises(NotSavedError):
        correcting.take_back(book, what, "signed for the wrong athlete")
    assert the_case(book) == before
    correcting.take_back(book, what, "signed for the wrong athlete")
    assert the_case(book).closed is None


@pytest.mark.parametrize("scope", [Scope.TEAM_TRAINING, Scope.MATCH_WITH_LIMIT])
def test_a_clearance_that_ended_nothing_takes_back_what_it_allowed(book, scope):
    sign(book, scope)
    what = correcting.fall_together(the_case(book), standing(book, Clearance))
    correcting.take_back(book, what, "wrong day")
    assert training(book) is Training.NONE


def test_what_somebody_else_stated_that_day_stays(book):
    sign(book, Scope.TEAM_TRAINING)
    history = the_case(book)
    others = tuple(
        replace(f, author="s2") if isinstance(f.value, AvailabilityStated) else f
        for f in history.facts
    )
    seen = replace(history, facts=others)
    what = correcting.fall_together(seen, standing(book, Clearance))
    assert [type(fact.value) for fact in what.facts] == [Clearance]


def test_a_wrong_diagnosis_goes_alone(book):
    held = Diagnosis(case_id="c1", athlete_id="a1", on=day(2), injury="calf_strain")
    cases.diagnose(book, the_case(book), held, None)
    what = correcting.fall_together(the_case(book), standing(book, Diagnosis))
    correcting.take_back(book, what, "wrong case")
    assert the_case(book).diagnosis is None


def flagged(book):
    flag = RedFlag(
        flag_id="f1",
        case_id="c1",
        athlete_id="a1",
        on=TODAY,
        what="swelling at rest",
        urgency=Urgency.SAME_DAY,
    )
    cases.raise_red_flag(book, the_case(book), flag)
    return flag


@pytest.mark.parametrize("kind", [RedFlag, Case])
def test_no_red_flag_disappears_by_being_taken_back(book, kind):
    flag = flagged(book)
    what = correcting.fall_together(the_case(book), standing(book, kind))
    with pytest.raises(RefusedError, match="named doctor"):
        correcting.take_back(book, what, "a mistake")
    assert the_case(book).open_red_flags == (flag,)


def test_a_case_of_the_wrong_athlete_goes(book):
    what = correcting.fall_together(the_case(book), standing(book, Case))
    correcting.take_back(book, what, "wrong athlete")
    assert squad_board(book, TODAY).squad.open_cases == ()


def test_an_absence_entered_in_error_goes_with_all_its_versions(book):
    away = Absence(absence_id="x1", athlete_id="a1", on=TODAY, reason=AbsenceReason.PERSONAL)
    other = replace(away, absence_id="x2", on=day(20))
    cases.note_absence(book, away)
    cases.note_absence(book, other)
    book.take_in([books.OtherLaptop(book).writes(replace(away, until=day(15)))])
    assert len(book.squad(TODAY).absences) == 3
    correcting.take_back_absence(book, away, "it was his brother")
    assert [fact.value for fact in book.all_of(Absence)] == [other]
    with pytest.raises(RefusedError, match="taken back already"):
        correcting.take_back_absence(book, away, "again")


def test_a_corrected_case_keeps_everything_noted_since(book):
    right = builders.case(area="thigh", operation=True, on=day(1))
    correcting.correct_case(book, the_case(book), right)
    history = the_case(book)
    assert history.case == right
    assert len(history.of(AvailabilityStated)) == 1


def test_a_case_found_to_be_a_head_injury_holds_out_and_goes_to_a_doctor(book):
    correcting.correct_case(book, the_case(book), builders.case(head_injury=True))
    history = the_case(book)
    (flag,) = history.open_red_flags
    assert (flag.on, flag.urgency) == (TODAY, Urgency.SAME_DAY)
    last = history.last(AvailabilityStated)
    assert last is not None
    assert (last.on, last.training, last.match) == (TODAY, Training.NONE, Match.NOT_AVAILABLE)
    correcting.correct_case(book, history, replace(history.case, area="head"))
    assert len(the_case(book).open_red_flags) == 1
