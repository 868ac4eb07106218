"""What changed since the last sheet, sentence by sentence: nothing clinical."""

from collections.abc import Sequence

from teamrehab.domain.sheets import SheetIssued, SheetLine
from teamrehab.language import _
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.wording import day_words, match_words, training_words, window_words
from teamrehab.reports.wording_limits import limits_words


def sheet_line(row: SquadRow) -> SheetLine:
    """Return what a sheet says of one athlete, to be compared with the next sheet."""
    return SheetLine(
        athlete_id=row.athlete_id,
        training=row.training,
        match=row.match,
        limits=limits_words(row.availability.limits),
        window=_window(row),
    )


def changes(last: SheetIssued, rows: Sequence[SquadRow]) -> tuple[str, ...]:
    """Return what changed since ``last``, athlete by athlete in the order of the rows."""
    before = {line.athlete_id: line for line in last.lines}
    said = (_changes_of(row, before.get(row.athlete_id)) for row in rows)
    return tuple(sentence for sentences in said for sentence in sentences)


def _window(row: SquadRow) -> str:
    """Return the likely return as the sheet remembers it: a decision, else the range."""
    likely = row.likely
    if likely is None:
        return ""
    if likely.not_before is not None:
        return _("not before {day}").format(day=day_words(likely.not_before))
    return window_words(likely.earliest, likely.latest)


def _changes_of(row: SquadRow, before: SheetLine | None) -> tuple[str, ...]:
    if before is None:
        return (_("{name}: new on the sheet").format(name=row.name),)
    now = sheet_line(row)
    found = (
        _training(row.name, before, now),
        _match(row.name, before, now),
        _limits(row.name, before, now),
        _return(row.name, before, now),
    )
    return tuple(sentence for sentence in found if sentence)


def _training(name: str, before: SheetLine, now: SheetLine) -> str:
    if now.training is before.training:
        return ""
    return _("{name}: training {now} (was {before})").format(
        name=name, now=training_words(now.training), before=training_words(before.training)
    )


def _match(name: str, before: SheetLine, now: SheetLine) -> str:
    if now.match is before.match:
        return ""
    return _("{name}: matches {now} (was {before})").format(
        name=name, now=match_words(now.match), before=match_words(before.match)
    )


def _limits(name: str, before: SheetLine, now: SheetLine) -> str:
    """Return changed limits; where limits came or went, training has said so already."""
    if now.limits == before.limits or not now.limits or not before.limits:
        return ""
    return _("{name}: now {now} (was {before})").format(
        name=name, now=now.limits, before=before.limits
    )


def _return(name: str, before: SheetLine, now: SheetLine) -> str:
    if now.window == before.window or not now.window:
        return ""
    if not before.window:
        return _("{name}: return {now}").format(name=name, now=now.window)
    return _("{name}: return {now} (was {before})").format(
        name=name, now=now.window, before=before.window
    )
