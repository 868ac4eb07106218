"""The menus, and the list of keys that Help shows: both from one table."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from teamrehab.desktop.appearance import Scheme
from teamrehab.language import _


@dataclass(frozen=True, slots=True)
class Item:
    """One line of a menu. ``inside``: only while a casebook is open."""

    key: str
    words: str
    keys: str = ""
    inside: bool = False


SEPARATOR = Item("", "")


def file_items() -> tuple[Item, ...]:
    """Return the File menu."""
    return (
        Item("new", _("&New casebook...")),
        Item("open", _("&Open a casebook..."), "Ctrl+O"),
        Item("demo", _("Open the &demo squad")),
        SEPARATOR,
        Item("athlete", _("&Add an athlete..."), inside=True),
        Item("roster", _("Import a &roster..."), inside=True),
        Item("fixtures", _("Import &fixtures..."), inside=True),
        SEPARATOR,
        Item("sheet", _("Coach's &sheet..."), "Ctrl+P", inside=True),
        SEPARATOR,
        Item("lock", _("&Lock"), "Ctrl+L", inside=True),
        Item("quit", _("&Quit"), "Ctrl+Q"),
    )


def edit_items() -> tuple[Item, ...]:
    """Return the Edit menu."""
    return (Item("undo", _("&Undo the last entry"), "Ctrl+Z"),)


def view_items() -> tuple[Item, ...]:
    """Return the View menu without the choice of light and dark."""
    return (
        Item("squad", _("&Squad"), "Ctrl+1", inside=True),
        Item("after", _("&After training"), "Ctrl+2", inside=True),
        Item("casebook", _("&Casebook"), "Ctrl+3", inside=True),
        SEPARATOR,
        Item("protocols", _("&Protocols..."), "Ctrl+Shift+P", inside=True),
    )


def help_items() -> tuple[Item, ...]:
    """Return the Help menu."""
    return (
        Item("first", _("&First steps")),
        Item("keys", _("&Keys"), "F1"),
        SEPARATOR,
        Item("about", _("&About teamrehab")),
    )


def page_keys() -> tuple[tuple[str, str], ...]:
    """Return the keys that pages answer to by themselves, and what each does."""
    return (
        (_("Find an athlete"), "Ctrl+F"),
        (_("Open the athlete chosen"), _("Enter")),
        (_("Tonight's test"), "Ctrl+T"),
        (_("A session"), "Ctrl+E"),
        (_("Availability"), "Ctrl+B"),
        (_("Injury, illness"), "Ctrl+I, Ctrl+Shift+I"),
        (_("Red flag"), "Ctrl+R"),
        (_("Examination"), "Ctrl+G"),
        (_("Diagnosis"), "Ctrl+D"),
        (_("Save a form"), _("Ctrl+Enter")),
        (_("Cover what is clinical for a passer-by"), "F8"),
        (_("Next field, field before"), _("Tab, Shift+Tab")),
        (_("Press a button by its underlined letter"), _("Alt and the letter")),
        (_("Close a dialog"), _("Esc")),
    )


Keys = tuple[tuple[str, str], ...]
"""What keys do, each with the keys."""


def after_training_keys() -> tuple[tuple[str, Keys], ...]:
    """Return the keys of each part of After training under its name."""
    return (
        (_("Evening"), _evening_keys()),
        (_("Close the evening"), _closing_keys()),
        (_("Morning"), _morning_keys()),
        (_("Team session"), _team_session_keys()),
    )


def _evening_keys() -> Keys:
    return (
        (_("As planned, partly, more"), _("Y, P, M")),
        (_("Not done with a reason, not seen"), _("N, X")),
        (_("Symptom and effort; 10; nobody asked"), _("0-9, +, -")),
        (_("After a symptom: pain, tightness, cramp, sharp"), _("P, T, C, S")),
        (_("Tests, note, painkiller, limp, kind of session"), _("T, J, K, L, S")),
        (_("Save the row and go on; empty it"), _("Enter, Esc")),
        (_("Another row"), _("Up, Down")),
        (_("Move a saved row to another athlete"), "Ctrl+M"),
        (_("Availability of who is stopped"), "Ctrl+B"),
        (_("The athlete's page"), "F2"),
        (_("The evening before, after"), _("Alt+Left, Alt+Right")),
        (_("Go on to close the evening"), _("Ctrl+Enter")),
    )


def _closing_keys() -> Keys:
    return (
        (_("Accept, decide otherwise, athlete's page"), _("A, O, P")),
        (_("Anyone else, anyone ill, coach's sheet"), _("C, I, S")),
        (_("Sign; confirm what is asked"), _("Ctrl+Enter, Y")),
    )


def _morning_keys() -> Keys:
    return (
        (_("Symptom; 10; then what was felt"), _("0-9, +, P T C S")),
        (_("Painkiller; take a move back; availability"), _("K, A, Ctrl+B")),
        (_("Save and go on; the day before, after"), _("Enter, Alt+Left, Alt+Right")),
    )


def _team_session_keys() -> Keys:
    return (
        (_("There, not there; an effort of 10"), _("Y, N, +")),
        (_("Take in a copied list"), "Ctrl+V"),
        (_("Save the session"), _("Ctrl+Enter")),
    )


def build_menus(
    window: QMainWindow, do: Callable[[str], object], choose: Callable[[Scheme], None]
) -> tuple[QAction, ...]:
    """Fill the menu bar; return the actions that need an open casebook."""
    bar = window.menuBar()
    inside: list[QAction] = []
    file, edit, view, help_menu = (
        bar.addMenu(words) for words in (_("&File"), _("&Edit"), _("&View"), _("&Help"))
    )
    for menu, items in (
        (file, file_items()),
        (edit, edit_items()),
        (view, view_items()),
        (help_menu, help_items()),
    ):
        inside += _fill(menu, items, do)
    view.addSeparator()
    _add_schemes(view.addMenu(_("&Light and dark")), choose)
    return tuple(inside)


def show_undo(window: QMainWindow, words: str) -> None:
    """Say in the Edit menu what would be taken back; nothing can be without words."""
    for action in window.findChildren(QAction):
        if action.data() == "undo":
            told = _("&Undo: {what}").format(what=words.replace("&", "&&"))
            action.setText(told if words else _("&Undo the last entry"))
            action.setEnabled(bool(words))


def choose_in(window: QMainWindow, scheme: Scheme) -> None:
    """Mark the choice of light and dark that is in use."""
    for action in window.findChildren(QAction):
        if action.data() == scheme.value:
            action.setChecked(True)


def _fill(menu: QMenu, items: tuple[Item, ...], do: Callable[[str], object]) -> list[QAction]:
    inside = []
    for item in items:
        if item is SEPARATOR:
            menu.addSeparator()
            continue
        action = menu.addAction(item.words)
        action.setShortcut(QKeySequence(item.keys))
        action.setData(item.key)
        action.triggered.connect(partial(_do, do, item.key))
        if item.inside:
            inside.append(action)
    return inside


def _do(do: Callable[[str], object], key: str, _checked: bool = False) -> None:  # noqa: FBT001, FBT002  as Qt calls it
    do(key)


def _add_schemes(menu: QMenu, choose: Callable[[Scheme], None]) -> None:
    group = QActionGroup(menu)
    words = {
        Scheme.SYSTEM: _("&As the system"),
        Scheme.LIGHT: _("&Light"),
        Scheme.DARK: _("&Dark"),
    }
    for scheme, label in words.items():
        action = group.addAction(menu.addAction(label))
        action.setCheckable(True)
        action.setData(scheme.value)
    group.triggered.connect(lambda action: choose(Scheme(action.data())))
