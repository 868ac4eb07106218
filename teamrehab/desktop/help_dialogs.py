"""What Help shows: the keys, the first steps, and what this program is and is not."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from teamrehab import __version__
from teamrehab.desktop.appearance import Space, Type, prose, text
from teamrehab.desktop.buttons import main_button
from teamrehab.desktop.forms import without_mnemonic
from teamrehab.desktop.menus import (
    after_training_keys,
    edit_items,
    file_items,
    help_items,
    page_keys,
    view_items,
)
from teamrehab.language import _


def keys_dialog(parent: QWidget) -> QDialog:
    """Return the list of all keys."""
    items = (*file_items(), *edit_items(), *view_items(), *help_items())
    pairs = [
        (without_mnemonic(item.words).rstrip("."), item.keys) for item in items if item.keys
    ]
    dialog, column = _dialog(parent, _("Keys"))
    beside = QHBoxLayout()
    beside.setSpacing(Space.PAGE)
    everywhere = _key_list([(_("Everywhere"), (*pairs, *page_keys()))])
    for part in (everywhere, _key_list(after_training_keys())):
        beside.addWidget(part, 0, Qt.AlignmentFlag.AlignTop)
    column.addLayout(beside)
    column.setSizeConstraint(QVBoxLayout.SizeConstraint.SetFixedSize)  # no key cut off
    return _closable(dialog, column)


def _key_list(groups: Sequence[tuple[str, Sequence[tuple[str, str]]]]) -> QWidget:
    part = QWidget()
    lines = QGridLayout(part)
    lines.setContentsMargins(0, 0, 0, 0)
    lines.setHorizontalSpacing(Space.APART)
    lines.setVerticalSpacing(Space.TIGHT)
    for heading, told in groups:
        lines.addWidget(text(heading, Type.LEAD), lines.rowCount(), 0, 1, 2)
        for words, keys in told:
            number = lines.rowCount()
            lines.addWidget(text(words), number, 0)
            lines.addWidget(text(keys), number, 1)
    return part


def first_steps_dialog(parent: QWidget) -> QDialog:
    """Return what to do first, for somebody who has never seen the program."""
    dialog, column = _dialog(parent, _("First steps"))
    for heading, words in _first_steps():
        column.addWidget(text(heading, Type.LEAD))
        column.addWidget(prose(words))
    return _closable(dialog, column)


def about_dialog(parent: QWidget) -> QDialog:
    """Return what this program is, which version, and what it is not."""
    dialog, column = _dialog(parent, _("About teamrehab"))
    column.addWidget(text(_("teamrehab {version}").format(version=__version__), Type.TITLE))
    column.addWidget(
        prose(
            _(
                "Decision support for licensed staff. It shows what was measured, what was "
                "agreed and what is likely; a person decides and signs. Estimates are ranges "
                "from published figures and your own cases, and they can be wrong."
            )
        )
    )
    return _closable(dialog, column)


def _first_steps() -> tuple[tuple[str, str], ...]:
    return (
        (
            _("1. Bring your squad"),
            _("File, Import a roster: a CSV or XLSX file. Then the fixtures of the season."),
        ),
        (
            _("2. On the day of an injury"),
            _(
                "Choose the athlete, note who, where and which side, what must rest, and when "
                "you look again. The full examination can wait for the next days."
            ),
        ),
        (
            _("3. In the evening"),
            _(
                "Ctrl+2, After training: one row an athlete. Y, a symptom, an effort and Enter "
                "are a session done as planned; T takes tests. Ctrl+Enter closes the evening: "
                "the program proposes who moves up and says why, you decide. The next morning, "
                "a digit each settles it."
            ),
        ),
        (
            _("4. On Monday"),
            _("Ctrl+P shows the coach's sheet. It holds no diagnosis. Sign it and print it."),
        ),
    )


def _dialog(parent: QWidget, title: str) -> tuple[QDialog, QVBoxLayout]:
    dialog = QDialog(parent)
    dialog.setWindowTitle(title)
    column = QVBoxLayout(dialog)
    column.setContentsMargins(Space.WIDE, Space.WIDE, Space.WIDE, Space.APART)
    column.setSpacing(Space.NEAR)
    dialog.setMinimumWidth(520)
    return dialog, column


def _closable(dialog: QDialog, column: QVBoxLayout) -> QDialog:
    column.addSpacing(Space.NEAR)
    close = main_button(_("&Close"), dialog.accept)
    column.addWidget(close, 0, Qt.AlignmentFlag.AlignRight)
    return dialog
