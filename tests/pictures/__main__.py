"""Pictures of every page and of the sheet: ``python -m tests.pictures FOLDER``.

The demo squad, grabbed off screen at a small laptop's and a large screen's size, light and
dark; the coach's sheet as the pages of its PDF. For looking at, not for comparing.
"""

import os
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QEventLoop, QSettings, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from teamrehab.desktop.appearance import Appearance, Scheme
from teamrehab.desktop.athlete.actions import Act
from teamrehab.desktop.band import Place
from teamrehab.desktop.collecting import Collector
from teamrehab.desktop.evening.place import AfterTraining, Part
from teamrehab.desktop.main_window import MainWindow
from teamrehab.desktop.protocol_page import ProtocolDialog
from teamrehab.desktop.sheet.page import SheetDialog
from teamrehab.domain.days import Clock
from teamrehab.reports.paper.coach_sheet import draw_coach_sheet
from teamrehab.reports.paper.preview import pages_as_png
from teamrehab.tasks import demo, sheets

SIZES = ((1366, 768), (2560, 1440))

ACTS = (
    Act.TEST,
    Act.EXAMINE,
    Act.AVAILABILITY,
    Act.DIAGNOSIS,
    Act.CLEAR,
    Act.FLAG,
    Act.SIGNS,
    Act.DECIDE,
)
"""Forms that are drawn over the page of an open case."""


def until(holds: Callable[[], object], seconds: float = 30) -> None:
    """Let events run until something holds."""
    loop, timer = QEventLoop(), QTimer()
    timer.timeout.connect(lambda: loop.quit() if holds() else None)
    timer.start(20)
    QTimer.singleShot(int(seconds * 1000), loop.quit)
    loop.exec()


def settle() -> None:
    """Let what was asked for be drawn."""
    QTimer.singleShot(400, (loop := QEventLoop()).quit)
    loop.exec()


def pictures(window: MainWindow) -> Iterator[tuple[str, QWidget]]:
    """Show one page after another; yield its name and what to grab."""
    yield "start", window
    window.entrance.show_create()
    yield "new-casebook", window
    window.entrance.open_demo()
    until(lambda: window.workplace is not None and window.workplace.boards.has_estimates)
    workplace = window.workplace
    assert workplace is not None
    yield "squad", window
    board = workplace.boards.board
    assert board is not None
    staged = next(row for row in board.rows if row.decision and row.decision.stage == 4)
    workplace.show_athlete(staged.athlete_id)
    yield "athlete", window
    for act in ACTS:
        workplace.athlete.view.actions_bar.actions_by_act[act].trigger()
        dialog = workplace.athlete.dialog
        assert dialog is not None
        yield f"form-{act.value}", dialog
        dialog.done(0)
    workplace.commands()["protocols"]()
    protocols = window.findChild(ProtocolDialog)
    assert protocols is not None
    yield "protocols", protocols
    protocols.done(0)
    healthy = next(row for row in board.rows if not row.case_id)
    workplace.show_athlete(healthy.athlete_id)
    yield "healthy", window
    yield from after_training(workplace.after_training, window)
    workplace.go_to(Place.CASEBOOK)
    yield "casebook", window
    workplace.go_to(Place.SQUAD)
    workplace.commands()["sheet"]()
    yield "sheet", window.findChild(SheetDialog) or window
    (png,) = pages_as_png(draw_coach_sheet(sheets.prepare(board, signed="")), 1.5)
    Path(FOLDER, "sheet-on-paper.png").write_bytes(png)


def after_training(place: AfterTraining, window: MainWindow) -> Iterator[tuple[str, QWidget]]:
    """Show the evening untouched, asked about and closed, the morning and the team session."""
    window.do("after")
    place.show_part(Part.EVENING)
    yield "evening", window
    for keys in ("P", "YS", "Y5S3", "T"):
        row = place.evening.list.active
        assert row is not None
        QTest.keyClicks(row, keys)
        if keys == "Y5S3":
            QTest.keyClick(row, Qt.Key.Key_Return)
        yield f"evening-{keys}", window
        QTest.keyClick(QApplication.focusWidget() or row, Qt.Key.Key_Escape)
        QTest.keyClick(row, Qt.Key.Key_Escape)
    place.show_closing()
    yield "evening-closing", window
    for part in (Part.MORNING, Part.TEAM_SESSION):
        place.show_part(part)
        yield part.name.lower().replace("_", "-"), window


def draw(scheme: Scheme, size: tuple[int, int], home: Path) -> None:
    """Draw every page in one size and scheme."""
    appearance = Appearance(APPLICATION)
    store = QSettings(str(home / "settings.ini"), QSettings.Format.IniFormat)
    now = Clock(lambda: datetime.now(UTC))  # noqa: TID251  a shell of its own
    window = MainWindow(now, appearance, store)
    appearance.choose(scheme)
    window.resize(*size)
    window.show()
    for name, page in pictures(window):
        settle()
        page.grab().save(str(FOLDER / f"{name}-{size[0]}-{scheme.value}.png"))
    for dialog in window.findChildren(SheetDialog):
        dialog.done(0)
    window.close()
    until(lambda: window.session is None)


if __name__ == "__main__":
    FOLDER = Path(sys.argv[1])
    FOLDER.mkdir(parents=True, exist_ok=True)
    APPLICATION = QApplication([])
    COLLECTOR = Collector(APPLICATION)
    with TemporaryDirectory() as made:
        demo.demo_folder = lambda: Path(made) / "demo"
        for scheme in (Scheme.LIGHT, Scheme.DARK):
            for size in SIZES:
                draw(scheme, size, Path(made))
    print(*sorted(path.name for path in FOLDER.glob("*.png")), sep="\n")
