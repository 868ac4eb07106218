"""From a new casebook over an injury to the coach's sheet, by real keys and clicks.

One case is followed over three weeks; the clock is set, everything else is as in the
program: the window, the casebook with its passphrase, the file dialogs, the paper.
"""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from teamrehab.reports.findings import CoachSheet
from tests.builders import day
from tests.journeys import calf_case as case
from tests.journeys import sheet_on_paper as paper
from tests.journeys.physio import Physio

pytestmark = pytest.mark.qt_log_ignore("^This plugin does not support")
"""File dialogs offer names in a popup, which a screen that is none cannot raise."""

PASSPHRASE = "four words that nobody owns"
TEAM, NAME = "Harbour Rovers", "Ines Duarte"

ROSTER = """No,Surname,First name,Born
8,Okafor,Sam,2001-03-01
9,Silva,Rui,2000-02-31
10,Łukasik,Jan,2003-04-05
11,Haddad,Leïla,1999-12-24
"""

MATCHES = [day(number) for number in (5, 12, 19, 26, 33, 40)]


def calendar() -> bytes:
    """Return the matches as a calendar file."""
    events = "".join(
        f"BEGIN:VEVENT\r\nUID:m{n}\r\nDTSTART;TZID=Europe/Lisbon:{on:%Y%m%d}T150000\r\n"
        f"SUMMARY:{TEAM} v Opponent {n}\r\nEND:VEVENT\r\n"
        for n, on in enumerate(MATCHES)
    )
    return (
        f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x\r\n{events}END:VCALENDAR\r\n".encode()
    )


def makes_a_casebook_with_squad_and_matches(physio: Physio, folder: Path) -> None:
    physio.create(folder / "casebook", TEAM, NAME, PASSPHRASE)
    roster, season = folder / "roster.csv", folder / "season.ics"
    roster.write_text(ROSTER, encoding="utf-8")
    season.write_bytes(calendar())
    told = physio.take_in("roster", roster)
    assert len(told) == 1
    assert told[0].startswith("Line 3: Born: 2000-02-31")
    assert [(r.number, r.name) for r in physio.board.rows] == [
        (8, "Sam Okafor"),
        (10, "Jan Łukasik"),
        (11, "Leïla Haddad"),
    ]
    assert physio.take_in("fixtures", season) == []
    assert [match.on for match in physio.board.squad.fixtures] == MATCHES


def prints_the_sheet(physio: Physio, path: Path) -> CoachSheet:
    """Sign and save the coach's sheet; it says what the board says, and the paper says it."""
    sheet = physio.sign_and_save(NAME, path)
    paper.says_what_the_board_says(sheet, physio.board.rows)
    paper.holds_the_finding(path, sheet)
    return sheet


def nothing_readable_lies_in(folder: Path) -> None:
    """Hold that a locked casebook's files show no athlete and no clinical word."""
    words = [word.encode() for word in (*case.MARKERS, "Okafor", "Haddad", "soleus")]
    files = [path for path in folder.rglob("*") if path.is_file()]
    assert sum(path.stat().st_size for path in files) > 50_000
    for path in files:
        assert [word for word in words if word in path.read_bytes()] == []


def locks_and_finds_everything_again(physio: Physio, folder: Path) -> None:
    squad, rows, entries = physio.board.squad, physio.board.rows, physio.entries()
    seen = (physio.view.progress.path.as_text(), physio.view.likely.words())
    physio.lock()
    nothing_readable_lies_in(folder)
    is_told_of_a_wrong_passphrase(physio)
    physio.unlock(PASSPHRASE)
    physio.find("okaf")
    assert physio.board.squad is not squad
    assert physio.board.squad == squad
    assert physio.board.rows == rows
    assert physio.entries() == entries
    assert len(entries) == 8
    assert (physio.view.progress.path.as_text(), physio.view.likely.words()) == seen
    assert "Stage 4 of 5" in seen[0]


def is_told_of_a_wrong_passphrase(physio: Physio) -> None:
    page = physio.unlock_page
    physio.write(page.passphrase, "not these four words")
    physio.press(page.passphrase, Qt.Key.Key_Return)
    physio.until(lambda: "Wrong passphrase" in page.field.complaint)


def test_from_the_injury_to_the_coachs_sheet_and_back_after_locking(physio, tmp_path):
    makes_a_casebook_with_squad_and_matches(physio, tmp_path)
    case.notes_the_injury_in_a_hurry(physio)
    case.examines_two_days_later(physio)
    case.sees_a_range_and_opens_strength(physio)
    case.notes_an_illness_of_another(physio)
    first = prints_the_sheet(physio, tmp_path / "first.pdf")
    assert (first.number, first.replaces) == (1, None)
    assert [line.name for line in first.not_training] == ["Sam Okafor", "Leïla Haddad"]
    case.types_an_evening_with_slips(physio)
    case.opens_hopping_against_the_proposal(physio)
    case.opens_running_before_all_was_tested(physio)
    case.runs_and_is_given_limits(physio)
    second = prints_the_sheet(physio, tmp_path / "second.pdf")
    assert (second.number, second.replaces) == (2, 1)
    assert [line.name for line in second.with_limits] == ["Sam Okafor"]
    assert "Sam Okafor: training with limits (was none)" in second.changed
    locks_and_finds_everything_again(physio, tmp_path / "casebook")
    kept = repr(physio.board.squad)
    assert [marker for marker in case.MARKERS if marker in kept] == list(case.MARKERS)
    for name in ("first.pdf", "second.pdf"):
        paper.holds_nothing_clinical(tmp_path / name, case.MARKERS)
