"""Every window there is, one after the other, for tests that look at all of them."""

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtWidgets import QWidget

from teamrehab.desktop import help_dialogs
from teamrehab.desktop.athlete_dialog import AthleteDialog
from teamrehab.desktop.create_page import CreatePage
from teamrehab.desktop.evening.place import Part
from teamrehab.desktop.import_dialog import ImportDialog
from teamrehab.desktop.intakes import fixtures_intake, roster_intake
from teamrehab.desktop.key_dialog import KeyDialog
from teamrehab.desktop.main_window import MainWindow
from teamrehab.desktop.protocol_page import protocols_dialog
from teamrehab.desktop.sheet.page import SheetDialog
from teamrehab.desktop.start_page import StartPage
from teamrehab.desktop.trouble import MistakeDialog, Notice
from teamrehab.desktop.unlock_page import UnlockPage


def outside(folder: Path) -> Iterator[QWidget]:
    """Yield the pages and dialogs before a casebook is open."""
    start = StartPage()
    start.show_recent([str(folder)])
    yield start
    yield CreatePage()
    yield UnlockPage(folder, ["Ines Duarte"])
    yield MistakeDialog("")
    notice = Notice()
    notice.say("")
    yield notice


def inside(window: MainWindow, folder: Path) -> Iterator[QWidget]:
    """Yield the open casebook, place by place, and its dialogs."""
    assert window.session is not None
    assert window.workplace is not None
    roster = folder / "roster.csv"
    roster.write_text("No,Surname\n5,Okafor\n5000,Menon\n", encoding="utf-8")
    calendar = folder / "season.ics"
    calendar.write_text("BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n", encoding="utf-8")
    board = window.workplace.boards.board
    assert board is not None
    window.workplace.show_athlete(board.rows[0].athlete_id)
    yield window
    window.do("after")
    for part in Part:
        window.workplace.after_training.show_part(part)
        yield window
    window.workplace.after_training.show_closing()
    yield window
    window.do("casebook")
    yield window
    yield ImportDialog(window.session, roster_intake(), roster, window)
    yield ImportDialog(window.session, fixtures_intake(), calendar, window)
    yield KeyDialog(window.session, [], window)
    yield AthleteDialog(window.session, window)
    yield protocols_dialog(window.workplace.athlete.open_now(), window)
    yield SheetDialog(window.session, board, window)
    for dialog in (help_dialogs.keys_dialog, help_dialogs.first_steps_dialog):
        yield dialog(window)
    yield help_dialogs.about_dialog(window)
