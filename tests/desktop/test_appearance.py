"""The look: one style sheet, one scale, light and dark."""

import re
from collections import Counter

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import (
    FAMILY,
    SCALE_PT,
    Scheme,
    Space,
    Type,
    body_font,
    prose,
    style_sheet,
    text,
)
from teamrehab.desktop.colours import DARK, LIGHT, colours_of
from teamrehab.locations import RESOURCES


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_the_style_sheet_takes_every_colour_from_the_table(colours):
    sheet = style_sheet(colours)
    assert "$" not in sheet
    own = {value for value in vars_of(colours) if value.startswith("#")}
    assert set(re.findall(r"#[0-9a-f]{6}", sheet)) <= own


def test_the_style_sheet_is_one_short_file_without_a_colour_or_size_of_its_own():
    sheet = (RESOURCES / "window.qss").read_text(encoding="utf-8")
    assert len(sheet.splitlines()) <= 150
    assert not re.search(r"#[0-9a-fA-F]{3}|rgb|font-size:\s*\d", sheet)


def test_every_type_has_a_size_or_is_said_otherwise():
    assert set(Type) - set(SCALE_PT) == {Type.COMPLAINT}
    sizes = [
        SCALE_PT[role] for role in (Type.SMALL, Type.BODY, Type.LEAD, Type.TITLE, Type.DISPLAY)
    ]
    assert sizes == sorted(sizes)
    assert sorted(Space) == list(Space)


def test_choosing_dark_reaches_widgets_that_are_there_already(appearance, qtbot):
    seen, not_yet_seen = QLabel("x"), QLabel("y")
    qtbot.addWidget(seen)
    qtbot.addWidget(not_yet_seen)
    seen.show()
    heard = []
    appearance.changed.connect(lambda: heard.append(1))
    appearance.choose(Scheme.DARK)
    not_yet_seen.show()
    assert colours_of(seen.palette()) is DARK
    assert colours_of(not_yet_seen.palette()) is DARK
    assert heard
    appearance.choose(Scheme.LIGHT)
    assert colours_of(seen.palette()) is LIGHT


class Dressings(QObject):
    """Counts how often each widget is dressed anew."""

    def __init__(self):
        super().__init__()
        self.counts: Counter[str] = Counter()

    @override
    def eventFilter(self, watched, event):
        if event.type() is QEvent.Type.StyleChange:
            self.counts[watched.objectName()] += 1
        return False


def nested(depth):
    inner = outer = QWidget()
    for number in range(depth):
        inner = QLabel(str(number), inner)
        inner.setObjectName(f"label {number}")
    return outer


def test_a_change_dresses_a_widget_no_more_often_the_deeper_it_lies(appearance, qtbot, qapp):
    outer = nested(12)
    qtbot.addWidget(outer)
    outer.show()
    dressings = Dressings()
    qapp.installEventFilter(dressings)
    appearance.choose(Scheme.DARK)
    qapp.removeEventFilter(dressings)
    assert dressings.counts["label 0"] >= 1
    assert dressings.counts["label 11"] == dressings.counts["label 0"]


def test_choosing_what_is_worn_already_dresses_nothing(appearance):
    heard = []
    appearance.changed.connect(lambda: heard.append(1))
    appearance.choose(Scheme.LIGHT)
    assert heard == []


def test_as_the_system_follows_the_system(appearance, qtbot):
    appearance.choose(Scheme.SYSTEM)
    system = QApplication.styleHints().colorScheme()
    assert appearance.colours() is (DARK if system is Qt.ColorScheme.Dark else LIGHT)


def test_figures_stand_below_each_other_in_our_own_font(qapp):
    font = body_font()
    assert font.family() == FAMILY
    metrics = QFontMetricsF(font)
    assert len({metrics.horizontalAdvance(digit) for digit in "0123456789"}) == 1


def test_words_are_never_taken_for_markup(qtbot):
    label, running = text("<b>Ana</b>"), prose("a < b & c")
    qtbot.addWidget(label)
    qtbot.addWidget(running)
    assert label.textFormat() is Qt.TextFormat.PlainText
    assert "a &lt; b &amp; c" in running.text()


def vars_of(colours):
    return [getattr(colours, name) for name in colours.__slots__ if name != "data"]
