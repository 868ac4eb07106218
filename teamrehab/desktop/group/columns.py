"""The columns of the team session's grid."""

from collections.abc import Callable
from datetime import datetime
from zoneinfo import ZoneInfo

from teamrehab.desktop.group.typed import Cell, GridRow
from teamrehab.desktop.row_table import Column
from teamrehab.language import _
from teamrehab.reports.wording import hour_words

WIDTHS = {
    "number": 5,
    "name": 26,
    Cell.THERE.value: 9,
    Cell.MINUTES.value: 10,
    Cell.EFFORT.value: 9,
    "load": 8,
    "mark": 30,
    "state": 30,
}
"""Width of each column in characters; the last takes what is left."""

TYPED = tuple(cell.value for cell in Cell)
"""The columns that are typed into."""


def grid_columns(complaint: Callable[[GridRow], str], zone: str) -> list[Column[GridRow]]:
    """Return the columns; ``complaint`` says what is wrong with a row that is typed."""
    return [*_who(), *_typed(), *_told(complaint, zone)]


def _who() -> list[Column[GridRow]]:
    return [
        Column(
            key="number",
            title=lambda: _("No."),
            text=lambda row: "" if row.athlete.number is None else str(row.athlete.number),
            number=True,
        ),
        Column(key="name", title=lambda: _("Athlete"), text=lambda row: row.athlete.name),
    ]


def _typed() -> list[Column[GridRow]]:
    return [
        Column(
            key=Cell.THERE.value,
            title=lambda: _("There"),
            text=_there_words,
            spoken=lambda row: _there_words(row) or _("not entered"),
        ),
        Column(
            key=Cell.MINUTES.value,
            title=lambda: _("Minutes"),
            text=lambda row: row.minutes,
            spoken=lambda row: row.minutes or _("not entered"),
            number=True,
        ),
        Column(
            key=Cell.EFFORT.value,
            title=lambda: _("Effort"),
            text=lambda row: row.effort,
            spoken=lambda row: row.effort or _("not entered"),
            number=True,
            help=lambda: _("RPE 0 to 10, as the athlete says"),
        ),
    ]


def _told(complaint: Callable[[GridRow], str], zone: str) -> list[Column[GridRow]]:
    return [
        Column(
            key="load",
            title=lambda: _("Load"),
            text=lambda row: "" if row.load is None or complaint(row) else str(row.load),
            number=True,
            help=_load_help,
        ),
        Column(key="mark", title=lambda: _("Known of today"), text=lambda row: row.mark),
        Column(
            key="state",
            title=lambda: _("In the casebook"),
            text=lambda row: complaint(row) or state_words(row, zone),
        ),
    ]


def state_words(row: GridRow, zone: str) -> str:
    """Return whether a row is entered, typed, or saved and when."""
    if row.touched and row.saved is not None:
        was = row.saved.value.minutes
        return _("typed over {minutes} min, not saved yet").format(minutes=was)
    if row.touched:
        return _("typed, not saved yet")
    if row.saved is None:
        return _("not entered")
    if row.saved.versions > 1:
        return _("two versions: type what is right")
    hour = hour_words(_local(row.saved.noted_at, zone))
    if row.saved.corrected:
        return _("corrected at {hour}").format(hour=hour)
    return _("✓ saved at {hour}").format(hour=hour)


def _local(instant: datetime, zone: str) -> datetime:
    return instant.astimezone(ZoneInfo(zone))


def _there_words(row: GridRow) -> str:
    return {True: _("yes"), False: _("no"), None: ""}[row.there]


def _load_help() -> str:
    return _("Effort x minutes, in arbitrary units (J Strength Cond Res 2001;15:109)")
