"""Runs the steps on the connection it is handed (see archive.store.migrating)."""

from __future__ import annotations

from alembic import context

from archive.store.base import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
    compare_type=True,
)
with context.begin_transaction():
    context.run_migrations()
