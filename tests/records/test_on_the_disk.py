"""What a power cut must not undo: every file and every folder's entries reach the disk."""

import errno
import os
import stat

import pytest

from teamrehab.domain.athletes import StaffMember
from teamrehab.records import NotSavedError, write_whole
from teamrehab.records.backing_up import back_up
from tests.builders import clock
from tests.records.books import CHEAP, new_book


def is_folder(handle):
    return stat.S_ISDIR(os.fstat(handle).st_mode)


class Disk:
    """Remembers, for each folder the program waited for, the entries it had then."""

    def __init__(self, monkeypatch):
        self.kept: dict[int, set[str]] = {}
        self.files: set[int] = set()
        self.sync = os.fsync
        monkeypatch.setattr(os, "fsync", self.fsync)

    def fsync(self, handle):
        self.sync(handle)
        place = os.fstat(handle).st_ino
        if is_folder(handle):
            self.kept[place] = set(os.listdir(handle))  # noqa: PTH208  a handle has no path
        else:
            self.files.add(place)

    def holds(self, path):
        """Return whether a power cut now would leave the entry and, for a file, its bytes."""
        listed = path.name in self.kept.get(path.parent.stat().st_ino, ())
        return listed and (path.is_dir() or path.stat().st_ino in self.files)


@pytest.fixture
def disk(monkeypatch):
    return Disk(monkeypatch)


def test_a_new_casebook_with_its_keys_is_on_the_disk_and_so_are_the_folders_above(
    disk, tmp_path
):
    with new_book(tmp_path / "club" / "medical" / "book") as book:
        folder = book.folder
        assert all(map(disk.holds, [folder, *list(folder.parents)[:2]]))
        assert disk.holds(folder / "keys")
        assert "casebook.db" in disk.kept[folder.stat().st_ino]
        slots = list((folder / "keys").iterdir())
        assert len(slots) == 2
        assert all(map(disk.holds, slots))


def test_a_key_given_to_a_colleague_is_on_the_disk_before_the_call_returns(disk, tmp_path):
    with new_book(tmp_path / "book") as book:
        disk.kept.clear()
        book.give_key(StaffMember(staff_id="s2", name="Ana Ruiz"), "another secret", CHEAP)
        slots = list((book.folder / "keys").iterdir())
        assert len(slots) == 4
        assert all(map(disk.holds, slots))


def test_the_first_backup_is_on_the_disk_down_to_its_keys(disk, tmp_path):
    with new_book(tmp_path / "book") as book:
        made = back_up(book._store, book.folder, book.clock)
        inside = [made.parent, made, *(path for path in made.rglob("*"))]
        assert len(inside) == 6
        assert all(map(disk.holds, inside))


def failing(monkeypatch, number, folders_only):
    def fsync(handle):
        if not folders_only or is_folder(handle):
            raise OSError(number, "said the disk")

    monkeypatch.setattr(os, "fsync", fsync)


def test_a_file_that_cannot_be_settled_leaves_the_old_one_and_nothing_beside_it(
    tmp_path, monkeypatch
):
    (tmp_path / "sheet.txt").write_bytes(b"old")
    failing(monkeypatch, errno.EIO, folders_only=False)
    with pytest.raises(OSError, match="said the disk"):
        write_whole(tmp_path / "sheet.txt", b"new")
    assert [path.read_bytes() for path in tmp_path.iterdir()] == [b"old"]


def test_a_stick_that_knows_no_settling_of_folders_can_still_be_written_to(
    tmp_path, monkeypatch
):
    failing(monkeypatch, errno.EINVAL, folders_only=True)
    write_whole(tmp_path / "sheet.txt", b"new")
    assert (tmp_path / "sheet.txt").read_bytes() == b"new"


def test_a_disk_that_fails_to_settle_a_key_is_told(tmp_path, monkeypatch):
    with new_book(tmp_path / "book", clock()) as book:
        failing(monkeypatch, errno.EIO, folders_only=True)
        with pytest.raises(NotSavedError):
            book.give_key(StaffMember(staff_id="s2", name="Ana"), "another secret", CHEAP)
        monkeypatch.undo()
