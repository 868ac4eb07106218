"""Runs the migrations on the connection it is given, inside the transaction open there."""

from alembic import context

from teamrehab.records.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    transactional_ddl=True,
)
context.run_migrations()
