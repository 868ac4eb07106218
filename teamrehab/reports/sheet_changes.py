"""What changed since the last sheet, sentence by sentence: nothing clinical."""

from collections.abc import Sequence

from teamrehab.domain.availability import Match
from teamrehab.domain.history import Squad
from teamrehab.domain.sheets import SheetIssued, SheetLine
from teamrehab.language import _, counted
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.sheet_matches import match_answer
from teamrehab.reports.wording import assessed_words, match_words, training_words, window_words
from teamrehab.reports.wording_limits import limits_words
from teamrehab.reports.wording_sheet import expected_words, not_before_words


def sheet_line(squad: Squad, row: SquadRow) -> SheetLine:
    """Return what a sheet says of one athlete, to be compared with the next sheet."""
    return SheetLine(
        athlete_id=row.athlete_id,
        training=row.training,
        match=row.match,
        limits=limits_words(row.availability.limits),
        window=_window(row),
        match_words=match_answer(squad, row),
    )


def changes(last: SheetIssued, squad: Squad, rows: Sequence[SquadRow]) -> tuple[str, ...]:
    """Return what changed since ``last``: athlete by athlete as in the rows, then who left."""
    before = {line.athlete_id: line for line in last.lines}
    now = {row.athlete_id: sheet_line(squad, row) for row in rows}
    said = [
        sentence
        for row in rows
        for sentence in _changes_of(row.name, before.get(row.athlete_id), now[row.athlete_id])
    ]
    return (*said, *_gone(squad, [one for one in before if one not in now]))


def _gone(squad: Squad, gone: Sequence[str]) -> list[str]:
    """Return who stood on the last sheet and is in the squad no more, by name if known."""
    names = {a.athlete_id: a.printed_name or a.name for a in squad.former}
    said = [
        _("{name}: no longer in the squad").format(name=names[one])
        for one in gone
        if one in names
    ]
    nameless = len(gone) - len(said)
    if nameless:
        sentence = counted(
            "{count} athlete of the last sheet is no longer in the squad",
            "{count} athletes of the last sheet are no longer in the squad",
            nameless,
        )
        said.append(sentence)
    return said


def _window(row: SquadRow) -> str:
    """Return the likely return as the sheet remembers it: what persons said, else the range.

    An opinion stands beside the range on the sheet, so both are remembered.
    """
    likely = row.likely
    if likely is None:
        return ""
    decided, expected = not_before_words(likely.not_before), expected_words(likely.expected)
    window = "" if decided else window_words(likely.earliest, likely.latest)
    return "; ".join(part for part in (decided, expected, window) if part)


def _changes_of(name: str, before: SheetLine | None, now: SheetLine) -> tuple[str, ...]:
    if before is None:
        return (_("{name}: new on the sheet").format(name=name),)
    found = (
        _training(name, before, now),
        _match(name, before, now),
        _limits(name, before, now),
        _return(name, before, now),
    )
    return tuple(sentence for sentence in found if sentence)


def _training(name: str, before: SheetLine, now: SheetLine) -> str:
    if now.training is before.training:
        return ""
    return _("{name}: training {now} (was {before})").format(
        name=name, now=training_words(now.training), before=training_words(before.training)
    )


def _match(name: str, before: SheetLine, now: SheetLine) -> str:
    """Return a changed answer, minutes and role included where the last sheet kept them."""
    known = before.match_words or now.match_words
    if now.match is before.match and now.match_words == known:
        return ""
    return _("{name}: matches {now} (was {before})").format(
        name=name, now=now.match_words, before=before.match_words or match_words(before.match)
    )


def _limits(name: str, before: SheetLine, now: SheetLine) -> str:
    """Return changed limits; where limits came or went, training has said so already."""
    if now.limits == before.limits or not now.limits or not before.limits:
        return ""
    return _("{name}: now {now} (was {before})").format(
        name=name, now=now.limits, before=before.limits
    )


def _return(name: str, before: SheetLine, now: SheetLine) -> str:
    if now.window == before.window:
        return ""
    if not now.window:
        return _taken_back(name, before, now)
    if not before.window:
        return _("{name}: return {now}").format(name=name, now=now.window)
    return _("{name}: return {now} (was {before})").format(
        name=name, now=now.window, before=before.window
    )


def _taken_back(name: str, before: SheetLine, now: SheetLine) -> str:
    """Return that nothing is foreseen any more of who does not play; who plays needs none."""
    if now.match in {Match.AVAILABLE, Match.LIMITED}:
        return ""
    return _("{name}: return {now} (was {before})").format(
        name=name, now=assessed_words(None), before=before.window
    )
