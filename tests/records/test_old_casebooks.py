"""A casebook written by any released version opens, tells the same, and can be written to."""

import json
import shutil

import pytest

from teamrehab.domain.injuries import Remark
from teamrehab.records import open_casebook
from teamrehab.records.tables import SCHEMA
from tests.builders import clock, day
from tests.records.books import SECRET, facts_of, values
from tests.records.examples import CASE
from tests.records.old_casebooks.make import HERE, newest_kinds, told

SCHEMAS = sorted(path.name for path in HERE.glob("schema_*") if path.is_dir())


@pytest.fixture(params=SCHEMAS)
def old(request, tmp_path):
    """Return a copy of an old casebook, and what it told when it was written."""
    shutil.copytree(HERE / request.param, tmp_path / "old")
    return tmp_path / "old", (HERE / f"{request.param}.json").read_bytes().rstrip()


def includes(now, then):
    """Return whether all that was told then is told now; later fields may stand beside it."""
    match now, then:
        case dict(), dict():
            return all(key in now and includes(now[key], then[key]) for key in then)
        case list(), list():
            return len(now) == len(then) and all(map(includes, now, then))
        case _:
            return now == then


def opened(folder):
    return open_casebook(folder, passphrase=SECRET, clock=clock(day(30)))


def test_what_is_written_today_is_frozen_in_a_casebook_of_a_release():
    """Kinds and their schemas: one that changed takes a casebook of its release."""
    frozen = [json.loads(path.read_bytes()) for path in HERE.glob("*.kinds.json")]
    assert newest_kinds() in frozen, "python -m tests.records.old_casebooks.make"
    assert any(name.startswith(f"schema_{SCHEMA}") for name in SCHEMAS)


def test_an_old_casebook_tells_what_it_told_when_it_was_written(old):
    folder, expected = old
    with opened(folder) as book:
        assert includes(json.loads(told(book)), json.loads(expected))
        assert book.check().troubles == ()


def test_an_old_casebook_goes_on_where_it_ended(old):
    folder, _ = old
    with opened(folder) as book:
        ours = [f for f in facts_of(book) if f.header.author == "s1"]
        (new,) = book.note(Remark(remark_id="new", text="still here", **CASE)).fact_ids
        fact = next(f for f in facts_of(book) if f.header.id == new)
        assert (fact.header.seq, fact.header.prev) == (ours[-1].header.seq + 1, ours[-1].hash)
    with opened(folder) as book:
        assert "still here" in [remark.text for remark in values(book, Remark)]
        assert book.check().troubles == ()


def test_an_old_casebook_s_squad_and_case_can_be_shown(old):
    folder, _ = old
    with opened(folder) as book:
        assert [person.name for person in book.squad(day(30)).athletes] == ["Sam Okafor"]
        assert {h.case.case_id for h in book.past_cases()} == {"c1"}
        assert len(book.case("c1").facts) > 10
