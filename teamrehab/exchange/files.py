"""Reading a chosen file: not too big, and a sentence for everything that may go wrong."""

from pathlib import Path

from teamrehab.exchange.problems import UnreadableFileError
from teamrehab.language import _

MEGABYTE = 1_000_000


def contents(path: Path, at_most: int) -> bytes:
    """Return the bytes of a file of ``at_most`` bytes; raise UnreadableFileError."""
    try:
        size = path.stat().st_size
        if size > at_most:
            raise UnreadableFileError(_too_big(path, size, at_most))
        data = path.read_bytes()
    except OSError as refusal:
        why = _("{file} could not be opened: {why}. Choose another file.")
        reason = refusal.strerror or type(refusal).__name__
        raise UnreadableFileError(why.format(file=path.name, why=reason)) from refusal
    if not data.strip():
        raise UnreadableFileError(
            _("{file} is empty. Choose another file.").format(file=path.name)
        )
    return data


def _too_big(path: Path, size: int, at_most: int) -> str:
    sentence = _("{file} has {size} MB; at most {most} MB are read. Choose another file.")
    return sentence.format(file=path.name, size=-(-size // MEGABYTE), most=at_most // MEGABYTE)
