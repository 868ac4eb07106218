"""What workers import: nothing of Qt that the window has not imported before."""

import subprocess
import sys
from pathlib import Path

PROGRAM = """
import importlib, sys
import teamrehab.desktop.application, teamrehab.desktop.workplace
from teamrehab.desktop import background

def parts():
    return {name for name in sys.modules if name.startswith("PySide6.Qt")}

background.import_parts_of_qt()
before = parts()
for name in (*background.PAGES, *background.ESTIMATING, *background.DRAWING):
    importlib.import_module(name)
assert parts() == before, parts() - before
"""


def test_no_worker_is_the_first_to_import_a_part_of_qt():
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
