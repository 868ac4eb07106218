"""What the tests of stops do to a casebook of an evening, and ask of it."""

from dataclasses import replace

from teamrehab.domain.deciding import situation_of
from teamrehab.domain.injuries import (
    Clearance,
    RedFlag,
    Scope,
    StageMoved,
    Urgency,
)
from teamrehab.domain.measures import Feeling, Symptom
from teamrehab.domain.stops import stop_reasons
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.evening import evening_lines
from teamrehab.tasks import cases, closing
from teamrehab.tasks.board import protocol_of, squad_board
from tests.builders import case, day, stated
from tests.tasks.evening_book import TONIGHT, ids

SHARP = Symptom(9, Feeling.SHARP)
FLAG = RedFlag(
    flag_id="r9", **ids(), on=TONIGHT, what="warm, swollen", urgency=Urgency.EMERGENCY
)


def go(book, stage, case_id="c1"):
    moved = StageMoved(**ids(case_id), on=TONIGHT, stage=stage, proposed=2, why="seen")
    return cases.move_stage(book, book.case(case_id), moved)


def flagged_beside(book):
    """Open a second case of the first athlete, with an emergency."""
    second = case(case_id="c9", athlete_id="a1", on=day(10), what="ankle")
    cases.open_case(book, second, stated(second, 10), replace(FLAG, case_id="c9", on=day(10)))


def stops(book, case_id="c1"):
    known = book.case(case_id)
    today = book.clock.today()
    return stop_reasons(situation_of(known, protocol_of(known), today))


def lines(book, athlete_id="a1"):
    squad = book.squad(TONIGHT)
    found = evening_lines(
        squad, load_protocols(), injury_catalogue(), TONIGHT, book.clock.local()
    )
    return [line for line in found if line.athlete_id == athlete_id]


def proposed(book, case_id="c1", on=TONIGHT):
    board = squad_board(book, book.clock.today())
    return [one for one in closing.evening_end(board, on)[0] if one.case_id == case_id]


def sign(scope=Scope.MATCH):
    return Clearance(**ids(), on=TONIGHT, scope=scope, signed_by="Kim Vale")


def row(book, athlete_id="a1"):
    rows = squad_board(book, book.clock.today()).rows
    return next(one for one in rows if one.athlete_id == athlete_id)
