"""A head injury, on a real casebook: out until somebody signs, whatever was typed."""

from typing import Any

import pytest

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.injuries import Clearance, Outcome, Scope, Urgency
from teamrehab.tasks import cases
from teamrehab.tasks.board import squad_board
from teamrehab.tasks.refusals import RefusedError
from tests import builders
from tests.builders import day
from tests.records import books

TODAY = day(14)
FREE: dict[str, Any] = {"training": Training.FULL, "match": Match.AVAILABLE}


def _history(book):
    return book.case("c1")


def _clearance(scope=Scope.MATCH, **changes):
    return Clearance(
        case_id="c1", athlete_id="a1", on=TODAY, scope=scope, signed_by="s1", **changes
    )


@pytest.fixture
def hit(tmp_path):
    """A casebook with a head injury noted as if nothing were the matter."""
    with books.new_book(tmp_path / "club", builders.clock(TODAY)) as casebook:
        casebook.note(builders.athlete())
        of = builders.case(head_injury=True)
        cases.open_case(casebook, of, builders.stated(of, **FREE))
        yield casebook


def _answers(book):
    (row,) = squad_board(book, TODAY).rows
    return row.training, row.match


def test_a_head_injury_raises_a_red_flag_and_allows_nothing_whatever_was_typed(hit):
    (flag,) = _history(hit).open_red_flags
    assert (flag.urgency, flag.on) == (Urgency.SAME_DAY, day(0))
    assert "Head injury" in flag.what
    stated = _history(hit).last(AvailabilityStated)
    assert (stated.training, stated.match) == (Training.NONE, Match.NOT_AVAILABLE)


def test_a_head_injury_comes_back_by_two_signatures(hit):
    cases.close_red_flag(hit, _history(hit).open_red_flags[0], "Dr Imre Sato")
    free = builders.stated(_history(hit).case, 14, **FREE)
    cases.state_availability(hit, _history(hit), free)
    assert _answers(hit) == (Training.NONE, Match.NOT_AVAILABLE)
    cases.clear(hit, _history(hit), _clearance(Scope.TEAM_TRAINING))
    assert _answers(hit) == (Training.FULL, Match.NOT_AVAILABLE)
    cases.clear(hit, _history(hit), _clearance())
    assert _answers(hit) == (Training.FULL, Match.AVAILABLE)


def test_a_head_injury_ends_neither_without_a_signature_nor_by_half_a_match(hit):
    cases.close_red_flag(hit, _history(hit).open_red_flags[0], "Dr Imre Sato")
    with pytest.raises(RefusedError, match="sign a clearance for matches"):
        cases.close_case(hit, _history(hit), TODAY, Outcome.OTHER, why="feels fine")
    half = _clearance(Scope.MATCH_WITH_LIMIT, limit="second half only")
    with pytest.raises(RefusedError, match="team training or match"):
        cases.clear(hit, _history(hit), half)
    assert _history(hit).clearances == ()
    cases.close_case(hit, _history(hit), TODAY, Outcome.LEFT_CLUB, why="moved abroad")
