"""The rows of a team session: the squad, what is known of each today, what is saved."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from teamrehab.desktop.group.typed import GridRow, as_saved, attended, with_minutes
from teamrehab.domain.athletes import Athlete
from teamrehab.domain.days import Exposure
from teamrehab.domain.history import Squad, Standing
from teamrehab.exchange.attendance import AttendancePreview
from teamrehab.language import _
from teamrehab.reports.wording import absence_words


def rows_of(
    squad: Squad,
    on: date,
    saved: Sequence[Standing[Exposure]],
    before: Mapping[str, GridRow],
) -> list[GridRow]:
    """Return a row an athlete by number; what was typed in ``before`` stays typed."""
    stands = {fact.value.athlete_id: fact for fact in saved}
    return [
        _row(athlete, mark_of(squad, athlete, on), stands, before.get(athlete.athlete_id))
        for athlete in sorted(squad.athletes, key=_place)
        if athlete.in_squad(on) or athlete.athlete_id in stands
    ]


def mark_of(squad: Squad, athlete: Athlete, on: date) -> str:
    """Return what is known of an athlete on a day: in rehab, away and why, or nothing."""
    if squad.cases_of(athlete.athlete_id):
        return _("in rehab: see Evening")
    for away in squad.absences:
        covered = away.on <= on and (away.until is None or on <= away.until)
        if away.athlete_id == athlete.athlete_id and covered:
            return _("away: {why}").format(why=absence_words(away.reason, away.until))
    return ""


def pasted(row: GridRow, found: AttendancePreview, length: str) -> GridRow:
    """Return a row with what a pasted list says of its athlete."""
    said = next((one for one in found.rows if one.athlete == row.athlete), None)
    if said is None or said.says_nothing:
        return row
    if said.minutes is not None:
        row = with_minutes(replace(row, effort=""), str(said.minutes))
    else:
        row = attended(row, length)
    return row if said.effort is None else replace(row, effort=str(said.effort))


def _row(
    athlete: Athlete,
    mark: str,
    stands: Mapping[str, Standing[Exposure]],
    typed: GridRow | None,
) -> GridRow:
    saved = stands.get(athlete.athlete_id)
    if typed is not None and typed.touched:
        return replace(typed, athlete=athlete, mark=mark, saved=saved)
    return as_saved(GridRow(athlete=athlete, mark=mark, saved=saved))


def _place(athlete: Athlete) -> tuple[bool, int, str]:
    return athlete.number is None, athlete.number or 0, athlete.surname
