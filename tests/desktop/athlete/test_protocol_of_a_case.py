"""The protocol of a case is one word away from the case."""

from PySide6.QtCore import Qt

from teamrehab.desktop.protocol_page import ProtocolDialog
from teamrehab.protocols import load_protocols


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
