"""Every test of the window: off screen, in our font and palette, and no window left behind."""

import gc
import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from PySide6.QtCore import QCoreApplication, QEvent, QSettings
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.appearance import Appearance, Scheme
from teamrehab.desktop.collecting import Collector
from teamrehab.desktop.main_window import MainWindow
from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.records import Cost, create_casebook
from tests.builders import athlete, clock


@pytest.fixture(scope="session")
def appearance(qapp) -> Appearance:
    """The appearance of the one application; light, unless a test chooses otherwise."""
    return Appearance(qapp, Scheme.LIGHT)


@pytest.fixture(scope="session")
def collector(qapp) -> Collector:
    """Garbage goes on the window's thread only, as in the program itself."""
    return Collector(qapp)


@pytest.fixture(autouse=True)
def nothing_left_behind(appearance, collector, tmp_path_factory):
    """Keep settings out of the person's own, and fail a test that leaves a window."""
    settings = tmp_path_factory.mktemp("settings")
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(settings))
    appearance.choose(Scheme.LIGHT)
    yield
    _deliver_deletions()
    collector.collect_if_due()
    if _windows():
        gc.collect()
        _deliver_deletions()
    left = [repr(window) for window in _windows()]
    for window in _windows():
        window.deleteLater()
    _deliver_deletions()
    assert not left, f"windows left behind: {left}"


def _windows():
    return [widget for widget in QApplication.topLevelWidgets() if widget.parent() is None]


def _deliver_deletions():
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


PASSPHRASE = "four words that nobody owns"


@pytest.fixture
def casebook_folder(tmp_path):
    """A closed casebook with two athletes; its passphrase costs little to try."""
    folder = tmp_path / "harbour-rovers"
    casebook = create_casebook(
        folder,
        team=Team(name="Harbour Rovers", sport="football"),
        founder=StaffMember(staff_id="s1", name="Ines Duarte"),
        passphrase=PASSPHRASE,
        clock=clock(),
        cost=Cost(memory_kib=64, passes=1, lanes=1),
    )
    with casebook:
        casebook.note(athlete(), athlete(athlete_id="a2", surname="Silva", number=9))
    return folder


@pytest.fixture
def window(qtbot, appearance, tmp_path):
    """The window as it starts, closed in order afterwards."""
    store = QSettings(str(tmp_path / "preferences.ini"), QSettings.Format.IniFormat)
    window = MainWindow(clock(), appearance, store)
    window.show()
    yield window
    window.close()
    qtbot.waitUntil(lambda: not window.isVisible())
    window.deleteLater()


@pytest.fixture
def unlocked(qtbot, window, casebook_folder):
    """The window with the casebook open and its board complete."""
    window.open_folder(casebook_folder)
    page = window.entrance.unlock_page
    page.passphrase.setText(PASSPHRASE)
    page.unlock.click()
    qtbot.waitUntil(lambda: window.workplace is not None)
    qtbot.waitUntil(lambda: window.workplace.boards.has_estimates)
    return window
