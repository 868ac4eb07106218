"""Files written whole or not at all, and folders whose entries survive a power cut."""

import errno
import os
from pathlib import Path

_CANNOT_SETTLE_FOLDERS = (errno.EINVAL, errno.ENOTSUP)


def write_whole(path: Path, data: bytes) -> None:
    """Write ``data`` to ``path``: beside its place first, then moved onto it, on the disk.

    Raises:
        OSError: it was not written; what lay there before is as it was.
    """
    part = path.with_name(f".{path.name}.part")
    try:
        with part.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    except OSError:
        part.unlink(missing_ok=True)
        raise
    settle(path.parent)


def settle(path: Path) -> None:
    """Wait until a file, or the entries of a folder, are on the disk.

    Some network and stick file systems cannot be asked to settle a folder; Windows has no way
    to ask. That is not a fault: nothing more can be done there.
    """
    if os.name == "nt" and path.is_dir():
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if not path.is_dir() or error.errno not in _CANNOT_SETTLE_FOLDERS:
            raise
    finally:
        os.close(handle)


def make_folder(folder: Path) -> None:
    """Make a folder and those above it where they are missing; each is on the disk."""
    missing = [place for place in (folder, *folder.parents) if not place.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    for place in reversed(missing):
        settle(place.parent)
