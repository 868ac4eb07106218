"""The coach's sheet before it goes out, over a real casebook and real files."""

import threading
from typing import Any

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtPrintSupport import QPrinter

from teamrehab.desktop.entry.dialog import FormDialog
from teamrehab.desktop.session import Session
from teamrehab.desktop.sheet import page
from teamrehab.desktop.sheet.drawing import Drawn, draw
from teamrehab.desktop.sheet.page import SheetDialog
from teamrehab.desktop.sheet.printing import new_printer, print_pages
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.measures import SessionEntry, SessionKind, Symptom
from teamrehab.domain.sheets import Disclosed, SheetIssued
from teamrehab.records import Cost, create_casebook, open_casebook
from teamrehab.tasks import sheets
from teamrehab.tasks.board import squad_board
from tests.builders import athlete, case, clock, day

TODAY = day(20)
PASSPHRASE = "four words that nobody owns"


@pytest.fixture
def session(qtbot, tmp_path):
    """A casebook with two athletes, one of them out, open in a session."""
    folder = tmp_path / "harbour-rovers"
    with create_casebook(
        folder,
        team=Team(name="Harbour Rovers"),
        founder=StaffMember(staff_id="s1", name="Ines Duarte"),
        passphrase=PASSPHRASE,
        clock=clock(TODAY),
        cost=Cost(memory_kib=64, passes=1, lanes=1),
    ) as book:
        book.note(athlete(), athlete(athlete_id="a2", surname="Silva", number=9))
        ids: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1"}
        out: dict[str, Any] = {"training": Training.NONE, "match": Match.NOT_AVAILABLE}
        book.note(case(what="felt the calf go"), AvailabilityStated(on=day(0), **ids, **out))
    opening = Session(lambda: open_casebook(folder, passphrase=PASSPHRASE, clock=clock(TODAY)))
    qtbot.waitUntil(lambda: opening.is_open)
    yield opening
    opening.finish()


@pytest.fixture
def open_sheet(qtbot, session):
    """Opens the dialog as the program does, and waits for its preview."""

    def opened():
        boards: list[Any] = []
        session.ask(lambda book: squad_board(book, TODAY), boards.append)
        qtbot.waitUntil(lambda: bool(boards))
        dialog = SheetDialog(session, boards[0])
        qtbot.addWidget(dialog)
        dialog.show()
        qtbot.waitUntil(lambda: dialog.sheet is not None)
        return dialog

    return opened


@pytest.fixture
def dialog(open_sheet):
    shown = open_sheet()
    yield shown
    shown.close()


def sign(qtbot, dialog, name="Ines Duarte"):
    qtbot.keyClicks(dialog.view.signature, name)
    qtbot.waitUntil(lambda: dialog.sheet.signed == name)


def facts(qtbot, session, kind):
    found: list[Any] = []
    session.ask(lambda book: book.all_of(kind), found.append)
    qtbot.waitUntil(lambda: bool(found))
    return [fact.value for fact in found[0]]


def test_the_preview_shows_the_pages_and_says_them(dialog):
    assert dialog.view.preview.pages == 1
    said = dialog.view.preview.accessibleDescription()
    assert "Okafor" in said
    assert "calf" not in said


def test_a_sheet_is_drawn_and_made_into_pictures_away_from_the_window(
    qtbot, open_sheet, monkeypatch
):
    threads: list[threading.Thread] = []
    drawn: list[Drawn] = []
    as_it_is = draw

    def watched(*given):
        threads.append(threading.current_thread())
        drawn.append(as_it_is(*given))
        return drawn[-1]

    monkeypatch.setattr(page, "draw", watched)
    dialog = open_sheet()
    assert threads
    assert threading.main_thread() not in threads
    assert [type(picture) for picture in drawn[-1].pages] == [QImage]
    dialog.close()


def test_an_unsigned_sheet_goes_nowhere(qtbot, dialog, session, tmp_path):
    dialog.save_to(tmp_path / "sheet.pdf", sheets.write_pdf)
    assert "signed" in dialog.view._row.complaint
    assert not (tmp_path / "sheet.pdf").exists()
    assert facts(qtbot, session, SheetIssued) == []


def test_a_sheet_does_not_go_out_before_the_whole_name_typed_stands_on_it(
    qtbot, dialog, session, tmp_path
):
    sign(qtbot, dialog, "Ines")
    qtbot.keyClicks(dialog.view.signature, " Duarte")
    dialog._later.stop()
    dialog.save_to(tmp_path / "sheet.pdf", sheets.write_pdf)
    assert "being drawn with this name" in dialog.view._row.complaint
    assert not (tmp_path / "sheet.pdf").exists()
    dialog._later.start()
    qtbot.waitUntil(lambda: dialog.sheet.signed == "Ines Duarte")
    assert dialog.view._row.complaint == ""
    assert facts(qtbot, session, SheetIssued) == []


def test_a_signed_sheet_is_written_and_noted_with_its_number(qtbot, dialog, session, tmp_path):
    sign(qtbot, dialog)
    with qtbot.waitSignal(dialog.issued):
        dialog.save_to(tmp_path / "sheet.pdf", sheets.write_pdf)
    text = PdfReader(tmp_path / "sheet.pdf").pages[0].extract_text()
    assert "Okafor" in text
    assert "Ines Duarte" in text
    (issued,) = facts(qtbot, session, SheetIssued)
    assert (issued.number, issued.signed) == (1, "Ines Duarte")
    assert "sheet.pdf" in dialog.view.told.text()


def test_the_same_sheet_going_out_twice_is_noted_once(qtbot, dialog, session, tmp_path):
    sign(qtbot, dialog)
    for name, write in (("a.pdf", sheets.write_pdf), ("a.txt", sheets.write_text)):
        with qtbot.waitSignal(dialog.issued):
            dialog.save_to(tmp_path / name, write)
    assert "Okafor" in (tmp_path / "a.txt").read_text()
    assert len(facts(qtbot, session, SheetIssued)) == 1


def test_a_sheet_signed_anew_after_one_went_out_takes_the_next_number(
    qtbot, dialog, session, tmp_path
):
    sign(qtbot, dialog)
    with qtbot.waitSignal(dialog.issued):
        dialog.save_to(tmp_path / "first.pdf", sheets.write_pdf)
    dialog.view.signature.selectAll()
    sign(qtbot, dialog, "Ada Brenner")
    with qtbot.waitSignal(dialog.issued):
        dialog.save_to(tmp_path / "second.pdf", sheets.write_pdf)
    issued = [(s.number, s.signed) for s in facts(qtbot, session, SheetIssued)]
    assert issued == [(1, "Ines Duarte"), (2, "Ada Brenner")]
    assert "replaces 1" in dialog.view.about.text()


def test_one_click_signs_as_who_is_signed_in(qtbot, dialog):
    assert dialog.view.signature.placeholderText() == "Ines Duarte"
    assert dialog.view.signature.text() == ""
    qtbot.mouseClick(dialog.view.sign, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: dialog.sheet.signed == "Ines Duarte")


def test_a_signature_that_tells_something_medical_goes_nowhere(
    qtbot, dialog, session, tmp_path
):
    sign(qtbot, dialog, "Ines Duarte, calf clinic")
    assert "calf" in dialog.view._row.complaint
    dialog.save_to(tmp_path / "sheet.pdf", sheets.write_pdf)
    assert not (tmp_path / "sheet.pdf").exists()
    assert facts(qtbot, session, SheetIssued) == []


def test_free_words_kept_off_the_sheet_are_named_beside_it_with_whose_and_why(
    qtbot, session, open_sheet
):
    shown = open_sheet()
    assert not shown.view.kept_off.isVisible()
    shown.close()
    limited: dict[str, Any] = {"training": Training.FULL, "match": Match.LIMITED}
    said = AvailabilityStated(
        case_id="c1",
        athlete_id="a1",
        on=TODAY,
        match_role="substitute, calf still tight",
        **limited,
    )
    session.write(lambda book: book.note(said), "")
    shown = open_sheet()
    told = shown.view.kept_off.text()
    assert shown.view.kept_off.isVisible()
    assert "Sam Okafor" in told
    assert "calf" in told
    assert "something medical" in told
    assert "calf" not in shown.view.preview.accessibleDescription()
    shown.close()


def test_the_next_sheet_counts_on_and_names_the_one_it_replaces(
    qtbot, dialog, open_sheet, tmp_path
):
    sign(qtbot, dialog)
    with qtbot.waitSignal(dialog.issued):
        dialog.save_to(tmp_path / "sheet.pdf", sheets.write_pdf)
    later = open_sheet()
    assert (later.sheet.number, later.sheet.replaces) == (2, 1)
    assert "replaces 1" in later.view.about.text()
    later.close()


def test_a_place_that_cannot_be_written_is_told_and_nothing_is_noted(
    qtbot, dialog, session, tmp_path
):
    sign(qtbot, dialog)
    dialog.save_to(tmp_path / "no such folder" / "sheet.pdf", sheets.write_pdf)
    qtbot.waitUntil(lambda: "Choose another place" in dialog.view.notice.words)
    assert facts(qtbot, session, SheetIssued) == []


def test_an_older_file_is_replaced_as_a_whole(qtbot, dialog, tmp_path):
    path = tmp_path / "sheet.txt"
    path.write_text("an older sheet" * 10_000)
    sign(qtbot, dialog)
    with qtbot.waitSignal(dialog.issued):
        dialog.save_to(path, sheets.write_text)
    assert "an older sheet" not in path.read_text()
    assert sorted(p.name for p in tmp_path.iterdir() if p.is_file()) == ["sheet.txt"]


def test_a_sentence_with_a_medical_word_or_without_consent_is_not_taken(qtbot, dialog, session):
    qtbot.mouseClick(dialog.view.disclose, Qt.MouseButton.LeftButton)
    window = dialog.form
    assert isinstance(window, FormDialog)
    form: Any = window.form
    assert form.sentence.text() == ""
    qtbot.keyClicks(form.athlete, "Sam")
    qtbot.keyClicks(form.sentence, "back after the scan of the hamstring")
    assert "hamstring" in form.fields["Sentence for the coach"].complaint
    qtbot.mouseClick(window.save, Qt.MouseButton.LeftButton)
    form.sentence.selectAll()
    qtbot.keyClicks(form.sentence, "asks to be called before noon")
    qtbot.mouseClick(window.save, Qt.MouseButton.LeftButton)
    assert "consent" in form.fields["Consent"].complaint
    assert facts(qtbot, session, Disclosed) == []
    form.consent.click()
    before = dialog.sheet
    qtbot.mouseClick(window.save, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: dialog.sheet is not before)
    (agreed,) = facts(qtbot, session, Disclosed)
    assert agreed.consent_taken_by == "Ines Duarte"
    assert "asks to be called before noon" in dialog.view.preview.accessibleDescription()


def test_the_sheet_is_printed_page_by_page(qtbot, dialog, session, tmp_path):
    sign(qtbot, dialog)
    printer = new_printer()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    with qtbot.waitSignal(dialog.issued):
        dialog.print_on(printer)
    printed = PdfReader(tmp_path / "printed.pdf")
    assert len(printed.pages) == dialog.view.preview.pages
    assert len(facts(qtbot, session, SheetIssued)) == 1


@pytest.mark.qt_log_ignore("QPainter::begin")
def test_a_printer_that_refuses_is_told_and_nothing_is_noted(qtbot, dialog, session, tmp_path):
    sign(qtbot, dialog)
    printer = new_printer()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "no such folder" / "printed.pdf"))
    dialog.print_on(printer)
    qtbot.waitUntil(lambda: "did not take the sheet" in dialog.view.notice.words)
    assert facts(qtbot, session, SheetIssued) == []
    assert not print_pages(printer, ())


def test_who_is_stopped_since_is_named_before_a_sheet_goes_out_and_nothing_clinical(
    qtbot, session, open_sheet, tmp_path
):
    ids: dict[str, Any] = {"case_id": "c1", "athlete_id": "a1", "on": TODAY}
    limits = AvailabilityStated(training=Training.WITH_LIMITS, match=Match.AVAILABLE, **ids)
    felt = SessionEntry(session_id="e1", kind=SessionKind.REHAB, symptom=Symptom(7), **ids)
    noted: list[Any] = []
    session.write(lambda book: book.note(limits, felt), "c1", noted.append)
    qtbot.waitUntil(lambda: bool(noted))
    dialog = open_sheet()
    words = "1 athlete is stopped since the sheet's availability was stated: Sam Okafor."
    assert dialog.view.misled.text() == words
    sign(qtbot, dialog)
    out = tmp_path / "sheet.txt"
    dialog.save_to(out, sheets.write_text)
    assert not out.exists()
    assert dialog.view.signature.accessibleDescription().startswith(words)
    dialog.save_to(out, sheets.write_text)
    qtbot.waitUntil(out.exists)
    assert "stopped" not in out.read_text()
    dialog.close()
