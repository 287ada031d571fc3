"""Tells a listener which records a session changed, after they are committed for good."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import event, inspect
from sqlalchemy.orm import Session, UOWTransaction, sessionmaker

from archive.store.base import Base

_TOUCHED = "touched"


@dataclass(frozen=True)
class Touched:
    """A record that was added, changed or deleted: its table, key, reference, and the keys of what it belongs to."""

    table: str
    id: int
    ref: str
    belongs: tuple[tuple[str, int], ...]


Listener = Callable[[frozenset[Touched], dict[str, Any]], None]


def tell(sessions: sessionmaker[Session], listener: Listener) -> None:
    """Call the listener after each commit with what was touched and the session's own notes.

    Collected after each flush: before a commit, rows that an earlier query has flushed are no longer new.
    """

    def collect(session: Session, _context: UOWTransaction) -> None:
        held: set[Touched] = session.info.setdefault(_TOUCHED, set())
        for record in (*session.new, *session.dirty, *session.deleted):
            if isinstance(record, Base) and isinstance(getattr(record, "id", None), int):
                held.add(_touched(record))

    def forget(session: Session) -> None:
        session.info.pop(_TOUCHED, None)

    def pass_on(session: Session) -> None:
        held = session.info.pop(_TOUCHED, None)
        if held:
            listener(frozenset(held), session.info)

    event.listen(sessions, "after_flush", collect)
    event.listen(sessions, "after_rollback", forget)
    event.listen(sessions, "after_commit", pass_on)


def _touched(record: Any) -> Touched:
    columns = [column.key for column in inspect(type(record)).column_attrs if column.key.endswith("_id")]
    belongs = tuple((name, key) for name in columns if isinstance(key := getattr(record, name), int))
    return Touched(record.__tablename__, record.id, getattr(record, "ref", ""), belongs)
