"""Once a week the casebook is checked beside the saves; only trouble is told."""

from datetime import timedelta

import pytest

from teamrehab.desktop.session import Session
from teamrehab.desktop.weekly_check import WeeklyCheck
from teamrehab.records import open_casebook
from tests.builders import clock, day
from tests.desktop.conftest import PASSPHRASE


@pytest.fixture
def checking(qtbot, casebook_folder):
    """A session over a real casebook, and its weekly check."""
    opened = open_casebook(casebook_folder, passphrase=PASSPHRASE, clock=clock(day(3)))
    session = Session(lambda: opened)
    qtbot.waitUntil(lambda: session.is_open)
    yield session, WeeklyCheck(session, session)
    session.finish()


def due(qtbot, session, today):
    """Whether a check is due."""
    answers: list[bool] = []
    session.ask(lambda book: book.check_due(today), answers.append)
    qtbot.waitUntil(lambda: bool(answers))
    return answers[0]


def test_a_sound_casebook_is_checked_once_and_is_due_again_after_a_week(qtbot, checking):
    session, check = checking
    told: list[str] = []
    check.troubled.connect(told.append)
    assert due(qtbot, session, day(3))
    check.begin()
    qtbot.waitUntil(lambda: not due(qtbot, session, day(3)))
    assert told == []
    assert not due(qtbot, session, day(3) + timedelta(days=6))
    assert due(qtbot, session, day(3) + timedelta(days=7))


def test_what_a_check_finds_is_told_and_it_stays_due(qtbot, checking, monkeypatch):
    session, check = checking

    def broken(_store):
        from teamrehab.records.checking import CasebookCheck

        return CasebookCheck(
            facts=3, devices=1, erased=0, unreadable=0, troubles=("An entry was changed.",)
        )

    monkeypatch.setattr("teamrehab.records.checking.check_aside", broken)
    with qtbot.waitSignal(check.troubled) as told:
        check.begin()
    assert told.args == ["An entry was changed."]
    assert due(qtbot, session, day(3))
