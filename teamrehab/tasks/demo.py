"""The demo squad: invented, dated so that today lies in its current week, never protected."""

import shutil
from dataclasses import replace
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any

from teamrehab.domain.athletes import Athlete, Team
from teamrehab.domain.days import Clock, Fixture, week_of
from teamrehab.language import _
from teamrehab.locations import DEMO_ROSTER
from teamrehab.records import (
    Casebook,
    CasebookOpenElsewhereError,
    RecordsError,
    create_casebook,
    is_protected,
    open_casebook,
    people_of,
)
from teamrehab.tasks import demo_files
from teamrehab.tasks.refusals import RefusedError
from teamrehab.tasks.writing import write_whole

_MARK = "demo.txt"
_OURS = {
    _MARK,
    "casebook.db",
    "casebook.db-wal",
    "casebook.db-shm",
    "casebook.lock",
    "keys",
    "backups",
}


def demo_folder() -> Path:
    """Return where the demo lies: in the program's own folder for data of this user."""
    from platformdirs import user_data_path

    return user_data_path("teamrehab", appauthor=False) / "demo"


def make_demo(folder: Path, clock: Clock) -> Casebook:
    """Return the demo of this week, open: made anew, or as it was left.

    A demo of another week, or made from other files, is replaced. Nothing but a demo made
    here is ever touched.

    Raises:
        RefusedError: the folder holds something else.
        CasebookOpenElsewhereError and other RecordsErrors: see the casebook's door.
    """
    monday = week_of(clock.today())[0]
    mark = _mark(monday)
    if _lies_there(folder):
        _insist_on_ours(folder)
        if _text_of(folder / _MARK) == mark:
            return open_casebook(folder, passphrase="", clock=clock)
        _remove(folder, clock)
    casebook = _made(folder, clock, monday)
    try:
        write_whole(folder / _MARK, mark.encode())
    except BaseException:
        casebook.close()
        raise
    return casebook


def _made(folder: Path, clock: Clock, monday: date) -> Casebook:
    team = replace(demo_files.TEAM, zone=clock.zone)
    founder, *others = demo_files.staff(DEMO_ROSTER)
    casebook = create_casebook(
        folder, team=team, founder=founder, passphrase="", clock=clock, protected=False
    )
    try:
        casebook.note(*others, *facts_for(monday, clock.today(), casebook.team))
    except BaseException:
        casebook.close()
        raise
    return casebook


def facts_for(monday: date, today: date, team: Team) -> list[Any]:
    """Return the demo's facts moved to the week of ``monday``; nothing after ``today``.

    Matches lie ahead all the same. Whole weeks keep every weekday; ages move along.
    """
    weeks = (monday - demo_files.ANCHOR) // timedelta(weeks=1)
    found = demo_files.moved(demo_files.facts(DEMO_ROSTER, team), weeks)
    return [fact for fact in found if isinstance(fact, Athlete | Fixture) or fact.on <= today]


def _lies_there(folder: Path) -> bool:
    return folder.exists() and (not folder.is_dir() or any(folder.iterdir()))


def _insist_on_ours(folder: Path) -> None:
    """Refuse a folder that is not a demo made here, or that holds anything besides it."""
    founder = demo_files.staff(DEMO_ROSTER)[0]
    if not (
        folder.is_dir()
        and not is_protected(folder)
        and people_of(folder) == (founder.name,)
        and {path.name for path in folder.iterdir()} <= _OURS
    ):
        sentence = _("{folder} holds something that is not the demo squad. It was not touched.")
        raise RefusedError(sentence.format(folder=folder))


def _remove(folder: Path, clock: Clock) -> None:
    """Remove an old demo, unless a window has it open."""
    try:
        open_casebook(folder, passphrase="", clock=clock).close()
    except CasebookOpenElsewhereError:
        raise
    except RecordsError:
        pass  # half-made or damaged: nothing in it is worth keeping
    shutil.rmtree(folder)


def _mark(monday: date) -> str:
    """Return the page that lies beside the demo: what it is, of which week and files."""
    digest = sha256()
    for path in sorted(DEMO_ROSTER.glob("*.csv")) + sorted(DEMO_ROSTER.glob("*.ics")):
        digest.update(path.read_bytes())
    return (
        "Demo: not protected. Every person, club and injury in this folder is invented.\n"
        "It is made anew every week; keep nothing of your own here.\n"
        f"week {monday.isoformat()} files {digest.hexdigest()[:16]}\n"
    )


def _text_of(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return ""
