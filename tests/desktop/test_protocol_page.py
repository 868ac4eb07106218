"""The protocols are read in the window, by keys, as they stand in their files."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.appearance import Scheme
from teamrehab.desktop.colours import DARK, LIGHT
from teamrehab.desktop.protocol_choice import OpenNow
from teamrehab.desktop.protocol_page import ProtocolDialog
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.reports.protocol_text import protocol_text

PROTOCOLS, CATALOGUE = load_protocols(), injury_catalogue()
DOWN, ENTER, TAB = Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Tab


@pytest.fixture
def opened(qtbot):
    def open_it(open_now=None):
        dialog = ProtocolDialog(PROTOCOLS, CATALOGUE, open_now)
        qtbot.addWidget(dialog)
        with qtbot.waitActive(dialog):
            dialog.show()
            dialog.activateWindow()
        return dialog

    return open_it


def said(dialog):
    return dialog.reader.toPlainText().replace("\xa0", " ")


def parts(dialog):
    return [dialog.parts.item(row).text() for row in range(dialog.parts.count())]


def press(qtbot, *keys):
    for key in keys:
        qtbot.keyClick(QApplication.focusWidget(), key)


@pytest.mark.parametrize("row", range(len(PROTOCOLS)))
def test_down_goes_through_the_protocols_and_every_word_and_source_is_shown(qtbot, opened, row):
    dialog = opened()
    press(qtbot, *[DOWN] * row)
    protocol = list(PROTOCOLS.values())[row]
    shown = said(dialog)
    for section in protocol_text(protocol, CATALOGUE):
        assert section.heading in shown
        for line in section.lines:
            assert line.text in shown
            assert line.source in shown
    assert ("A starter: review before use." in shown) is protocol.starter
    assert ("(starter)" in dialog.names.currentItem().text()) is protocol.starter


def test_what_to_heed_stands_before_every_stage_and_ladder(opened):
    heads = parts(opened())
    flags = max(n for n, head in enumerate(heads) if head.startswith("Red flags"))
    rest = [n for n, head in enumerate(heads) if head.startswith(("Stage", "Ladder"))]
    assert heads[1] == "Bear in mind"
    assert flags < min(rest)


def test_the_levels_of_a_ladder_are_numbered_steps(opened):
    shown = said(opened(OpenNow("calf_strain", "1", 3)))
    steps = shown.split("Ladder: Straight-knee raise")[1].split("Ladder:")[0].split("\n")
    numbers = [line for line in steps if line in {"1.", "2.", "3.", "4.", "5."}]
    assert numbers == ["1.", "2.", "3.", "4."]


def test_the_stage_of_the_case_is_marked_in_the_list_and_in_the_text(opened):
    dialog = opened(OpenNow("calf_strain", PROTOCOLS["calf_strain"].version, 3))
    marked = [part for part in parts(dialog) if "open now" in part]
    assert marked == ["Stage 3 of 5: Hop and jump, open now"]
    assert said(dialog).count("open now") == 1
    assert "stage 3 of 5, Hop and jump, is open." in said(dialog)
    assert "started with version" not in said(dialog)


def test_another_protocol_than_the_one_of_the_case_marks_nothing(qtbot, opened):
    dialog = opened(OpenNow("calf_strain", "1", 3))
    dialog.names.setFocus()
    press(qtbot, DOWN)
    assert dialog.protocol.key != "calf_strain"
    assert "open now" not in said(dialog)
    assert "The case you came from" not in said(dialog)


def test_a_case_started_with_another_version_is_told_so(opened):
    version = PROTOCOLS["calf_strain"].version
    shown = said(opened(OpenNow("calf_strain", "0", 1)))
    assert f"It was started with version 0; this is version {version}." in shown


def test_a_protocol_that_is_not_at_hand_leaves_the_first_one_unmarked(opened):
    dialog = opened(OpenNow("wrist", "1", 2))
    assert dialog.protocol is next(iter(PROTOCOLS.values()))
    assert "open now" not in said(dialog)


def test_a_section_chosen_by_key_comes_into_sight_and_enter_reads_on(qtbot, opened):
    dialog = opened(OpenNow("calf_strain", "1", 3))
    bar = dialog.reader.verticalScrollBar()
    assert bar.value() == 0
    press(qtbot, *[DOWN] * 7)
    assert "open now" in dialog.parts.currentItem().text()
    top = dialog.reader.cursorForPosition(dialog.reader.viewport().rect().topLeft())
    assert bar.value() > 0
    top.movePosition(top.MoveOperation.Down, n=2)
    assert "Stage 3 of 5" in said(dialog)[max(top.position() - 200, 0) : top.position() + 80]
    press(qtbot, ENTER)
    assert dialog.reader.hasFocus()


def test_a_letter_typed_over_the_text_begins_a_search_and_enter_goes_on(qtbot, opened):
    dialog = opened(OpenNow("calf_strain", "1", 3))
    dialog.reader.setFocus()
    press(qtbot, "s")
    assert dialog.wanted.hasFocus()
    qtbot.keyClicks(dialog.wanted, "oleus")
    first = dialog.reader.textCursor()
    assert first.selectedText() == "Soleus"
    press(qtbot, ENTER)
    assert dialog.reader.textCursor().position() > first.position()
    assert dialog.found.text() == ""
    qtbot.keyClicks(dialog.wanted, "x")
    assert dialog.found.text() == "Not in this protocol."


def test_a_search_begins_again_after_the_last_place(qtbot, opened):
    dialog = opened(OpenNow("calf_strain", "1", 3))
    qtbot.keyClick(dialog, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(QApplication.focusWidget(), "Watched for")
    only = dialog.reader.textCursor().position()
    press(qtbot, ENTER)
    assert dialog.reader.textCursor().position() == only
    assert dialog.reader.textCursor().selectedText() == "Watched for"


def test_the_text_is_copied_by_keys(qtbot, opened):
    dialog = opened()
    dialog.reader.setFocus()
    for key in (Qt.Key.Key_A, Qt.Key.Key_C):
        qtbot.keyClick(dialog.reader, key, Qt.KeyboardModifier.ControlModifier)
    assert dialog.protocol.cautions[0] in QApplication.clipboard().text()
    QApplication.clipboard().clear()


def test_what_is_heeded_is_coloured_for_light_and_for_dark(opened, appearance):
    dialog = opened()
    assert LIGHT.alarm in dialog.reader.toHtml()
    appearance.choose(Scheme.DARK)
    assert DARK.alarm in dialog.reader.toHtml()
    assert LIGHT.alarm not in dialog.reader.toHtml()


def test_escape_closes_it_from_every_place(qtbot, opened):
    dialog = opened()
    for _turn in range(4):
        press(qtbot, TAB)
        assert QApplication.focusWidget() is not None
    with qtbot.waitSignal(dialog.finished):
        press(qtbot, Qt.Key.Key_Escape)


def test_control_shift_p_opens_the_protocols_of_an_open_casebook(qtbot, unlocked):
    with qtbot.waitActive(unlocked):
        unlocked.activateWindow()
    keys = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(unlocked, Qt.Key.Key_P, keys)
    dialog = unlocked.findChild(ProtocolDialog)
    assert dialog.isVisible()
    assert "open now" not in said(dialog)
    assert dialog.windowTitle() == "Protocols"
    dialog.reject()
