"""The desk of one case of an evening: where its forms and tests are judged."""

from dataclasses import replace
from datetime import date

from teamrehab.desktop.athlete.asking import desk_for
from teamrehab.desktop.athlete.desk import Desk
from teamrehab.desktop.athlete.portrait import Portrait
from teamrehab.desktop.session import About
from teamrehab.protocols import injury_catalogue
from teamrehab.tasks.board import Board


def desk_on(board: Board, about: About, athlete_id: str, case_id: str) -> Desk | None:
    """Return the desk with a case on it, None if the athlete is gone."""
    row = next((row for row in board.rows if row.athlete_id == athlete_id), None)
    if row is None:
        return None
    portrait = Portrait(
        squad=board.squad,
        row=row,
        protocols=board.protocols,
        catalogue=injury_catalogue(),
        case_id=case_id,
    )
    return desk_for(portrait, about)


def dated(desk: Desk, day: date) -> Desk:
    """Return a desk on which the evening of ``day`` is entered, the next morning too."""
    return replace(desk, occasion=replace(desk.occasion, today=day))
