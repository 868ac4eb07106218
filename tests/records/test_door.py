"""The door of the records is opened by any thread, by several at once too."""

import subprocess
import sys
from itertools import combinations

import pytest

from teamrehab.records import _LATER

PROGRAM = """
import sys, threading
names, troubles = sys.argv[1:], []
ready = threading.Barrier(len(names))
sys.setswitchinterval(1e-6)

def go_in(name):
    ready.wait()
    try:
        exec(f"from teamrehab.records import {name}")
    except ImportError as trouble:
        troubles.append(trouble)

threads = [threading.Thread(target=go_in, args=(name,)) for name in names]
for thread in threads:
    thread.start()
for thread in threads:
    thread.join()
sys.exit("; ".join(map(str, troubles)) or 0)
"""


PAIRS_AND_ALL = [*combinations(sorted(_LATER), 2), tuple(sorted(_LATER))]


@pytest.mark.parametrize("names", PAIRS_AND_ALL, ids="-".join)
def test_threads_that_come_in_at_once_all_get_what_they_came_for(names):
    """Each group in a fresh process, its threads changing places as often as can be."""
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, *names], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
