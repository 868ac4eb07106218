"""Freeze a casebook of the present schema: ``python -m tests.records.old_casebooks.make``.

Run once a release that changes the schema, before the change is released; never again for a
schema that has been frozen. Every kind of fact is in it, with a correction, a withdrawal, two
versions and an erasure, and beside it what must be read from it, as JSON.
"""

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import msgspec

from teamrehab import __version__
from teamrehab.domain.history import Standing
from teamrehab.domain.injuries import Diagnosis, Remark
from teamrehab.records import Casebook, create_casebook
from teamrehab.records.kinds import KINDS
from teamrehab.records.tables import SCHEMA
from tests.builders import clock, day
from tests.records.books import FOUNDER, SECRET, TEAM, OtherLaptop
from tests.records.examples import CASE, EXAMPLES

HERE = Path(__file__).parent


def fill(book: Casebook) -> None:
    """Write every kind of fact, and everything that can happen to one."""
    for first, second in EXAMPLES.values():
        (noted,) = book.note(first).fact_ids
        book.note(second, replaces=[noted], why="corrected")
    for number in range(3):
        book.note(Remark(remark_id=f"extra{number}", text="slept badly", **CASE))
    withdrawn, erased, _ = (f.fact_id for f in book.all_of(Remark) if "extra" in str(f.value))
    book.withdraw(withdrawn, why="wrong athlete")
    book.erase(erased, "asked for")
    book.take_in([OtherLaptop(book).writes(Diagnosis(injury="hamstring", **CASE))])


def told(book: Casebook) -> bytes:
    """Return everything that stands, kind by kind, as readable JSON."""
    facts: dict[str, tuple[Standing[Any], ...]] = {
        kind.name: book.all_of(kind.shape) for kind in KINDS.values()
    }
    standing = {
        name: [
            {
                "value": msgspec.to_builtins(fact.value),
                "author": fact.author,
                "versions": fact.versions,
                "corrected": fact.corrected,
            }
            for fact in found
        ]
        for name, found in facts.items()
    }
    return msgspec.json.format(msgspec.json.encode(standing), indent=1)


def newest_kinds() -> dict[str, int]:
    """Return every kind of fact with the schema it is written in today."""
    return {kind.name: kind.schema for kind in KINDS.values()}


def make() -> None:
    """Write ``schema_N_version_V`` and its JSON beside this file, unless they are there."""
    target = HERE / f"schema_{SCHEMA}_version_{__version__}"
    with TemporaryDirectory() as place:
        book = create_casebook(
            Path(place) / "book",
            team=TEAM,
            founder=FOUNDER,
            passphrase=SECRET,
            clock=clock(day(9)),
        )
        fill(book)
        expected = told(book)
        book.close()
        keep = shutil.ignore_patterns("backups", "casebook.lock")
        shutil.copytree(book.folder, target, ignore=keep)
    (HERE / f"{target.name}.json").write_bytes(expected + b"\n")
    (HERE / f"{target.name}.kinds.json").write_bytes(
        msgspec.json.format(msgspec.json.encode(newest_kinds())) + b"\n"
    )


if __name__ == "__main__":
    make()
