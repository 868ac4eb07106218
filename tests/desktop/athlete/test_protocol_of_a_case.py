"""The protocol of a case is one word away from the case."""

from PySide6.QtCore import Qt

from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.protocol_page import ProtocolDialog
from teamrehab.domain.injuries import ProtocolChosen
from teamrehab.protocols import load_protocols
from tests.builders import day
from tests.desktop.athlete.conftest import IDS


def test_the_name_of_the_protocol_opens_its_text_with_the_present_stage_marked(qtbot, opened):
    view = opened.show("a1")
    assert view.progress.read.text() == "Protocol: Calf strain"
    view.progress.read.setFocus()
    qtbot.keyClick(view.progress.read, Qt.Key.Key_Space)
    dialog = opened.page.findChild(ProtocolDialog)
    assert dialog.protocol is load_protocols()["calf_strain"]
    assert "stage 2 of 5, Strength, is open." in dialog.reader.toPlainText()
    assert "Okafor" not in dialog.windowTitle() + dialog.reader.toPlainText()
    dialog.reject()


def test_a_healthy_athlete_has_no_protocol_to_open(opened):
    assert not opened.show("a2").progress.read.isVisible()


def test_a_page_that_is_covered_does_not_tell_which_protocol_its_case_follows(opened):
    opened.show("a1")
    assert opened.page.open_now() is not None
    opened.page.hide()
    assert opened.page.open_now() is None


def test_a_case_on_an_earlier_version_is_read_diagnosed_and_kept_on_it(qtbot, opened):
    opened.show("a1")
    first = ProtocolChosen(on=day(3), protocol="calf_strain", version="1", **IDS)
    opened.session.write(lambda book: book.note(first), "c1")
    qtbot.waitUntil(lambda: opened.page.open_now().version == "1")
    assert opened.page.portrait().protocol.version == "1"
    form = opened.ask(Act.DIAGNOSIS).form
    assert form.protocol.currentText() == "Calf strain, version 1"
    assert form.chosen_protocol is load_protocols()["calf_strain"].earlier[0]
