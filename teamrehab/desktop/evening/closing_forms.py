"""The forms that the closing page opens, filled with what the board knows."""

from datetime import date
from typing import Any

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.athlete.acts import asked_for
from teamrehab.desktop.athlete.desk import Asked, Desk, Save
from teamrehab.desktop.evening.closing_level_form import LevelForm
from teamrehab.desktop.evening.complaint_form import ComplaintForm
from teamrehab.desktop.evening.complaint_illness import AnyoneIllForm
from teamrehab.desktop.evening.desks import dated, desk_on
from teamrehab.desktop.evening.stop_form import stop_form
from teamrehab.desktop.session import About
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.history import History, Squad
from teamrehab.domain.levels import LevelProposal, level_proposals
from teamrehab.language import _
from teamrehab.protocols import body_areas
from teamrehab.reports.closing import Proposed, ProposedKind
from teamrehab.tasks import cases
from teamrehab.tasks.board import Board
from teamrehab.tasks.closing import move_level

_ACTS = {
    ProposedKind.STAGE: Act.MOVE,
    ProposedKind.AVAILABILITY: Act.AVAILABILITY,
    ProposedKind.SIGN_OFF: Act.CLEAR,
}


def desk_of(proposed: Proposed, board: Board, about: About, day: date) -> Desk | None:
    """Return the desk with the case of a proposal on it, None if the athlete is gone."""
    desk = desk_on(board, about, proposed.athlete_id, proposed.case_id)
    if desk is not None and proposed.kind in (ProposedKind.STAGE, ProposedKind.LEVEL):
        return dated(desk, day)  # what an evening opens counts from that evening
    return desk


def case_of(proposed: Proposed, squad: Squad) -> History | None:
    """Return the case of a proposal, None where it is not open any more."""
    cases = (h for h in squad.open_cases if h.case.case_id == proposed.case_id)
    return next(cases, None)


def form_about(proposed: Proposed, desk: Desk) -> Asked | None:
    """Return the form in which a person decides what a proposal is about.

    None where it is about a ladder that nobody worked at.
    """
    if proposed.stopped and proposed.moves and proposed.kind is ProposedKind.AVAILABILITY:
        return stop_form(desk)
    if proposed.kind is not ProposedKind.LEVEL:
        return asked_for(_ACTS[proposed.kind], desk)
    proposal = _ladder(proposed, desk)
    if proposal is None:
        return None
    form = LevelForm(desk.occasion, proposal)
    history = desk.history
    return Asked(form, lambda values: lambda book: move_level(book, history, values[0]))


def complaint(board: Board, day: date) -> Asked:
    """Return the form for a new complaint of anybody in the squad."""
    form = ComplaintForm(_athletes(board, day), _open(board), body_areas(), day, cases.new_id)
    return Asked(form, _opening)


def illness(board: Board, day: date) -> Asked:
    """Return the form for an illness of anybody in the squad."""
    form = AnyoneIllForm(_athletes(board, day), _open(board), day, cases.new_id)
    return Asked(form, _opening)


def _opening(values: tuple[Any, ...]) -> Save:
    return lambda book: cases.open_case(book, *values)


def _ladder(proposed: Proposed, desk: Desk) -> LevelProposal | None:
    """Return what is proposed for the ladder that a line is about."""
    protocol = desk.portrait.protocol
    if protocol is None:
        return None
    wanted = getattr(proposed.value, "ladder", None)
    for one in level_proposals(desk.history, protocol, desk.occasion.today):
        if one.ladder.key == wanted or (wanted is None and one.reason == proposed.reason):
            return one
    return None


def _athletes(board: Board, day: date) -> list[Athlete]:
    return [one for one in board.squad.athletes if one.in_squad(day)]


def _open(board: Board) -> dict[str, str]:
    return {
        row.athlete_id: _("{problem} {side}").format(problem=row.problem, side=row.side).strip()
        for row in board.rows
        if row.case_id
    }
