"""The record of changes: who changed which record, when, and what it said before and after."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import event, inspect
from sqlalchemy.orm import Session, UOWTransaction, sessionmaker

from archive.store.base import Base
from archive.store.model import Change
from archive.values.dates import UncertainDate

# What is itself a log, or must not be written down twice (a password's hash).
UNWRITTEN = frozenset(
    {
        "change",
        "event",
        "load",
        "kept_file",
        "sign_in_try",
        "job",
        "tour_version",
        "transcript_version",
        "upload",
        "cut_clip",
    }
)
SECRET = frozenset({"password_hash"})
# Long, and worked out anew from the file itself.
WORKED_OUT = frozenset({"likeness", "facts"})
WHOLE_LOAD = "whole_load"


def follow(sessions: sessionmaker[Session]) -> None:
    """Write a row for every record that is added, changed or deleted through these sessions.

    A load of a whole folder is one deed with a row of its own (`store.model.Load`): it sets `session.info[WHOLE_LOAD]`.
    """
    event.listen(sessions, "after_flush", _write)


def _write(session: Session, _context: UOWTransaction) -> None:
    if session.info.get(WHOLE_LOAD):
        return
    rows = [
        *(_row(session, "added", record, None, _now(record)) for record in session.new if _kept(record)),
        *(_row(session, "changed", record, *_edit(record)) for record in session.dirty if _kept(record)),
        *(_row(session, "deleted", record, _now(record), None) for record in session.deleted if _kept(record)),
    ]
    rows = [row for row in rows if row["before"] != row["after"]]
    if rows:
        session.execute(Change.__table__.insert(), rows)  # type: ignore[attr-defined]


def _kept(record: object) -> bool:
    return isinstance(record, Base) and record.__tablename__ not in UNWRITTEN


def _row(session: Session, kind: str, record: Any, before: Any, after: Any) -> dict[str, Any]:
    name = getattr(record, "ref", None) or record.id
    return {
        "who": session.info.get("who", ""),
        "kind": kind,
        "record": f"{record.__tablename__}:{name}",
        "before": before,
        "after": after,
    }


def _now(record: Any) -> dict[str, Any]:
    """What the record says, column by column."""
    return {name: _plain(getattr(record, name)) for name in _columns(record)}


def _edit(record: Any) -> tuple[dict[str, Any], dict[str, Any]]:
    """Only what changed: what it said before and what it says now."""
    before, after = {}, {}
    for name in _columns(record):
        history = inspect(record).attrs[name].history
        if history.has_changes():
            before[name] = _plain(history.deleted[0] if history.deleted else None)
            after[name] = _plain(getattr(record, name))
    return before, after


def _columns(record: Any) -> list[str]:
    return [column.key for column in inspect(type(record)).column_attrs if column.key not in SECRET | WORKED_OUT]


def _plain(value: Any) -> Any:
    if isinstance(value, UncertainDate):
        return value.text
    return value.isoformat() if isinstance(value, dt.date) else value
