"""Every test of the window: off screen, in our font and palette, and no window left behind."""

import gc
import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from PySide6.QtCore import QCoreApplication, QEvent, QSettings
from PySide6.QtWidgets import QApplication

from teamrehab.desktop.appearance import Appearance, Scheme


@pytest.fixture(scope="session")
def appearance(qapp) -> Appearance:
    """The appearance of the one application; light, unless a test chooses otherwise."""
    return Appearance(qapp, Scheme.LIGHT)


@pytest.fixture(autouse=True)
def nothing_left_behind(appearance, tmp_path_factory):
    """Keep settings out of the person's own, and fail a test that leaves a window."""
    settings = tmp_path_factory.mktemp("settings")
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(settings))
    appearance.choose(Scheme.LIGHT)
    yield
    _deliver_deletions()
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
