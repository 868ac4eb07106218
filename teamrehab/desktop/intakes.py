"""The kinds of file a person can take in: how each is read, shown and kept."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from teamrehab.desktop.row_table import Column
from teamrehab.domain.days import Fixture
from teamrehab.language import _, counted
from teamrehab.reports.wording import day_and_year

if TYPE_CHECKING:
    from teamrehab.records import Casebook
    from teamrehab.tasks.importing import TakenIn


@dataclass(frozen=True, slots=True, kw_only=True)
class Intake:
    """One kind of file.

    ``preview`` takes the casebook, the file, and whether the day comes first in a date
    written in figures (None: as the file itself shows); ``doubts`` says what to look at before
    ``take_in`` keeps a preview.
    """

    title: str
    choose: str
    files: str
    columns: tuple[Column[Any], ...]
    rows: Callable[[Any], Sequence[Any]]
    found: Callable[[int], str]
    preview: Callable[["Casebook", Path, bool | None], Any]
    doubts: Callable[[Any], Sequence[str]]
    take_in: Callable[["Casebook", Any], "TakenIn"]
    asks_date_order: bool = False


def roster_intake() -> Intake:
    """Return how a roster is taken in."""
    from teamrehab.tasks.importing import doubts_about_roster, preview_roster, take_in_roster

    return Intake(
        title=_("Import a roster"),
        choose=_("Choose the roster"),
        files=_("Rosters (*.csv *.xlsx)"),
        columns=(
            Column(key="number", title=lambda: _("No."), text=lambda a: _number(a.number)),
            Column(key="surname", title=lambda: _("Surname"), text=lambda a: a.surname),
            Column(key="first", title=lambda: _("First name"), text=lambda a: a.first_name),
            Column(key="born", title=lambda: _("Born"), text=_born),
            Column(key="position", title=lambda: _("Position"), text=lambda a: a.position),
        ),
        rows=lambda preview: preview.athletes,
        found=_athletes_found,
        preview=lambda casebook, file, day_first: preview_roster(
            file, casebook.clock.today(), day_first=day_first
        ),
        doubts=doubts_about_roster,
        take_in=take_in_roster,
        asks_date_order=True,
    )


def fixtures_intake() -> Intake:
    """Return how fixtures are taken in."""
    from teamrehab.tasks.importing import (
        doubts_about_fixtures,
        preview_fixtures,
        take_in_fixtures,
    )

    return Intake(
        title=_("Import fixtures"),
        choose=_("Choose the calendar"),
        files=_("Calendars (*.ics)"),
        columns=(
            Column(key="on", title=lambda: _("Day"), text=lambda f: day_and_year(f.on)),
            Column(key="time", title=lambda: _("Kick-off"), text=_kick_off),
            Column(key="opponent", title=lambda: _("Opponent"), text=lambda f: f.opponent),
            Column(key="home", title=lambda: _("Where"), text=_where),
        ),
        rows=lambda preview: preview.fixtures,
        found=_fixtures_found,
        preview=lambda casebook, file, _order: preview_fixtures(
            file, casebook.team, casebook.clock.today()
        ),
        doubts=doubts_about_fixtures,
        take_in=take_in_fixtures,
    )


def taken_in_words(done: "TakenIn") -> str:
    """Return what taking in a file did, in one sentence."""
    return _("Imported: {new} new, {changed} changed, {unchanged} as they were.").format(
        new=done.new, changed=done.changed, unchanged=done.unchanged
    )


def _number(number: int | None) -> str:
    return "" if number is None else str(number)


def _born(athlete: Any) -> str:
    return "" if athlete.born is None else athlete.born.isoformat()


def _kick_off(fixture: Fixture) -> str:
    return "" if fixture.kick_off is None else f"{fixture.kick_off:%H:%M}"


def _where(fixture: Fixture) -> str:
    return _("home") if fixture.home else _("away")


def _athletes_found(count: int) -> str:
    return counted(
        "{count} athlete can be imported.", "{count} athletes can be imported.", count
    )


def _fixtures_found(count: int) -> str:
    return counted("{count} match can be imported.", "{count} matches can be imported.", count)
