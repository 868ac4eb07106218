"""Every colour pair that carries words or a series, by WCAG 2.2 (w3.org/TR/WCAG22)."""

import re

import pytest

from teamrehab.desktop.appearance import style_sheet
from teamrehab.desktop.colours import DARK, LIGHT, colours_of, palette_of
from tests.contrast import contrast

SETS = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])

# The eight colours of the published set: Nat Methods 2011;8:441, doi 10.1038/nmeth.1618.
PUBLISHED = {
    "#000000", "#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7",
}  # fmt: skip


@SETS
@pytest.mark.parametrize("ground", ["paper", "page", "chosen"])
@pytest.mark.parametrize("ink", ["ink", "muted", "accent", "alarm"])
def test_words_stand_out_from_every_ground(colours, ink, ground):
    assert contrast(getattr(colours, ink), getattr(colours, ground)) >= 4.5


@SETS
def test_words_stand_out_on_the_accent(colours):
    assert contrast(colours.on_accent, colours.accent_fill) >= 4.5


@SETS
def test_series_stand_out_from_their_ground_and_are_of_the_published_set(colours):
    assert set(colours.data) <= PUBLISHED
    for series in colours.data:
        assert contrast(series, colours.page) >= 3
        assert contrast(series, colours.paper) >= 3


@SETS
def test_a_palette_tells_which_set_it_was_made_from(colours):
    assert colours_of(palette_of(colours)) is colours


def dressed(colours, selector: str, what: str) -> str:
    """The colour that the style sheet gives to ``what`` of a selector."""
    sheet = style_sheet(colours)
    heads = ((rule, rule.partition("{")[0].strip().split(", ")) for rule in sheet.splitlines())
    rules = [rule for rule, selectors in heads if selector in selectors]
    found = [m for r in rules for m in re.findall(rf"{what} (#\w{{6}})", r)]
    assert found, f"{selector} has no {what}"
    return str(found[-1])


# WCAG 2.2, 1.4.11 and 2.4.13: what one operates and where one is, 3 to 1 against its ground.
@SETS
@pytest.mark.parametrize("ground", ["paper", "page"])
@pytest.mark.parametrize(
    ("part", "what"),
    [
        ("QScrollBar::handle", "background:"),
        ("QSplitter::handle", "border-left: 1px solid"),
        ("QCheckBox::indicator:checked", "background:"),
    ],
)
def test_what_one_takes_hold_of_stands_out_from_its_ground(colours, part, what, ground):
    assert contrast(dressed(colours, part, what), getattr(colours, ground)) >= 3


FOCUSED = (
    "QCheckBox:focus",
    "QRadioButton:focus",
    "QPushButton:focus",
    'QPushButton[main="true"]:focus',
    'QPushButton[place="true"]:focus',
    'QPushButton[choice="true"]:focus',
    'QPushButton[quiet="true"]:focus',
)


@SETS
@pytest.mark.parametrize("ground", ["paper", "page", "chosen"])
@pytest.mark.parametrize("part", FOCUSED)
def test_a_frame_of_two_pixels_shows_where_the_keyboard_is(colours, part, ground):
    assert contrast(dressed(colours, part, "border: 2px solid"), getattr(colours, ground)) >= 3
