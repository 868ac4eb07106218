"""The coach's sheet as a value: who trains, with which limits, who is likely back when."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from teamrehab.domain.availability import Training
from teamrehab.domain.days import week_of
from teamrehab.domain.history import Squad
from teamrehab.domain.sheets import SheetIssued
from teamrehab.language import _
from teamrehab.reports.disclosure import (
    clinical_in_signature,
    disclosed_sentence,
    with_fit_opponents,
)
from teamrehab.reports.findings import CoachLine, CoachSheet, SquadRow
from teamrehab.reports.outlook import COMING_MATCHES, is_away, outlook
from teamrehab.reports.sheet_changes import changes, sheet_line
from teamrehab.reports.sheet_matches import match_answer, match_chances
from teamrehab.reports.wording import absence_words, match_day_words
from teamrehab.reports.wording_limits import may, may_not
from teamrehab.reports.wording_sheet import caution_words


def coach_sheet(
    squad: Squad,
    rows: Sequence[SquadRow],
    *,
    now: datetime,
    signed: str = "",
    number: int | None = None,
    last: SheetIssued | None = None,
) -> CoachSheet:
    """Return the sheet of the squad's day; ``now`` is the club's wall time.

    ``last`` is the sheet it replaces and is compared with, the squad's last one unless
    another is given; ``number`` counts on from it.
    """
    last = last or squad.last_sheet
    squad = with_fit_opponents(squad)
    week, matches = week_of(squad.day), squad.fixtures
    squad = _without_started(squad, now)
    due = [_past_update(row, now) for row in rows]
    rows = [_without_past_update(row, now) for row in rows]
    printed = {a.athlete_id: a.printed_name for a in squad.athletes}
    lines = [
        replace(_line(squad, row), printed_name=printed.get(row.athlete_id, ""), was_due=was)
        for row, was in zip(rows, due, strict=True)
    ]
    return CoachSheet(
        team=squad.team.name,
        week=(week[0], week[-1]),
        printed_at=now,
        valid_until=squad.day + timedelta(days=squad.settings.sheet_valid_days - 1),
        number=number or (last.number + 1 if last else 1),
        replaces=last.number if last else None,
        today=outlook(squad, rows),
        days=tuple((day, match_day_words(day, matches)) for day in week),
        compared_with=last.number if last else None,
        changed=changes(last, squad, rows) if last else (),
        decisions=_decisions(rows),
        with_limits=_group(rows, lines, Training.WITH_LIMITS),
        not_training=_group(rows, lines, Training.NONE),
        full=_group(rows, lines, Training.FULL),
        away=tuple(line for row, line in zip(rows, lines, strict=True) if is_away(row)),
        caution=caution_words(),
        signed=signed,
        signature_fit=not clinical_in_signature(squad, signed),
    )


def issued(sheet: CoachSheet, squad: Squad, rows: Sequence[SquadRow]) -> SheetIssued:
    """Return the fact that this sheet went out, with what it said of each athlete."""
    return SheetIssued(
        number=sheet.number,
        on=squad.day,
        signed=sheet.signed,
        lines=tuple(
            sheet_line(squad, _without_past_update(row, sheet.printed_at)) for row in rows
        ),
    )


def _group(
    rows: Sequence[SquadRow], lines: Sequence[CoachLine], training: Training
) -> tuple[CoachLine, ...]:
    return tuple(
        line
        for row, line in zip(rows, lines, strict=True)
        if row.training is training and not is_away(row)
    )


def _without_started(squad: Squad, now: datetime) -> Squad:
    """Return the squad with the coming matches only that have not begun.

    No further match takes the place of one that has: the chances were worked out for these.
    """
    coming = squad.coming(COMING_MATCHES)
    return replace(squad, fixtures=tuple(f for f in coming if not f.started(now)))


def _without_past_update(row: SquadRow, now: datetime) -> SquadRow:
    """Return the row without an update that was due before now: a coach cannot wait for it."""
    if _past_update(row, now) is None:
        return row
    return replace(row, availability=replace(row.availability, next_update=None))


def _past_update(row: SquadRow, now: datetime) -> datetime | None:
    """Return an update that was due before now, None where none was."""
    due = row.availability.next_update
    past = due is not None and due.replace(tzinfo=None) < now.replace(tzinfo=None)
    return due if past else None


def _decisions(rows: Sequence[SquadRow]) -> tuple[tuple[str, datetime], ...]:
    """Return whose next word from the medical staff comes when, soonest first."""
    updates = [(row.name, row.availability.next_update) for row in rows]
    coming = [(name, when) for name, when in updates if when is not None]
    return tuple(sorted(coming, key=lambda who: (who[1].replace(tzinfo=None), who[0])))


def _line(squad: Squad, row: SquadRow) -> CoachLine:
    there = row.availability
    line = CoachLine(
        number=row.number,
        name=row.name,
        training=row.training,
        match=row.match,
        until=there.until,
        match_words=match_answer(squad, row),
        next_update=there.next_update,
        reason=_reason(row),
        disclosed=disclosed_sentence(squad, row.athlete_id),
    )
    if row.training is Training.WITH_LIMITS:
        line = replace(line, may=may(there.limits), may_not=may_not(there.limits))
    return _with_range(replace(line, chances=match_chances(squad, row)), row)


def _with_range(line: CoachLine, row: SquadRow) -> CoachLine:
    """Add the likely return; a healthy athlete has none."""
    likely = row.likely
    if likely is None:
        return line
    return replace(
        line,
        not_before=likely.not_before,
        earliest=likely.earliest,
        latest=likely.latest,
        expected=likely.expected,
    )


def _reason(row: SquadRow) -> str:
    """Return "medical", or why a healthy athlete is away: the sheet knows no other reason."""
    there = row.availability
    if there.absence is not None and not there.medical:
        return absence_words(there.absence, there.until)
    return _("medical") if there.medical or row.likely is not None else ""
