"""Alembic's entry: runs the revisions on the connection that `adapters/migrating.py` hands over."""

from __future__ import annotations

from alembic import context

from bayleaf.adapters import door_tables  # its tables stand on the same metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=door_tables.person.metadata,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
