"""The program as it is started: what it imports, what it leaves behind, how it ends."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from teamrehab.tasks.demo import make_demo
from tests.builders import clock

HEAVY = ("numpy", "scipy", "pyqtgraph", "reportlab", "alembic", "sqlalchemy.orm", "pypdfium2")
LATER = (
    "teamrehab.desktop.athlete.page",
    "teamrehab.desktop.casebook_page",
    "teamrehab.desktop.create_page",
    "teamrehab.desktop.sheet.page",
)

FIRST_PAINT = """
import sys
from pathlib import Path
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication
from teamrehab.desktop.appearance import Appearance
from teamrehab.desktop.main_window import MainWindow
from teamrehab.desktop.workplace import Workplace
from tests.builders import clock

def painted(workplace):
    print(len(workplace.boards.board.rows), flush=True)
    print(*sys.modules, flush=True)
    begin(workplace)
begin = Workplace.begin_the_rest
Workplace.begin_the_rest = painted
app = QApplication([])
folder = Path(sys.argv[1])
store = QSettings(str(folder / "s.ini"), QSettings.Format.IniFormat)
window = MainWindow(clock(), Appearance(app), store)
window.show()
window.open_folder(folder / "demo")
def complete(_board):
    if window.workplace.boards.has_estimates:
        print("numpy" in sys.modules, flush=True)
        window.close()
def entered():
    window.workplace.boards.changed.connect(complete)
window.session.opened.connect(entered)
app.exec()
print("pyqtgraph" in sys.modules and "reportlab.platypus" in sys.modules, flush=True)
"""


OFFSCREEN_SAYS = "This plugin does not support propagateSizeHints()"


def started(tmp_path, *words):
    """The program in a home of its own, offscreen."""
    environ = {"HOME": str(tmp_path), "QT_QPA_PLATFORM": "offscreen", "PATH": "/usr/bin:/bin"}
    return subprocess.Popen(
        [sys.executable, "-m", "teamrehab", *words],
        env=environ, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
        cwd=Path(__file__).parents[2],
    )  # fmt: skip


@pytest.fixture
def demo(tmp_path):
    make_demo(tmp_path / "demo", clock()).close()
    return tmp_path


@pytest.mark.slow
def test_nothing_heavy_is_imported_before_the_board_is_painted(demo):
    done = subprocess.run(
        [sys.executable, "-c", FIRST_PAINT, str(demo)],
        capture_output=True, text=True, check=True, timeout=60,
        env={"QT_QPA_PLATFORM": "offscreen", "HOME": str(demo)},
        cwd=Path(__file__).parents[2],
    )  # fmt: skip
    rows, modules, *warmed = done.stdout.splitlines()
    assert int(rows) >= 30
    imported = set(modules.split())
    assert [name for name in (*HEAVY, *LATER) if name in imported] == []
    assert warmed == ["True", "True"]


@pytest.mark.slow
@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="signals")
def test_asked_to_end_it_closes_the_casebook_in_order(tmp_path):
    program = started(tmp_path, "demo")
    log = tmp_path / ".local/state/teamrehab/log/teamrehab.log"
    _wait_for(program, lambda: log.exists() and " opened" in log.read_text())
    program.send_signal(signal.SIGTERM)
    said, _nothing = program.communicate(timeout=60)
    assert program.returncode == 0
    assert set(said.splitlines()) <= {OFFSCREEN_SAYS}
    folder = tmp_path / ".local/share/teamrehab/demo"
    assert not list(folder.glob("*-wal"))
    assert list((folder / "backups").iterdir())
    words = log.read_text()
    assert [e for e in ("started", "opened", "closed", "ended") if f" {e}" not in words] == []


def _wait_for(program, holds):
    import time

    for _ in range(600):
        if holds():
            return
        assert program.poll() is None, program.communicate()[0]
        time.sleep(0.1)
    program.kill()
    raise AssertionError("it never came up")


TWO_COME_IN = """
import sys, threading, time
import teamrehab.records as door
first = threading.Thread(target=lambda: door.open_casebook)
first.start()
while "sqlalchemy" not in sys.modules:
    time.sleep(0.0005)
print(door.Casebook.__name__)
first.join()
"""


def test_two_threads_may_come_in_by_the_door_of_the_records_at_once():
    done = subprocess.run(
        [sys.executable, "-c", TWO_COME_IN], capture_output=True, text=True, check=True,
        cwd=Path(__file__).parents[2],
    )  # fmt: skip
    assert (done.stdout, done.stderr) == ("Casebook\n", "")


KEPT = """
import ctypes, resource
from teamrehab.desktop.application import keep_memory_to_ourselves
get_dumpable = 3
print(ctypes.CDLL(None).prctl(get_dumpable, 0, 0, 0, 0), end=" ")
keep_memory_to_ourselves()
print(ctypes.CDLL(None).prctl(get_dumpable, 0, 0, 0, 0), end=" ")
print(resource.getrlimit(resource.RLIMIT_CORE)[0])
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="prctl")
def test_no_core_file_and_no_other_program_may_read_its_memory():
    done = subprocess.run(
        [sys.executable, "-c", KEPT], capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["1", "0", "0"]
