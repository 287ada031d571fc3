"""Opening the database of a home: engine, pragmas, sessions."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session, sessionmaker

from archive.errors import Conflict
from archive.settings import Settings
from archive.store import history, touched
from archive.store.files import FileStore

_WRITING = "lemel_writing"


@dataclass
class Store:
    """One home's database and kept files."""

    settings: Settings

    @cached_property
    def engine(self) -> Engine:
        """The engine, made once; SQLite gets foreign keys, write-ahead log and a patient lock."""
        return open_engine(self.settings.database)

    @cached_property
    def files(self) -> FileStore:
        """The kept files."""
        return FileStore(self.settings.files)

    @cached_property
    def _sessions(self) -> sessionmaker[Session]:
        sessions = sessionmaker(self.engine, expire_on_commit=False)
        history.follow(sessions)
        return sessions

    @contextmanager
    def session(self) -> Iterator[Session]:
        """A session to read with; what is not committed is forgotten."""
        with self._sessions() as session:
            yield session

    @contextmanager
    def changing(self, who: str) -> Iterator[Session]:
        """A session to change records with: commits at the end, or leaves the old state on any error."""
        with self._sessions() as session:
            session.info["who"] = who
            with session.begin():
                _take_turn(session)
                yield session

    def after_commit(self, listener: touched.Listener) -> None:
        """Tell the listener, after every commit from now on, which records it touched."""
        touched.tell(self._sessions, listener)

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()


def open_engine(url: str, *, foreign_keys: bool = True) -> Engine:
    """An engine for any SQLAlchemy URL. Only migrations do without foreign keys, since they rebuild tables."""
    engine = create_engine(url)
    if make_url(url).get_backend_name() == "sqlite":
        pragmas = ("busy_timeout=15000", f"foreign_keys={foreign_keys:d}", "journal_mode=WAL", "synchronous=FULL")
        event.listen(engine, "connect", lambda connection, _record: _prepare_sqlite(connection, pragmas))
        event.listen(engine, "begin", _begin_sqlite)
    return engine


def _prepare_sqlite(connection: Any, pragmas: tuple[str, ...]) -> None:
    # The driver's own BEGIN comes too late for consistent reads; SQLAlchemy sends it instead (see _begin_sqlite).
    connection.isolation_level = None
    cursor = connection.cursor()
    for pragma in pragmas:
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begin_sqlite(connection: Any) -> None:
    connection.exec_driver_sql("BEGIN IMMEDIATE" if connection.get_execution_options().get(_WRITING) else "BEGIN")


def _take_turn(session: Session) -> None:
    """Wait for the right to write before anything is read.

    SQLite refuses at once to write over what another process changed after the first read.
    """
    try:
        session.connection(execution_options={_WRITING: True})
    except OperationalError as problem:
        if "locked" not in str(problem.orig):
            raise
        raise Conflict(
            "Another process has been changing this home for a while. Try again when it is done."
        ) from problem
