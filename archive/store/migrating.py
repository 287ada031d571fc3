"""Bringing a home's database up to the newest step, in one transaction."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection

from archive.errors import Conflict
from archive.store.session import open_engine


def upgrade(url: str, to: str = "head") -> None:
    """Run every step that the database has not had, all or none; a new database gets them all."""
    # SQLite rebuilds tables to change them; with foreign keys on, the rows of other tables would go with the old one.
    engine = open_engine(url, foreign_keys=False)
    try:
        with engine.begin() as connection:
            _refuse_newer(connection)
            command.upgrade(_config(connection), to)
            _refuse_loose_ends(connection)
    finally:
        engine.dispose()


def step_of(connection: Connection) -> str | None:
    """The newest step that the database has had."""
    return MigrationContext.configure(connection).get_current_revision()


def newest_step() -> str | None:
    """The newest step there is."""
    return ScriptDirectory.from_config(_config(None)).get_current_head()


def _refuse_newer(connection: Connection) -> None:
    step = step_of(connection)
    known = {script.revision for script in ScriptDirectory.from_config(_config(None)).walk_revisions()}
    if step is not None and step not in known:
        raise Conflict(
            f"This home was written by a newer Lemel (step {step}). Install that version or a later one to open it."
        )


def _refuse_loose_ends(connection: Connection) -> None:
    if connection.dialect.name != "sqlite":
        return
    loose = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if loose:
        tables = ", ".join(sorted({row[0] for row in loose}))
        raise Conflict(f"The upgrade would leave rows that point nowhere ({tables}). Nothing was changed.")


def _config(connection: Connection | None) -> Config:
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    config.attributes["connection"] = connection
    return config
