"""One athlete's row of a team session as it is typed, key by key (pure)."""

from dataclasses import dataclass, replace
from datetime import date
from enum import Enum

from teamrehab.domain.athletes import Athlete
from teamrehab.domain.days import Exposure
from teamrehab.domain.history import Standing
from teamrehab.domain.load import session_load
from teamrehab.domain.plausibility import check
from teamrehab.language import _
from teamrehab.tasks.group import Occasion

_DIGITS_KEPT = 4
"""One more than any minutes have: too large a number is shown and named, not cut."""


class Cell(Enum):
    """The cells that are typed into."""

    THERE = "there"
    MINUTES = "minutes"
    EFFORT = "effort"


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRow:
    """What is typed about an athlete, over what is saved; ``there`` None: not entered.

    ``by_length``: the minutes are those of the session, because the athlete was seen there.
    """

    athlete: Athlete
    mark: str = ""
    saved: Standing[Exposure] | None = None
    there: bool | None = None
    minutes: str = ""
    effort: str = ""
    by_length: bool = False

    @property
    def touched(self) -> bool:
        """Return whether something is typed that is not what is saved."""
        was = as_saved(self)
        mine = (self.there, self.minutes, self.effort)
        return mine != (was.there, was.minutes, was.effort)

    @property
    def load(self) -> int | None:
        """Return effort x minutes of the row (J Strength Cond Res 2001;15:109)."""
        return session_load(_whole(self.effort), _whole(self.minutes))


def as_saved(row: GridRow) -> GridRow:
    """Return the row as it is in the casebook, nothing typed over it."""
    if row.saved is None:
        return replace(row, there=None, minutes="", effort="", by_length=False)
    value = row.saved.value
    return replace(
        row,
        there=value.minutes > 0,
        minutes=str(value.minutes),
        effort="" if value.effort is None else str(value.effort),
        by_length=False,
    )


def press(row: GridRow, cell: Cell, sign: str, length: str, *, first: bool) -> GridRow | None:
    """Return the row after a key, None where the key means nothing in this cell.

    ``first``: the first key in this cell, so that it replaces what stands there. Y and N are
    understood in every cell; + is an effort of 10.
    """
    if sign.casefold() in ("y", "n"):
        return attended(row, length) if sign.casefold() == "y" else absent(row)
    if cell is Cell.EFFORT and sign == "+":
        return with_effort(row, "10", length)
    if cell is Cell.THERE or not sign.isdecimal():
        return None
    before = "" if first else (row.minutes if cell is Cell.MINUTES else row.effort)
    typed = str(int((before + sign)[:_DIGITS_KEPT]))
    if cell is Cell.MINUTES:
        return with_minutes(row, typed)
    return with_effort(row, typed, length)


def attended(row: GridRow, length: str) -> GridRow:
    """Return the row of an athlete seen there, with the session's minutes if none are typed."""
    if row.minutes not in ("", "0"):
        return replace(row, there=True)
    return replace(row, there=True, minutes=length, by_length=True)


def absent(row: GridRow) -> GridRow:
    """Return the row of an athlete who was not there."""
    return replace(row, there=False, minutes="0", effort="", by_length=False)


def with_minutes(row: GridRow, typed: str) -> GridRow:
    """Return the row with minutes; 0 says that the athlete was not there."""
    unknown = True if row.effort else None
    there = int(typed) > 0 if typed else unknown
    return replace(row, minutes=typed, there=there, by_length=False)


def with_effort(row: GridRow, typed: str, length: str) -> GridRow:
    """Return the row with an effort, which says that the athlete was there."""
    return replace(attended(row, length), effort=typed)


def rubbed_out(row: GridRow, cell: Cell, *, all_of_it: bool) -> GridRow:
    """Return the row with the last digit of a cell taken away, or all of it."""
    if cell is Cell.THERE:
        return replace(row, there=None, minutes="", effort="", by_length=False)
    if cell is Cell.MINUTES:
        return with_minutes(row, "" if all_of_it else row.minutes[:-1])
    return replace(row, effort="" if all_of_it else row.effort[:-1])


def with_length(row: GridRow, length: str) -> GridRow:
    """Return the row under another length, where its minutes are those of the session."""
    return replace(row, minutes=length) if row.by_length else row


def exposure_of(row: GridRow, occasion: Occasion) -> Exposure | None:
    """Return what is to be saved of a row, None while its minutes are not known."""
    minutes = _whole(row.minutes)
    if minutes is None:
        return None
    return Exposure(
        athlete_id=row.athlete.athlete_id,
        on=occasion.on,
        match=occasion.match,
        minutes=minutes,
        effort=_whole(row.effort),
        session=occasion.session,
    )


def complaint(row: GridRow, occasion: Occasion, today: date) -> str:
    """Return what is wrong with a row that is typed, "" where it can be saved."""
    if not row.touched:
        return ""
    value = exposure_of(row, occasion)
    if value is not None and value.minutes == 0 and value.effort is not None:
        return _("An effort in 0 minutes: one of the two is wrong.")
    if value is not None:
        return " ".join(str(one) for one in check(value, today))
    if row.there:
        return _("Minutes are missing: type them here, or the length above.")
    return _("This was saved: type what is right, N for not there, or undo the save.")


def _whole(typed: str) -> int | None:
    return int(typed) if typed else None
