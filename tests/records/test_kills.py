"""Killed in the middle of saves: what was acknowledged is there, and nothing by half."""

import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from typing import Any

import pytest

from teamrehab.records import open_casebook
from teamrehab.records.store import Store
from tests.builders import clock
from tests.records.books import SECRET, new_book

SAVED = "SELECT slot FROM fact WHERE kind = 'remark' AND seq > ?"


class Victim:
    """The writer, killed again and again on one growing casebook."""

    def __init__(self, folder, *options):
        book = new_book(folder)
        self.store = Store(book._store.path, book._store.key)
        book.close()
        pipe = subprocess.PIPE
        command = [sys.executable, "-m", "tests.records.testwriter", str(folder), *options]
        self.program: Any = subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True)
        self.acknowledged = self.lost = self.halves = 0
        self.looked_at = 0

    def kill_after(self, seconds):
        """Let it write, kill it, and hold what it acknowledged against what is there."""
        self.program.stdin.write("go\n")
        self.program.stdin.flush()
        victim = int(self.program.stdout.readline().split()[1])
        lines = [self.program.stdout.readline()]
        time.sleep(seconds)
        os.kill(victim, signal.SIGKILL)
        while lines[-1] != "dead\n":
            lines.append(self.program.stdout.readline())
        self.compare({int(line.split()[1]) for line in lines if line.startswith("A ")})

    def compare(self, acknowledged):
        with self.store.fresh() as connection:
            rows = connection.execute(SAVED, (self.looked_at,)).fetchall()
            (self.looked_at,) = connection.execute("SELECT max(seq) FROM fact").fetchone()
        found = Counter(int(slot.split(":")[1].split("-")[0]) for (slot,) in rows)
        self.acknowledged += len(acknowledged)
        self.lost += len(acknowledged - set(found))
        self.halves += sum(number != 2 for number in found.values())

    def end(self):
        self.program.stdin.close()
        self.program.wait()
        self.program.stdout.close()


@pytest.mark.slow
def test_two_hundred_kills_lose_no_acknowledged_save_and_leave_no_half_one(tmp_path, capsys):
    victim, dice = Victim(tmp_path / "book"), random.Random(7)
    started = time.perf_counter()
    for _ in range(200):
        victim.kill_after(dice.uniform(0, 0.12))
    victim.end()
    with capsys.disabled():
        taken = time.perf_counter() - started
        print(f"\n200 kills, {victim.acknowledged} acknowledged saves, {taken:.0f} s")
    assert victim.acknowledged > 200
    assert (victim.lost, victim.halves) == (0, 0)
    with open_casebook(tmp_path / "book", passphrase=SECRET, clock=clock()) as book:
        assert book.check().troubles == ()


@pytest.mark.slow
def test_a_writer_that_acknowledges_too_early_does_lose_saves(tmp_path):
    victim, dice = Victim(tmp_path / "book", "--early"), random.Random(7)
    for _ in range(30):
        victim.kill_after(dice.uniform(0, 0.05))
    victim.end()
    assert victim.lost > 0
