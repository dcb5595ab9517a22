"""Alembic's entry: runs the revisions on the connection that `adapters/migrating.py` hands over."""

from __future__ import annotations

from alembic import context

from bayleaf.adapters import door_tables, paper_tables, push_tables, stock_tables

TABLES = (door_tables.person, paper_tables.paper, push_tables.setting, stock_tables.sheet)  # one metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=TABLES[0].metadata,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
