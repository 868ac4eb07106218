"""Tables come up to date wholly or not at all, and end up like fresh ones."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import text

from teamrehab.locations import MIGRATIONS
from teamrehab.records import open_casebook, tables
from teamrehab.records.backing_up import backups_of
from teamrehab.records.migrating import bring_up_to_date, make_tables
from teamrehab.records.store import Store
from tests.builders import case, clock
from tests.records.books import SECRET, facts_of, new_book

KEY = bytes(32)
BEFORE = """
import sqlalchemy as sa
from alembic import op
revision, down_revision = "0002", "0001"
def upgrade():
    with op.batch_alter_table("fact", recreate="always") as batch:
        batch.add_column(sa.Column("spare", sa.Text))
    {then}
    with op.batch_alter_table("fact", recreate="always") as batch:
        batch.drop_column("spare")
"""


def scripts(folder: Path, then: str = "pass") -> Path:
    """Return migrations with one more, which rebuilds the fact table twice."""
    shutil.copytree(MIGRATIONS, folder, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "versions" / "0002_more.py").write_text(BEFORE.format(then=then))
    return folder


@pytest.fixture
def store(tmp_path):
    """Return a store whose file has no tables yet."""
    store = Store(tmp_path / "some.db", KEY)
    store.sealed_for(store.path, create=True).close()
    yield store
    store.drop_connections()


def schema(store):
    with store.look() as connection:
        return tables.schema_text(connection)


def older(tmp_path):
    """Return an open casebook that says it is of an older schema."""
    book = new_book(tmp_path / "book")
    book.note(case())
    with book._store.notes.begin() as connection:
        connection.execute(text("PRAGMA user_version=0"))
    return book


def test_the_migrations_make_the_same_tables_as_the_code_says(store, tmp_path):
    make_tables(store)
    fresh = Store(tmp_path / "fresh.db", KEY)
    fresh.sealed_for(fresh.path, create=True).close()
    with fresh.notes.begin() as connection:
        tables.create_all(connection)
    assert schema(store) == schema(fresh)
    assert sum(definition.startswith("CREATE TRIGGER") for definition in schema(store)) == 7
    fresh.drop_connections()


def test_the_newest_migration_is_the_one_the_code_names(store):
    make_tables(store)
    with store.look() as connection:
        found = (
            connection.execute(text("SELECT version_num FROM alembic_version")).scalars().all()
        )
    assert found == [tables.REVISION]


def test_an_older_casebook_is_backed_up_and_comes_up_to_date_on_opening(tmp_path):
    book = older(tmp_path)
    before = facts_of(book)
    book.close()
    backups = len(backups_of(book.folder))
    with open_casebook(book.folder, passphrase=SECRET, clock=clock()) as again:
        assert facts_of(again) == before
        assert len(backups_of(book.folder)) == backups + 1


def test_rebuilding_the_fact_table_keeps_rows_guards_and_indexes(tmp_path):
    book = older(tmp_path)
    before, shape = facts_of(book), schema(book._store)
    bring_up_to_date(book._store, book.folder, book.clock, scripts(tmp_path / "scripts"))
    assert (facts_of(book), schema(book._store)) == (before, shape)
    assert book.check().troubles == ()
    book.close()


@pytest.mark.parametrize("then", ["raise OSError('the power failed')", "1 / 0"])
def test_a_migration_that_fails_half_way_leaves_exactly_the_old_tables(tmp_path, then):
    book = older(tmp_path)
    before, shape = facts_of(book), schema(book._store)
    with pytest.raises((OSError, ZeroDivisionError)):
        bring_up_to_date(book._store, book.folder, book.clock, scripts(tmp_path / "bad", then))
    assert (facts_of(book), schema(book._store)) == (before, shape)
    bring_up_to_date(book._store, book.folder, book.clock, scripts(tmp_path / "good"))
    assert (facts_of(book), schema(book._store)) == (before, shape)
    book.close()


def test_a_migration_that_leaves_other_tables_than_fresh_ones_is_taken_back(tmp_path):
    book = older(tmp_path)
    shape = schema(book._store)
    then = "op.drop_index('fact_by_case')"
    with pytest.raises(RuntimeError, match="differ"):
        bring_up_to_date(book._store, book.folder, book.clock, scripts(tmp_path / "bad", then))
    assert schema(book._store) == shape
    book.close()


KILLED = """
import sys
from pathlib import Path
from teamrehab.records.migrating import make_tables
from teamrehab.records.store import Store
make_tables(Store(Path(sys.argv[1]), bytes.fromhex(sys.argv[2])), Path(sys.argv[3]))
"""


def test_a_program_killed_in_a_migration_leaves_exactly_the_old_tables(tmp_path):
    book = older(tmp_path)
    before, shape = facts_of(book), schema(book._store)
    then = "import os, signal; os.kill(os.getpid(), signal.SIGKILL)"
    folder = scripts(tmp_path / "killed", then)
    book._store.drop_connections()
    key = book._store.key.hex()
    command = [sys.executable, "-c", KILLED, str(book._store.path), key, str(folder)]
    assert subprocess.run(command, check=False).returncode == -9
    assert (facts_of(book), schema(book._store)) == (before, shape)
    assert book.check().troubles == ()
    book.close()
