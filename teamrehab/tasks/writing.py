"""Write a file whole or not at all: beside its place first, then moved onto it."""

import os
from pathlib import Path

from teamrehab.language import _
from teamrehab.tasks.refusals import RefusedError


def write_whole(path: Path, content: bytes) -> None:
    """Write ``content`` to ``path``; on any trouble the old file stays as it was.

    Raises:
        RefusedError: the place cannot be written; says why and what to do.
    """
    part = path.with_name(f".{path.name}.part")
    try:
        with part.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    except OSError as trouble:
        part.unlink(missing_ok=True)
        raise RefusedError(
            _("{path} was not written: {why}. Choose another place.").format(
                path=path, why=trouble.strerror or trouble
            )
        ) from trouble
