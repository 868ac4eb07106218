"""What holds for every window: names for screen readers, an order for Tab, one language."""

import re
from itertools import pairwise
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QMainWindow,
    QMenu,
    QPlainTextEdit,
    QTableView,
    QTabWidget,
    QWidget,
)

from teamrehab import language
from teamrehab.desktop.create_page import CreatePage
from teamrehab.desktop.evening.place import Part
from teamrehab.desktop.help_dialogs import keys_dialog
from teamrehab.desktop.unlock_page import UnlockPage
from tests.desktop.walking import inside, outside
from tests.fakes import PseudoCatalogue

LINE = 8
"""Widgets that stand in one line may differ by a few pixels."""

DATA = re.compile(
    "Harbour Rovers|Ines Duarte|Sam|Okafor|Menon|Silva|football|UTC|harbour-rovers|teamrehab"
    r"|Ctrl\+(?:Shift\+)?\w|F\d|Esc|[a-z]+\.(csv|ics)|/[\w/.-]+"
)


def name_of(widget):
    buddies = [
        label.text()
        for label in widget.window().findChildren(QLabel)
        if label.buddy() is widget
    ]
    own = widget.text() if isinstance(widget, QAbstractButton) else ""
    return widget.accessibleName() or own or "".join(buddies)


def reachable(window):
    return [
        widget
        for widget in window.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.isVisibleTo(window)
        and not widget.objectName().startswith("qt_")
        and widget.focusProxy() is None
        and not isinstance(widget.parent(), QComboBox)
    ]


def check_names(window):
    nameless = [widget for widget in reachable(window) if not name_of(widget).strip()]
    assert nameless == [], f"in {type(window).__name__}"


def test_outside_every_control_has_a_name(qtbot, tmp_path):
    for window in outside(tmp_path / "harbour-rovers"):
        qtbot.addWidget(window)
        check_names(window)


def test_inside_every_control_has_a_name(qtbot, unlocked, tmp_path):
    for window in inside(unlocked, tmp_path):
        if isinstance(window, QDialog):
            qtbot.addWidget(window)
        check_names(window)


@pytest.mark.parametrize("make", [CreatePage, lambda: UnlockPage(Path("/x"), ["A"])])
def test_tab_goes_down_the_page(qtbot, make):
    page = make()
    qtbot.addWidget(page)
    page.resize(900, 900)
    page.show()
    qtbot.waitExposed(page)
    first = page.findChildren(QLineEdit)[0]
    chain, widget = [first], first.nextInFocusChain()
    while widget is not first:
        chain.append(widget)
        widget = widget.nextInFocusChain()
    stops = [w for w in chain if w in reachable(page)]
    tops = [w.mapTo(page, QPoint(0, 0)) for w in stops]
    start = min(range(len(tops)), key=lambda n: (tops[n].y(), tops[n].x()))
    ordered = tops[start:] + tops[:start]
    assert len(ordered) > 2
    for one, other in pairwise(ordered):
        beside = abs(one.y() - other.y()) <= LINE
        assert one.x() < other.x() if beside else one.y() < other.y()


def said_by(window):
    """Every word a window shows or says, with where it was found."""
    yield window, window.windowTitle()
    for widget in (window, *window.findChildren(QWidget)):
        yield widget, widget.toolTip()
        yield widget, widget.accessibleName()
        yield widget, widget.accessibleDescription()
        yield from ((widget, words) for words in _shown(widget))
    for action in window.findChildren(QAction):
        yield action, action.text()


def _shown(widget):
    match widget:
        case QLabel() | QAbstractButton():
            return [widget.text()]
        case QLineEdit():
            return [widget.placeholderText(), widget.text()]
        case QPlainTextEdit():
            return [widget.toPlainText()]
        case QComboBox():
            return [widget.itemText(n) for n in range(widget.count())]
        case QTabWidget():
            return [widget.tabText(n) for n in range(widget.count())]
        case QTableView() if widget.model() is not None:
            return list(_cells(widget.model()))
    return []


def _cells(model):
    across = Qt.Orientation.Horizontal
    for column in range(model.columnCount()):
        yield str(model.headerData(column, across) or "")
        for line in range(model.rowCount()):
            yield str(model.index(line, column).data() or "")


def escaped(words):
    """The words that stand outside every bracket and are no data."""
    words = re.sub(r"<[^>]*>", "", words)
    while "⟦" in words:
        shorter = re.sub(r"⟦[^⟦⟧]*⟧", "", words)
        if shorter == words:
            break
        words = shorter
    return re.sub(r"[\W\d_]", "", DATA.sub("", words))


def test_the_pseudo_language_tells_what_was_never_asked_for():
    assert escaped("⟦Save ⟦now⟧⟧ Harbour Rovers 12") == ""
    assert escaped("⟦Save⟧ now") == "now"


@pytest.fixture
def pseudo():
    language.use(PseudoCatalogue())
    yield
    language.speak("en")


def check_language(window):
    left = [(type(who).__name__, words) for who, words in said_by(window) if escaped(words)]
    assert left == [], f"in {type(window).__name__}"


def test_outside_no_word_escapes_the_language_in_use(pseudo, qtbot, tmp_path):
    for window in outside(tmp_path / "harbour-rovers"):
        qtbot.addWidget(window)
        check_language(window)


def test_inside_no_word_escapes_the_language_in_use(pseudo, qtbot, unlocked, tmp_path):
    for window in inside(unlocked, tmp_path):
        if isinstance(window, QDialog):
            qtbot.addWidget(window)
        qtbot.wait(20)
        check_language(window)
    assert isinstance(unlocked, QMainWindow)


def test_no_letter_for_alt_is_given_twice_after_training(unlocked):
    """Two of one letter would only go round between them, and never get there."""
    unlocked.do("after")
    place = unlocked.workplace.after_training
    for part in Part:
        place.show_part(part)
        words = [
            menu.title() for menu in unlocked.menuBar().findChildren(QMenu) if menu.title()
        ]
        top = [w for w in words if w.replace("&", "") in {"File", "Edit", "View", "Help"}]
        shown = [w for w in unlocked.findChildren(QWidget) if w.isVisible()]
        labels = [w.text() for w in shown if isinstance(w, QLabel) and w.buddy() is not None]
        buttons = [w.text() for w in shown if isinstance(w, QAbstractButton)]
        said = [part for words in (*top, *labels, *buttons) for part in letters(words)]
        assert sorted(said) == sorted(set(said)), part


def letters(words):
    return [one.lower() for one in re.findall(r"&(\w)", words)]


def test_the_list_of_keys_fits_a_small_laptop_and_names_every_part_after_training(unlocked):
    dialog = keys_dialog(unlocked)
    dialog.show()
    shown = {label.text() for label in dialog.findChildren(QLabel)}
    assert {"Evening", "Close the evening", "Morning", "Team session"} <= shown
    assert (dialog.width() <= 1366, dialog.height() <= 768 - 40) == (True, True)  # its title
    dialog.done(0)
    dialog.deleteLater()
