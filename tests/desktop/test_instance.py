"""A second start raises the first window, and a killed first start blocks nobody."""

import subprocess
import sys

import pytest

from teamrehab.desktop.instance import OnlyInstance

HOLD = """
import sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from teamrehab.desktop.instance import OnlyInstance
app = QCoreApplication([])
only = OnlyInstance(Path(sys.argv[1]))
print(only.take(), flush=True)
app.exec()
"""


@pytest.fixture
def only(qapp, tmp_path):
    instance = OnlyInstance(tmp_path)
    yield instance
    instance.release()
    instance.deleteLater()


def test_a_second_start_gives_way_and_calls_the_first(qtbot, only, tmp_path):
    assert only.take()
    with qtbot.waitSignal(only.called):
        second = subprocess.run(
            [sys.executable, "-c", HOLD.replace("app.exec()", ""), str(tmp_path)],
            capture_output=True, text=True, check=True,
        )  # fmt: skip
    assert second.stdout.strip() == "False"


def test_after_a_kill_the_next_start_works_at_once(only, tmp_path):
    first = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(tmp_path)], stdout=subprocess.PIPE, text=True
    )
    assert first.stdout is not None
    assert first.stdout.readline().strip() == "True"
    assert not only.take()
    first.kill()
    first.wait()
    first.stdout.close()
    assert only.take()
