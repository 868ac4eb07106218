"""What the menus call a thing, the guide, the window and the command line call it too."""

import re
from pathlib import Path

import pytest

from teamrehab.command_line.app import build
from teamrehab.desktop.intakes import fixtures_intake, roster_intake
from teamrehab.desktop.menus import file_items
from tests.builders import clock

README = Path(__file__).parents[2] / "README.md"


def menu_words():
    return {item.words.replace("&", "").removesuffix("...") for item in file_items()}


def test_the_guide_names_only_menu_items_that_there_are():
    named = re.findall(r"\*File > ([^*]+)\*", README.read_text(encoding="utf-8"))
    assert len(named) >= 2
    assert set(named) <= menu_words()


def test_a_dialog_that_imports_is_titled_as_its_menu_item():
    assert {roster_intake().title, fixtures_intake().title} <= menu_words()


@pytest.mark.parametrize("command", ["roster", "fixtures"])
def test_the_command_line_imports_too(capsys, command):
    build(clock())([command, "--help"], exit_on_error=False, result_action="return_value")
    said = capsys.readouterr().out
    assert f"Import {command}" in said or f"Import a {command}" in said
