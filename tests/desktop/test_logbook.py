"""The log: an allow-list, so that nothing written about anybody can reach it."""

import dataclasses
import logging
from datetime import UTC, date, datetime
from enum import Enum
from typing import Any

import pytest
from PySide6.QtWidgets import QApplication

from teamrehab.desktop import logbook
from teamrehab.desktop.logbook import (
    Event,
    close_logbook,
    open_logbook,
    places,
    write,
    write_error,
)
from teamrehab.desktop.trouble import describe
from teamrehab.domain import athletes, availability, injuries, measures, sheets

MARKER = "Zqxmarker"


@pytest.fixture
def folder(tmp_path):
    deaths = open_logbook(tmp_path / "log")
    yield tmp_path / "log"
    close_logbook(deaths)


def written(folder):
    return "".join(file.read_text(encoding="utf-8") for file in folder.iterdir())


def marked(kind: type[Any]) -> Any:
    """A value of a domain class with the marker in every text it holds."""
    values = {field.name: _filling(field) for field in dataclasses.fields(kind)}
    return kind(**{name: value for name, value in values.items() if value is not None})


def _filling(field: dataclasses.Field[Any]) -> Any:
    kind: Any = field.type
    if kind is str:
        return MARKER
    if field.default is not dataclasses.MISSING:
        return None
    days = {date: date(2026, 10, 5), datetime: datetime(2026, 10, 5, tzinfo=UTC)}
    chosen = isinstance(kind, type) and issubclass(kind, Enum)
    return next(iter(kind)) if chosen else days.get(kind, 1)


KINDS = [
    kind
    for module in (athletes, injuries, measures, availability, sheets)
    for kind in vars(module).values()
    if dataclasses.is_dataclass(kind)
    and isinstance(kind, type)
    and kind.__module__ == module.__name__
]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_no_field_of_any_value_reaches_the_log_whatever_way_it_is_tried(folder, kind):
    value = marked(kind)
    assert MARKER in repr(value) or not any(f.type is str for f in dataclasses.fields(kind))
    error = ValueError(value, MARKER)
    write_error(Event.MISTAKE, error)
    logging.getLogger("teamrehab").error("%s %s", MARKER, value, exc_info=error)
    logging.getLogger("sqlalchemy.engine").error("INSERT %r", value)
    forged = {"event": MARKER, "told_kind": f"{MARKER} {MARKER}"}
    logging.getLogger(MARKER).error(MARKER, extra=forged)
    for name in logbook._ALLOWED:
        write(Event.SAVED, logging.INFO, **{name: repr(value)})
        write(Event.SAVED, logging.INFO, **{name: f"{MARKER} {MARKER}"})
    write(Event.SAVED, passphrase=MARKER, athlete=MARKER)
    lines = written(folder)
    assert MARKER not in lines
    assert lines.count("saved") == 2 * len(logbook._ALLOWED) + 1


def test_what_is_allowed_is_written(folder):
    write(Event.OPENED, count=12, seconds=0.25, version="0.1.0")
    write(Event.SAVED, fact="0190f5fe-7c00-7a00-8abc-0123456789ab", kind="HeelRaiseTest")
    lines = written(folder)
    assert "INFO opened version=0.1.0 count=12 seconds=0.25" in lines
    assert "saved kind=HeelRaiseTest fact=0190f5fe-7c00-7a00-8abc-0123456789ab" in lines


def test_an_error_is_logged_by_class_and_place(folder):
    with pytest.raises(KeyError) as caught:
        _ = {"a": MARKER}["b"]
    write_error(Event.MISTAKE, caught.value)
    assert places(caught.value) == f"test_logbook.py:{caught.tb.tb_lineno}"
    assert f"mistake kind=KeyError place={places(caught.value)}" in written(folder)


def test_the_log_stays_small(folder):
    for _ in range(30_000):
        write(Event.SAVED, count=1)
    files = list(folder.glob("teamrehab.log*"))
    assert len(files) == logbook.OLD_FILES + 1
    assert all(file.stat().st_size <= logbook.BYTES for file in files)


def test_without_a_place_to_write_the_program_goes_on(tmp_path):
    (tmp_path / "file").write_text("in the way")
    assert open_logbook(tmp_path / "file") is None
    write(Event.STARTED)


def test_an_evening_with_a_marker_in_names_and_faults_leaves_it_nowhere(
    qtbot, unlocked, tmp_path
):
    deaths = open_logbook(tmp_path / "log")
    marked_one = athletes.Athlete(athlete_id="a9", surname=MARKER, first_name=MARKER)
    unlocked.session.write(lambda book: book.note(marked_one), "")
    board = unlocked.workplace.boards
    qtbot.waitUntil(lambda: MARKER in {row.surname for row in board.board.rows})
    unlocked.workplace.show_athlete("a9")

    def fail(book):
        raise ValueError(MARKER, book.all_of(athletes.Athlete))

    with qtbot.captureExceptions() as ours:
        unlocked.session.ask(fail, print)
        qtbot.waitUntil(lambda: bool(ours))
    assert MARKER not in describe(ours[0][1])
    assert MARKER not in "".join(w.windowTitle() for w in QApplication.topLevelWidgets())
    unlocked.do("lock")
    qtbot.waitUntil(lambda: unlocked.session is None)
    close_logbook(deaths)
    assert "refused kind=ValueError" in written(tmp_path / "log")
    files = [file for file in tmp_path.rglob("*") if file.is_file()]
    assert len(files) > 5
    assert [file for file in files if MARKER.encode() in file.read_bytes()] == []
