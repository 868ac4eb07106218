"""A protocol file is taken in from the window, and a case is moved to another version there."""

from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from teamrehab.desktop.protocol_acts import VersionDialog
from teamrehab.desktop.protocol_choice import OpenNow
from teamrehab.desktop.protocol_page import protocols_dialog
from teamrehab.desktop.session import Session
from teamrehab.domain.injuries import ProtocolChosen
from teamrehab.records import open_casebook
from teamrehab.tasks.board import own_protocols
from tests.builders import day
from tests.protocols.test_reading import SMALL
from tests.records.books import SECRET
from tests.tasks.evening_book import evening_book, ids


@pytest.fixture
def session(qtbot, tmp_path):
    with evening_book(tmp_path / "book") as book:
        book.note(ProtocolChosen(**ids(), on=day(3), protocol="calf_strain", version="1"))
        at = book.clock
    session = Session(lambda: open_casebook(tmp_path / "book", passphrase=SECRET, clock=at))
    qtbot.waitUntil(lambda: session.is_open)
    yield session
    with qtbot.waitSignal(session.closed):
        session.close()


@pytest.fixture
def page(qtbot, session):
    parent = QWidget()  # held here: what it holds goes with it
    qtbot.addWidget(parent)

    def show(open_now=None):
        dialog = protocols_dialog(open_now, parent, session)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, on=False)
        dialog.show()
        asked(qtbot, session, lambda book: None)
        return dialog

    return show


def asked(qtbot, session, question):
    answers: list[Any] = []
    session.ask(question, answers.append)
    qtbot.waitUntil(lambda: bool(answers))
    return answers[0]


def take_in(qtbot, session, dialog, path):
    dialog.file.take_in(path)
    qtbot.waitUntil(lambda: "Checking" not in dialog.notice.words)
    return dialog.notice.words


def test_a_file_taken_in_is_shown_and_listed_from_then_on(qtbot, session, page, tmp_path):
    path = tmp_path / "finger.toml"
    path.write_text(SMALL, encoding="utf-8")
    dialog = page()
    before = dialog.names.count()
    assert "was taken in" in take_in(qtbot, session, dialog, path)
    assert dialog.protocol.key == "finger"
    assert "Finger" in dialog.reader.toPlainText()
    assert dialog.names.count() == before + 1
    again = page()
    assert again.names.count() == before + 1


BAD = [
    ("a newer format", ("format = 1", "format = 2"), "format: 2 cannot stand here"),
    (
        "an unknown key",
        ("[[stage]]", 'reviwed_by = "x"\n[[stage]]'),
        "Did you mean reviewed_by",
    ),
    ("5 MB", ("format = 1", "#" * 5_000_000), "at most 1 MB"),
]


@pytest.mark.parametrize(("why", "change", "said"), BAD, ids=[row[0] for row in BAD])
def test_a_refused_file_says_why_over_the_text_and_changes_nothing(
    qtbot, session, page, tmp_path, why, change, said
):
    path = tmp_path / "finger.toml"
    path.write_text(SMALL.replace(change[0], change[1], 1), encoding="utf-8")
    dialog = page()
    before = dialog.names.count(), dialog.protocol
    words = take_in(qtbot, session, dialog, path)
    assert said in words
    assert "what was in force stays in force" in words
    assert (dialog.names.count(), dialog.protocol) == before
    assert asked(qtbot, session, own_protocols) == ()


def test_a_case_is_moved_after_a_look_at_what_changes_and_a_reason(qtbot, session, page):
    dialog = page(OpenNow("calf_strain", "1", 2, "c1"))
    assert dialog.protocol.version == "1"
    assert dialog.newer.text() == "&Move the case to version 2..."
    qtbot.keyClick(dialog.newer, Qt.Key.Key_Space)
    asking = dialog.findChild(VersionDialog)
    assert "newly asked for" in asking.changes.toPlainText()
    qtbot.mouseClick(asking.move_case, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "Type why" in asking.notice.words)
    qtbot.keyClicks(asking.why, "agreed with the doctor")
    with qtbot.waitSignal(dialog.accepted):
        qtbot.keyClick(asking.why, Qt.Key.Key_Return)
    known = asked(qtbot, session, lambda book: book.case("c1"))
    assert (known.protocol.version, known.stage) == ("2", 2)


def test_a_case_on_the_newest_version_is_offered_no_other(qtbot, session, page):
    now = OpenNow("calf_strain", "2", 2, "c1")
    assert page(now).newer.isHidden()
    assert page(replace(now, version="1", case_id="")).newer.isHidden()
    assert page().newer.isHidden()
