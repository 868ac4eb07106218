"""Take in a roster or a fixture list: look first, then everything in one transaction."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

from teamrehab.domain.athletes import Athlete, Team
from teamrehab.domain.days import Fixture
from teamrehab.exchange.fixtures import FixturesPreview
from teamrehab.exchange.fixtures import preview_fixtures as _fixtures_in
from teamrehab.exchange.headings import plain
from teamrehab.exchange.problems import UnreadableFileError
from teamrehab.exchange.roster import RosterPreview, who
from teamrehab.exchange.roster import preview_roster as _roster_in
from teamrehab.language import counted
from teamrehab.records import Casebook, Receipt
from teamrehab.reports.disclosure import check_free_words
from teamrehab.tasks.cases import new_id
from teamrehab.tasks.refusals import RefusedError

P = TypeVar("P")


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """What taking in a file did: how many were new, changed, and stood already.

    ``receipt`` is None where there was nothing to write.
    """

    new: int
    changed: int
    unchanged: int
    receipt: Receipt | None = None


def preview_roster(path: Path, today: date, *, day_first: bool | None = None) -> RosterPreview:
    """Return what a CSV or XLSX roster holds; raise RefusedError if it cannot be read."""
    return _readable(lambda: _roster_in(path, today, day_first=day_first))


def preview_fixtures(path: Path, team: Team, today: date) -> FixturesPreview:
    """Return what an iCalendar file holds; raise RefusedError if it cannot be read."""
    return _readable(lambda: _fixtures_in(path, team, today, unfit=check_free_words))


def doubts_about_roster(preview: RosterPreview) -> tuple[str, ...]:
    """Return what is to be looked at before a roster is kept: unread columns, equal numbers."""
    unread = preview.not_recognised
    said = [str(one) for one in preview.doubtful]
    if unread:
        words = counted(
            "The column {{names}} was not recognised and is not read.",
            "{count} columns were not recognised and are not read: {{names}}.",
            len(unread),
        )
        said.insert(0, words.format(names=", ".join(unread)))
    return tuple(said)


def doubts_about_fixtures(preview: FixturesPreview) -> tuple[str, ...]:
    """Return how many matches a calendar holds that are too far away to be kept."""
    if not preview.outside:
        return ()
    return (
        counted(
            "{count} match is more than a year away and is not read.",
            "{count} matches are more than a year away and are not read.",
            preview.outside,
        ),
    )


def _readable(read: Callable[[], P]) -> P:
    try:
        return read()
    except UnreadableFileError as refusal:
        raise RefusedError(str(refusal)) from refusal


def take_in_roster(casebook: Casebook, preview: RosterPreview) -> TakenIn:
    """Note the athletes of a roster; who is known already is updated, nobody is doubled.

    Known is who has the same name and birth date, or the same number and surname and no
    other birth date. A cell left empty in the file takes nothing away.
    """
    known = [standing.value for standing in casebook.all_of(Athlete)]
    found = [(_known(athlete, known), athlete) for athlete in preview.athletes]
    rows = Counter(old.athlete_id for old, _new in found if old is not None)
    return _noted(
        casebook,
        [
            (old, _merged(old, new))
            if old is not None and (rows[old.athlete_id] == 1 or who(old) == who(new))
            else (None, _merged(None, new))
            for old, new in found
        ],
    )


def take_in_fixtures(casebook: Casebook, preview: FixturesPreview) -> TakenIn:
    """Note the matches of a calendar; one known by its id changes unless the file is older."""
    known = {s.value.fixture_id: s.value for s in casebook.all_of(Fixture)}
    after = []
    for match in preview.fixtures:
        old = known.get(match.fixture_id)
        older = old is not None and match.revision < old.revision
        after.append((old, old if old is not None and older else match))
    return _noted(casebook, after)


def _noted(casebook: Casebook, after: Sequence[tuple[Any, Any]]) -> TakenIn:
    """Write what is not as it was, all in one transaction."""
    changes = [new for old, new in after if new != old]
    added = sum(old is None for old, _new in after)
    return TakenIn(
        new=added,
        changed=len(changes) - added,
        unchanged=len(after) - len(changes),
        receipt=casebook.note(*changes) if changes else None,
    )


def _known(athlete: Athlete, known: Sequence[Athlete]) -> Athlete | None:
    """Return the athlete of the squad a row of a roster is about, None for a new one."""
    same = [old for old in known if who(old) == who(athlete)]
    if same:
        return same[0]
    alike = [old for old in known if _same_shirt(old, athlete)]
    return alike[0] if len(alike) == 1 else None


def _same_shirt(old: Athlete, new: Athlete) -> bool:
    other_person = None not in (old.born, new.born) and old.born != new.born
    same = old.number == new.number and plain(old.surname) == plain(new.surname)
    return new.number is not None and same and not other_person


def _merged(old: Athlete | None, new: Athlete) -> Athlete:
    if old is None:
        return replace(new, athlete_id=new_id())
    given = {f.name: getattr(new, f.name) for f in fields(new) if f.name != "athlete_id"}
    return replace(
        old, **{key: value for key, value in given.items() if value not in (None, "")}
    )
