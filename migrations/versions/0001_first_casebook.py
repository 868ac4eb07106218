"""The first casebook: facts, what they replace, their bodies, and what stays on a laptop."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=False)


def _number(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, nullable=False)


def upgrade() -> None:
    op.create_table(
        "fact",
        _text("id"),
        _text("hash"),
        _text("team"),
        _text("device"),
        _number("seq"),
        _text("prev"),
        _text("stamp"),
        _text("author"),
        _text("kind"),
        _number("schema"),
        _text("slot"),
        _text("athlete"),
        _text("case_id"),
        _text("local_date"),
        _text("happened_at"),
        _text("zone"),
        _text("body_hash"),
        sa.PrimaryKeyConstraint("id", "hash"),
        sa.UniqueConstraint("device", "seq", "hash", name="one_place_in_a_chain"),
    )
    op.create_index("fact_by_case", "fact", ["case_id"])
    op.create_index("fact_by_kind_and_day", "fact", ["kind", "local_date", "case_id", "id"])
    op.create_index("fact_by_kind_and_athlete", "fact", ["kind", "athlete", "local_date"])
    op.create_index("fact_by_slot", "fact", ["slot"])
    op.create_table(
        "supersession",
        _text("parent"),
        _text("child"),
        sa.PrimaryKeyConstraint("parent", "child"),
        sqlite_with_rowid=False,
    )
    op.create_index("supersession_by_child", "supersession", ["child"])
    op.create_table(
        "body", _text("body_hash"), _text("text"), sa.PrimaryKeyConstraint("body_hash")
    )
    op.create_table("this_laptop", _text("key"), _text("value"), sa.PrimaryKeyConstraint("key"))
    op.create_table("draft", _text("place"), _text("text"), sa.PrimaryKeyConstraint("place"))
    op.create_table("cache", _text("key"), _text("value"), sa.PrimaryKeyConstraint("key"))
    op.create_table(
        "import_log",
        _text("digest"),
        _text("taken_in_at"),
        _number("facts"),
        sa.PrimaryKeyConstraint("digest"),
    )


def downgrade() -> None:
    """A casebook is never taken back to an older schema: the backup made before is opened."""
    raise NotImplementedError
