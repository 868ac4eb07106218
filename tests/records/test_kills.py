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
from teamrehab.records.backing_up import backups_of
from teamrehab.records.store import Store
from tests.builders import clock
from tests.records.books import SECRET, new_book

DRAFTS = "SELECT text FROM draft"
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
        self.typed = self.typed_lost = self.offered_again = 0
        self.looked_at = 0

    def kill_after(self, seconds, sign=""):
        """Let it write, kill it so long after a line that begins with the sign, and compare."""
        victim = self.start()
        lines = self.read_until(sign)
        time.sleep(seconds)
        os.kill(victim, signal.SIGKILL)
        lines += self.read_until("dead")
        self.compare(told(lines, "A "), told(lines, "D "))

    def start(self):
        """Start a writer; return its process id."""
        self.program.stdin.write("go\n")
        self.program.stdin.flush()
        return int(self.program.stdout.readline().split()[1])

    def read_until(self, sign):
        lines = [self.program.stdout.readline()]
        while not lines[-1].startswith(sign):
            lines.append(self.program.stdout.readline())
        return lines

    def seconds_to_close(self):
        """Return how long one undisturbed closing takes."""
        victim = self.start()
        self.read_until("C")
        started = time.perf_counter()
        self.read_until("Z")
        taken = time.perf_counter() - started
        os.kill(victim, signal.SIGKILL)
        self.read_until("dead")
        return taken

    def compare(self, acknowledged, typed):
        """Hold what it acknowledged, saves and drafts, against what is there."""
        with self.store.fresh() as connection:
            rows = connection.execute(SAVED, (self.looked_at,)).fetchall()
            drafts = {int(text) for (text,) in connection.execute(DRAFTS).fetchall()}
            (self.looked_at,) = connection.execute("SELECT max(seq) FROM fact").fetchone()
        found = Counter(int(slot.split(":")[1].split("-")[0]) for (slot,) in rows)
        self.acknowledged += len(acknowledged)
        self.lost += len(acknowledged - set(found))
        self.halves += sum(number != 2 for number in found.values())
        self.typed += len(typed)
        self.typed_lost += len(typed - set(found) - drafts)
        self.offered_again += len(drafts & set(found))

    def end(self):
        self.program.stdin.close()
        self.program.wait()
        self.program.stdout.close()


def told(lines, sign):
    return {int(line.split()[1]) for line in lines if line.startswith(sign)}


@pytest.mark.slow
def test_two_hundred_kills_lose_nothing_saved_or_typed_and_leave_nothing_half(tmp_path, capsys):
    victim, dice = Victim(tmp_path / "book"), random.Random(7)
    started = time.perf_counter()
    for _ in range(200):
        victim.kill_after(dice.uniform(0, 0.12))
    victim.end()
    with capsys.disabled():
        taken = time.perf_counter() - started
        print(f"\n200 kills, {victim.acknowledged} acknowledged saves, {taken:.0f} s")
    assert min(victim.acknowledged, victim.typed) > 200
    assert (victim.lost, victim.halves) == (0, 0)
    assert (victim.typed_lost, victim.offered_again) == (0, 0)
    with open_casebook(tmp_path / "book", passphrase=SECRET, clock=clock()) as book:
        assert book.check().troubles == ()


@pytest.mark.slow
def test_a_writer_that_acknowledges_too_early_does_lose_saves(tmp_path):
    victim, dice = Victim(tmp_path / "book", "--early"), random.Random(7)
    for _ in range(200):
        victim.kill_after(dice.uniform(0, 0.05))
        if min(victim.lost, victim.typed_lost) > 0:
            break
    victim.end()
    assert min(victim.lost, victim.typed_lost) > 0


@pytest.mark.slow
def test_a_program_killed_while_it_closes_loses_nothing_and_leaves_no_half_backup(tmp_path):
    folder = tmp_path / "book"
    victim = Victim(folder, "--closing")
    taken, cut = victim.seconds_to_close(), 0
    for number in range(20):
        before = backups_of(folder)
        early_and_late = taken * (number**2) / 100  # from at once to long after the end
        victim.kill_after(early_and_late, sign="C")
        new = set(backups_of(folder)) - set(before)
        cut += not new
        assert [troubles(place) for place in (folder, *new)] == [()] * (1 + len(new))
    victim.end()
    assert victim.acknowledged == 20 * 20
    assert (victim.lost, victim.halves) == (0, 0)
    assert cut > 3


def troubles(folder):
    """Return what a full check finds, leaving the casebook as a closed one without a backup."""
    book = open_casebook(folder, passphrase=SECRET, clock=clock())
    try:
        return book.check().troubles
    finally:
        book._store.close()
        book._lock.release()
