"""The frame of the window: a message above the page, the status line below it."""

from PySide6.QtWidgets import QLabel, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from teamrehab.desktop.trouble import Notice
from teamrehab.language import _

FIRST_SIZE = (1366, 768)
"""As large as the smallest laptop screen in use (common practice)."""


def lay_out(window: QMainWindow, notice: Notice, pages: QStackedWidget) -> tuple[QLabel, ...]:
    """Put message and pages into the window; return the three labels of the status line."""
    window.setWindowTitle(_("teamrehab"))
    whole = QWidget()
    column = QVBoxLayout(whole)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    column.addWidget(notice)
    column.addWidget(pages, 1)
    window.setCentralWidget(whole)
    status = (QLabel(), QLabel(), QLabel())
    for label in status:
        window.statusBar().addPermanentWidget(label)
    window.resize(*FIRST_SIZE)
    return status
