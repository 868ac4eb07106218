"""Write a file whole or not at all, and say so in a sentence if it cannot be done."""

from pathlib import Path

from teamrehab import records
from teamrehab.language import _
from teamrehab.tasks.refusals import RefusedError


def write_whole(path: Path, content: bytes) -> None:
    """Write ``content`` to ``path``; on any trouble the old file stays as it was.

    Raises:
        RefusedError: the place cannot be written; says why and what to do.
    """
    try:
        records.write_whole(path, content)
    except OSError as trouble:
        raise RefusedError(
            _("{path} was not written: {why}. Choose another place.").format(
                path=path, why=trouble.strerror or trouble
            )
        ) from trouble
