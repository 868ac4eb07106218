"""The window over an empty folder and a clock that a journey sets."""

import pytest
from PySide6.QtCore import QSettings

from teamrehab.desktop.main_window import MainWindow
from tests.desktop.conftest import appearance, collector, nothing_left_behind  # noqa: F401
from tests.journeys.physio import ClubTime, Physio


@pytest.fixture
def physio(qtbot, appearance, tmp_path):  # noqa: F811  the fixture imported above
    """A physio at a window that has just started; it is closed in order afterwards."""
    time = ClubTime()
    store = QSettings(str(tmp_path / "preferences.ini"), QSettings.Format.IniFormat)
    window = MainWindow(time.clock, appearance, store)
    with qtbot.waitActive(window):
        window.resize(1366, 768)
        window.show()
        window.activateWindow()
    physio = Physio(qtbot, window, time)
    yield physio
    physio.drop_what_is_open()
    window.close()
    qtbot.waitUntil(lambda: not window.isVisible())
    window.deleteLater()
